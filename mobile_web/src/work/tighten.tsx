import { useState } from "preact/hooks";

import { cautionsOf } from "../acts/cautions";
import { dueHoles, methodOf, stageDue, tightened, type Pulled } from "../acts/tighten";
import type { Pocket, PocketSet, StageAsked } from "../pocket/shape";
import type { InHand } from "../pocket/use_job";
import { useUnfinished } from "../sw/quiet";
import { asNewtonMetres, inShopUnit, newtonMetres, torqueUnit } from "../words/newton_metres";
import { say } from "../words/say";
import { stageWords } from "../words/torque";
import { AmountPad } from "./figures";
import { ReadFirst } from "./read_first";
import { takeUp, wrenchNow, wrench as inTheHand } from "./wrench";

interface Props {
  readonly hand: InHand;
  readonly pocket: Pocket;
  readonly set: PocketSet;
}

/** Tighten a set stage by stage, in its order: with which wrench, at what, then all holes with one tap or one by one. */
export function Tighten({ hand, pocket, set }: Props) {
  const { torque } = set;
  const stage = stageDue(set);
  const [values, setValues] = useState<Readonly<Record<number, number>>>({});
  if (!torque || torque.hand_tight || stage === null) return null;
  const asked = torque.stages[stage - 1];
  const value = values[stage] ?? null;
  const wrench = inTheHand.value && wrenchNow();
  const title = torque.stages.length > 1 ? say("tighten.stage", { stage, of: torque.stages.length }) : say("tighten.title");
  return (
    <section aria-label={title}>
      <h2>{title}</h2>
      {asked && <p class="label">{stageWords(asked)}</p>}
      <ReadFirst job={pocket.job} messages={cautionsOf("tighten", `${set.set} ${set.part ?? ""}`, pocket.licensed)}>
        <Wrenches pocket={pocket} asked={asked} wrench={wrench} />
        {wrench !== null && asked && value === null && <Value asked={asked} wrench={wrench} chosen={(given) => setValues({ ...values, [stage]: given })} />}
        {wrench !== null && value !== null && <Pull key={stage} hand={hand} set={set} pulled={{ stage, value, wrench, method: methodOf(pocket, wrench), angle: asked?.low_nm === null && asked.angle_deg !== null }} />}
      </ReadFirst>
    </section>
  );
}

/** The wrench in the hand, or those of the record to choose from, what speaks against each beside it. */
function Wrenches({ pocket, asked, wrench }: { readonly pocket: Pocket; readonly asked: StageAsked | undefined; readonly wrench: string | null }) {
  const [other, setOther] = useState(false);
  if (wrench !== null && !other) {
    const suit = asked?.wrenches.find((each) => each.wrench === wrench);
    return (
      <>
        <p>{say("seen.wrench", { wrench })}</p>
        {suit && !suit.suits && <p role="alert">{suit.objections.join(" ")}</p>}
        <div class="actions">
          <button type="button" onClick={() => setOther(true)}>{say("tighten.another")}</button>
        </div>
      </>
    );
  }
  const known = [...new Set([...(asked?.wrenches ?? []).map((each) => each.wrench), ...pocket.wrenches.map((each) => each.wrench)])];
  const objections = (name: string) => asked?.wrenches.find((each) => each.wrench === name)?.objections.join(" ") ?? "";
  const take = (name: string) => {
    takeUp(name);
    setOther(false);
  };
  return (
    <>
      <p>{say("tighten.which")}</p>
      <div class="actions">
        {known.map((name) => (
          <button type="button" key={name} onClick={() => take(name)}>
            <span>
              {name}
              {objections(name) && <span class="hint">{objections(name)}</span>}
            </span>
          </button>
        ))}
        {known.length === 0 && <p>{say("tighten.no.wrench")}</p>}
      </div>
    </>
  );
}

/** What was set: the ends of the printed range and what suits the wrench take one tap, any other figure is typed on the pad. */
function Value({ asked, wrench, chosen }: { readonly asked: StageAsked; readonly wrench: string; readonly chosen: (value: number) => void }) {
  const setting = asked.wrenches.find((each) => each.wrench === wrench)?.setting_nm ?? null;
  const isAngle = asked.low_nm === null && asked.angle_deg !== null;
  const offered = isAngle ? [asked.angle_deg] : [asked.low_nm, setting, asked.high_nm];
  const own = isAngle ? (figure: number) => figure : inShopUnit;
  const known = [...new Set(offered.filter((each) => each !== null).map((each) => Number(own(each).toFixed(2))))].sort((left, right) => left - right);
  return (
    <>
      <p>{say(isAngle ? "tighten.angle" : "tighten.value")}</p>
      <AmountPad title="tighten.value" unit={isAngle ? "°" : torqueUnit.value} offered={known} chosen={(figure) => chosen(isAngle ? figure : asNewtonMetres(figure))} />
    </>
  );
}

/** All holes that are due in the order shown with one tap, or one tap a hole in the order in which they were pulled. */
function Pull({ hand, set, pulled }: { readonly hand: InHand; readonly set: PocketSet; readonly pulled: Pulled }) {
  const [done, setDone] = useState<readonly number[]>([]);
  useUnfinished(done.length > 0);
  const due = dueHoles(set, pulled.stage);
  const at = pulled.angle ? `${pulled.value}°` : newtonMetres(pulled.value);
  const record = (holes: readonly number[]) => {
    void hand.record([tightened(set, holes, pulled)], say("said.tightened", { n: holes.length, set: set.set, at, wrench: pulled.wrench })).then((kept) => kept && setDone([]));
  };
  const one = (hole: number) => {
    const now = [...done, hole];
    if (now.length === due.length) record(now);
    else setDone(now);
  };
  return (
    <>
      <div class="actions">
        <button type="button" class="shutter" disabled={done.length > 0} onClick={() => record(due)}>
          {say(due.length > 1 ? "tighten.all" : "tighten.single", { n: due.length, at, order: due.join(" – ") })}
        </button>
      </div>
      {due.length > 1 && (
        <ul class="pin-list" aria-label={say("tighten.each")}>
          {due.map((hole) => (
            <li key={hole}>
              <button type="button" disabled={done.includes(hole)} onClick={() => one(hole)}>
                {hole}
                <span class="hint">{done.includes(hole) ? say("tighten.pulled") : say("tighten.due")}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      {done.length > 0 && (
        <div class="actions">
          <button type="button" onClick={() => record(done)}>{say("tighten.some", { n: done.length, holes: done.join(" – ") })}</button>
        </div>
      )}
    </>
  );
}
