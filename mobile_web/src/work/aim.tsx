import { useState } from "preact/hooks";

import type { Answers } from "../acts/act";
import { pictureOf, type Shot } from "../camera/camera";
import { LiveView } from "../parts/live_view";
import { labelIn } from "../pocket/judgments";
import { phone } from "../outbox/sight";
import type { Pocket } from "../pocket/shape";
import { stepOf } from "../pocket/steps";
import type { InHand } from "../pocket/use_job";
import type { Scanner, Seen } from "../scan/scanner";
import { say, type Message } from "../words/say";
import { HubLinks } from "./hub_links";
import { InView } from "./in_view";

interface Props {
  readonly hand: InHand;
  readonly pocket: Pocket;
  readonly scanner: Scanner;
  readonly mouth: string | null;
  readonly paused: boolean;
  readonly took: (shot: Shot, labels: readonly string[]) => void;
  readonly act: (name: string, answers: Answers) => void;
  readonly all: () => void;
}

const STILL_IN_VIEW_MS = 2000;
/** The acts that a day at a machine has most of; they need no page of their own. */
const AT_HAND = ["part-off", "apart", "loosened", "item-in", "found-bad", "setting-found"];

/** The camera: what stands on the label in view is read without a tap and stays until another or "leave it". */
export function Aim({ hand, pocket, scanner, mouth, paused, took, act, all }: Props) {
  const [view, setView] = useState<{ code: string | null; at: number }>({ code: null, at: 0 });
  const see = (seen: readonly Seen[]) => {
    const code = paused ? undefined : seen[0]?.code;
    if (code !== undefined) setView({ code, at: Date.now() });
  };
  const take = async (shot: Shot) => {
    const inShot = bagsIn(pocket, await scanner.look(await pictureOf(shot), true));
    const still = view.code !== null && Date.now() - view.at < STILL_IN_VIEW_MS && isBag(pocket, view.code) ? [view.code] : [];
    setView({ code: null, at: 0 });
    took(shot, inShot.length ? inShot : still);
  };
  const step = stepOf(pocket, phone.value?.by);
  const leave = () => setView({ code: null, at: 0 });
  return (
    <LiveView scanner={scanner} seen={see}>
      {(shutter, ready) => (
        <>
          <div class="in-view" role="status">
            {view.code === null ? <p class="label">{say("seen.none")}</p> : <InView key={view.code} hand={hand} pocket={pocket} code={view.code} mouth={mouth} act={act} />}
          </div>
          <div class="actions">
            <button type="button" class="shutter" disabled={!ready} onClick={() => shutter((shot) => void take(shot))}>
              {say("work.photo")}
            </button>
          </div>
          {view.code !== null && (
            <div class="actions">
              <button type="button" onClick={leave}>{say("work.leave")}</button>
            </div>
          )}
          <div class="actions two">
            {AT_HAND.map((name) => (
              <button type="button" key={name} onClick={() => act(name, {})}>{say(`act.${name}` as Message)}</button>
            ))}
          </div>
          <div class="actions">
            <button type="button" onClick={all}>{say("work.all")}</button>
          </div>
          {step && <p class="quiet">{say("work.step", { name: step })}</p>}
          <HubLinks job={pocket.job} />
        </>
      )}
    </LiveView>
  );
}

function bagsIn(pocket: Pocket, seen: readonly Seen[]): string[] {
  return [...new Set(seen.map((each) => each.code))].filter((code) => isBag(pocket, code));
}

/** Tell whether pieces may go into what bears a label. */
function isBag(pocket: Pocket, code: string): boolean {
  const label = labelIn(pocket, code);
  return label.is === "container" || (label.is === "free" && "TB".includes(label.letter));
}
