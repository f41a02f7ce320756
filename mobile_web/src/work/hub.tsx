import { useEffect, useMemo, useState } from "preact/hooks";

import { BACK } from "../acts/back";
import { OFF } from "../acts/off";
import type { Act, Answers } from "../acts/act";
import type { Shot } from "../camera/camera";
import type { OnPhone } from "../pocket/shape";
import type { InHand } from "../pocket/use_job";
import { Scanner } from "../scan/scanner";
import { useUnfinished } from "../sw/quiet";
import { say } from "../words/say";
import { Aim } from "./aim";
import { BagThese } from "./bag_these";
import { CalledAway } from "./called_away";
import { Choice } from "./choice";
import { Form } from "./form";
import { Frame } from "./frame";
import { Interrupted } from "./interrupted";

const ACTS: ReadonlyMap<string, Act> = new Map([...OFF, ...BACK].map((act) => [act.name, act]));

/** What the hub shows: the camera, what a photo is of, all acts, one act, or the count of a bag. */
export type Showing =
  | { readonly is: "aim" }
  | { readonly is: "choice"; readonly shot: Shot | null }
  | { readonly is: "bag"; readonly shot: Shot; readonly label: string }
  | { readonly is: "act"; readonly act: string; readonly answers: Answers; readonly shot: Shot | null };

/** At the machine: the camera is live; a label in view, a photo or a button begins an act; one tap says "called away". */
export function Hub({ job }: { readonly job: string }) {
  return (
    <Frame job={job} title={say("work.title")} up={{ screen: "findings", job }} upName={job} foot={(hand, here) => <CalledAway hand={hand} pocket={here.pocket} />}>
      {(hand, here) => <Work hand={hand} here={here} />}
    </Frame>
  );
}

function Work({ hand, here }: { readonly hand: InHand; readonly here: OnPhone }) {
  const { pocket } = here;
  const scanner = useMemo(() => new Scanner(), []);
  useEffect(() => () => scanner.close(), []);
  const [showing, setShowing] = useState<Showing>({ is: "aim" });
  const [mouth, setMouth] = useState<string | null>(null);
  useUnfinished(showing.is !== "aim");
  const aim = () => setShowing({ is: "aim" });
  const begin = (act: string, answers: Answers, shot: Shot | null = null) => setShowing({ is: "act", act, answers, shot });
  const took = (shot: Shot, labels: readonly string[]) => {
    const [label] = labels;
    setShowing(label !== undefined && labels.length === 1 ? { is: "bag", shot, label } : { is: "choice", shot });
  };
  const next = (follow: ReturnType<NonNullable<Act["follow"]>>) => {
    if (follow?.act === "covers") setMouth(String(follow.answers["name"]));
    if (follow) begin(follow.act, follow.answers);
    else aim();
  };
  const act = showing.is === "act" ? ACTS.get(showing.act) : undefined;
  return (
    <>
      <div class="aim" hidden={showing.is !== "aim"}>
        <Interrupted hand={hand} pocket={pocket} />
        <Aim hand={hand} pocket={pocket} scanner={scanner} mouth={mouth} paused={showing.is !== "aim"} took={took} act={begin} all={() => setShowing({ is: "choice", shot: null })} />
      </div>
      {showing.is === "choice" && <Choice hand={hand} pocket={pocket} shot={showing.shot} act={(name) => begin(name, {}, showing.shot)} done={aim} />}
      {showing.is === "bag" && <BagThese hand={hand} pocket={pocket} shot={showing.shot} label={showing.label} other={() => setShowing({ is: "choice", shot: showing.shot })} done={aim} />}
      {showing.is === "act" && act && (
        <Form key={`${showing.act} ${JSON.stringify(showing.answers)}`} hand={hand} pocket={pocket} act={act} first={showing.answers} shot={showing.shot} done={next} leave={aim} />
      )}
    </>
  );
}
