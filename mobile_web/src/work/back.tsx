import { useState } from "preact/hooks";

import type { OnPhone, PocketSet } from "../pocket/shape";
import type { InHand } from "../pocket/use_job";
import { shownIn } from "../pocket/shown";
import { pathOf } from "../route";
import { say } from "../words/say";
import { Emptied } from "./emptied";
import { CountPad } from "./figures";
import { Frame } from "./frame";
import { ScanHere } from "./scan_here";
import { Facts, Holes } from "./set_card";
import { Tighten } from "./tighten";

interface Props {
  readonly job: string;
  readonly about: string;
}

/** A set goes back on: where each goes, fitted, tightened, the bag looked into. */
export function Back({ job, about }: Props) {
  return (
    <Frame job={job} title={about} up={{ screen: "work", job, view: "hub", about: "" }} upName={say("work.title")}>
      {(hand, here) => {
        const set = here.pocket.sets.find((each) => each.set === about);
        return set ? <BackOn hand={hand} here={here} set={set} /> : <p class="headline">{say("back.missing", { set: about })}</p>;
      }}
    </Frame>
  );
}

interface OnProps {
  readonly hand: InHand;
  readonly here: OnPhone;
  readonly set: PocketSet;
}

function BackOn({ hand, here, set }: OnProps) {
  const { pocket } = here;
  const open = set.holes.filter((hole) => hole.level === "empty" || hole.level === "parked");
  return (
    <>
      <Holes pocket={pocket} set={set} />
      <ScanHere hand={hand} pocket={pocket} set={set} />
      <Before hand={hand} here={here} set={set} />
      {open.length > 0 && <Fit hand={hand} here={here} set={set} />}
      {open.length === 0 && set.holes.some((hole) => hole.loose) && <TightAgain hand={hand} set={set} />}
      <Tighten hand={hand} pocket={pocket} set={set} />
      <Emptied hand={hand} pocket={pocket} set={set.set} />
      <Facts pocket={pocket} set={set} />
      <p class="actions">
        <a class="button" href={pathOf({ screen: "work", job: pocket.job, view: "where", about: set.set })}>{say("back.mark")}</a>
      </p>
    </>
  );
}

/** What must be on before, and new: each a button; what waits under a part is said as the server said it. */
function Before({ hand, here, set }: OnProps) {
  const { pocket } = here;
  const parts = pocket.parts.filter((part) => !part.on && set.first.includes(part.part));
  const seals = pocket.renewals.filter((each) => each.fitted < each.n && (each.set === set.set || (each.under !== null && each.under === set.part)));
  if (!parts.length && !seals.length) return null;
  return (
    <div class="actions">
      {seals.map((each) => {
        const n = each.n - each.fitted;
        const fitted = { kind: "renewal-fitted", renewal: each.renewal, n };
        return (
          <button type="button" key={each.renewal} onClick={() => void hand.record([fitted], say("said.seal-on", { name: each.renewal, n }))}>
            {say("back.seal", { name: each.renewal, n })}
          </button>
        );
      })}
      {parts.map((part) => (
        <button type="button" key={part.part} onClick={() => void hand.record([{ kind: "part-fitted", part: part.part }], say("said.part-on", { name: part.part }))}>
          <span>
            {say("back.part", { name: part.part })}
            {part.owed.length > 0 && <span class="hint">{part.owed.join(". ")}</span>}
          </span>
        </button>
      ))}
    </div>
  );
}

/** Fitted: all from a bag with one tap, or fewer. */
function Fit({ hand, here, set }: OnProps) {
  const { pocket } = here;
  const [fewer, setFewer] = useState<string | null>(null);
  const open = set.holes.filter((hole) => hole.level === "empty").length;
  const parked = set.holes.filter((hole) => hole.level === "parked").length;
  const tight = set.torque === null || set.torque.hand_tight;
  const shownOf = (container: string) => shownIn(pocket, container);
  const fit = (n: number, source: string | null, isNew = false) => {
    const fitted = { kind: "fasteners-fitted", set: set.set, n, source, ...(isNew ? { new: true } : {}), mode: source ? "scan" : "tap" };
    const from = isNew ? say("back.new") : source ? shownOf(source) : say("back.own");
    void hand.record([fitted], say(tight ? "said.fitted.tight" : "said.fitted", { n, set: set.set, from }));
    setFewer(null);
  };
  return (
    <>
      <h2>{say(tight ? "back.fit.tight" : "back.fit")}</h2>
      <div class="actions">
        {set.lies_in.map(({ container, n }) => (
          <button type="button" class="shutter" key={container} disabled={!open} onClick={() => fit(Math.min(n, open), container)}>
            {say("back.fitted", { n: Math.min(n, open), from: shownOf(container) })}
          </button>
        ))}
        {parked > 0 && <button type="button" onClick={() => fit(parked, null)}>{say("back.parked", { n: parked })}</button>}
        {open > 0 && (set.single_use || !set.lies_in.length) && <button type="button" onClick={() => fit(open, "NEW", true)}>{say("back.fitted", { n: open, from: say("back.new") })}</button>}
        {set.lies_in.map(({ container }) => (
          <button type="button" key={container} onClick={() => setFewer(container)}>{say("back.fewer", { from: shownOf(container) })}</button>
        ))}
      </div>
      {fewer !== null && <CountPad title="ask.n" chosen={(n) => fit(n, fewer)} />}
    </>
  );
}

function TightAgain({ hand, set }: { readonly hand: InHand; readonly set: PocketSet }) {
  if (set.torque && !set.torque.hand_tight) return null;
  return (
    <div class="actions">
      <button type="button" class="shutter" onClick={() => void hand.record([{ kind: "fasteners-retightened", set: set.set }], say("said.tight-again", { name: set.set }))}>
        {say("back.tight", { set: set.set })}
      </button>
    </div>
  );
}
