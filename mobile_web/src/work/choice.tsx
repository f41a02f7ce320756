import { useEffect, useState } from "preact/hooks";

import { BACK } from "../acts/back";
import { OFF } from "../acts/off";
import type { Act } from "../acts/act";
import type { Shot } from "../camera/camera";
import { focused } from "../parts/focused";
import type { Pocket } from "../pocket/shape";
import type { InHand } from "../pocket/use_job";
import { goTo } from "../place";
import { say, type Message } from "../words/say";
import { photoOnlyWords } from "../words/understood";
import { pictured } from "./form";

interface Props {
  readonly hand: InHand;
  readonly pocket: Pocket;
  readonly shot: Shot | null;
  readonly act: (name: string) => void;
  readonly done: () => void;
}

/** What the photo shows, or which act it is without one: what comes apart and what goes back, one tap each. */
export function Choice({ hand, pocket, shot, act, done }: Props) {
  const [picture, setPicture] = useState<string | null>(null);
  const [marking, setMarking] = useState(false);
  useEffect(() => {
    if (!shot) return undefined;
    const address = URL.createObjectURL(new Blob([shot.bytes], { type: shot.type }));
    setPicture(address);
    return () => URL.revokeObjectURL(address);
  }, [shot]);
  const keep = async (about: Readonly<Record<string, unknown>>, said: string) => {
    if (shot && (await hand.record([{ kind: "photo-added", ...(await pictured(shot)), ...about }], said, shot))) done();
  };
  const mark = async (set: string) => {
    if (!shot) return;
    const drafts = [{ kind: "photo-added", ...(await pictured(shot)), shape: "before", element: set }];
    if (await hand.record(drafts, say("said.holes", { set }), shot)) goTo({ screen: "work", job: pocket.job, view: "where", about: set });
  };
  if (marking) return <WhichSet pocket={pocket} chosen={(set) => void mark(set)} leave={() => setMarking(false)} />;
  return (
    <>
      {picture && <img class="taken" src={picture} alt={say("bag.photo.alt.plain")} />}
      <h2 tabIndex={-1} ref={focused}>{say(shot ? "work.what" : "work.off")}</h2>
      <Acts acts={OFF} act={act} />
      {shot && (
        <div class="actions two">
          <button type="button" onClick={() => setMarking(true)}>{say("work.what.holes")}</button>
          <button type="button" onClick={() => void keep({}, photoOnlyWords(null))}>{say("work.what.later")}</button>
        </div>
      )}
      <h2>{say("work.back")}</h2>
      <Acts acts={BACK} act={act} />
      <div class="actions">
        <button type="button" onClick={done}>{say(shot ? "work.what.nothing" : "work.leave")}</button>
      </div>
    </>
  );
}

function Acts({ acts, act }: { readonly acts: readonly Act[]; readonly act: (name: string) => void }) {
  return (
    <div class="actions two">
      {acts.map(({ name }) => (
        <button type="button" key={name} onClick={() => act(name)}>{say(`act.${name}` as Message)}</button>
      ))}
    </div>
  );
}

function WhichSet({ pocket, chosen, leave }: { readonly pocket: Pocket; readonly chosen: (set: string) => void; readonly leave: () => void }) {
  return (
    <>
      <h2 tabIndex={-1} ref={focused}>{say("ask.set")}</h2>
      <div class="actions">
        {pocket.sets.map(({ set }) => (
          <button type="button" key={set} onClick={() => chosen(set)}>{set}</button>
        ))}
        <button type="button" onClick={leave}>{say("work.leave")}</button>
      </div>
    </>
  );
}
