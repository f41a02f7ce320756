import { useEffect, useMemo, useState } from "preact/hooks";

import { LiveView } from "../parts/live_view";
import { labelIn } from "../pocket/judgments";
import type { Pocket, PocketSet } from "../pocket/shape";
import type { InHand } from "../pocket/use_job";
import { shown } from "../scan/label_code";
import { Scanner } from "../scan/scanner";
import { piecesWords } from "../words/container";
import { say } from "../words/say";
import { InView } from "./in_view";

interface Props {
  readonly hand: InHand;
  readonly pocket: Pocket;
  readonly set: PocketSet;
}

/** The camera while a set goes back on: a wrench read is in the hand, a bag is told to be the right one or not, a badge is a person. */
export function ScanHere({ hand, pocket, set }: Props) {
  const [open, setOpen] = useState(false);
  return (
    <>
      <div class="actions">
        <button type="button" aria-expanded={open} onClick={() => setOpen(!open)}>{say(open ? "scan.stop" : "scan.here")}</button>
      </div>
      {open && <Camera hand={hand} pocket={pocket} set={set} />}
    </>
  );
}

function Camera({ hand, pocket, set }: Props) {
  const scanner = useMemo(() => new Scanner(), []);
  useEffect(() => () => scanner.close(), []);
  const [code, setCode] = useState<string | null>(null);
  return (
    <LiveView scanner={scanner} seen={(seen) => seen[0] && setCode(seen[0].code)}>
      {() => (
        <div class="in-view" role="status">
          {code === null ? <p class="label">{say("scan.none")}</p> : <Seen hand={hand} pocket={pocket} set={set} code={code} />}
        </div>
      )}
    </LiveView>
  );
}

function Seen({ hand, pocket, set, code }: Props & { readonly code: string }) {
  const label = labelIn(pocket, code);
  if (label.is !== "container") return <InView key={code} hand={hand} pocket={pocket} code={code} mouth={null} act={() => undefined} />;
  const here = label.container.contents.filter((each) => each.set === set.set);
  if (here.length) return <p class="label">{say("scan.right", { label: shown(code), what: here.map(piecesWords).join(", ") })}</p>;
  const what = label.container.contents.map(piecesWords).join(", ") || say("scan.empty");
  return <p class="label" role="alert">{say("scan.wrong", { label: shown(code), what, set: set.set })}</p>;
}
