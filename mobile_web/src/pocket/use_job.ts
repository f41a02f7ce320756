import { useEffect, useState } from "preact/hooks";

import type { Shot } from "../camera/camera";
import { takenBack, type Drafts } from "../draft/taken_back";
import type { Entry } from "../outbox/box";
import { outbox } from "../outbox/here";
import { sha256 } from "../outbox/sha256";
import { phone, sight } from "../outbox/sight";
import { useChanges } from "../sync/live";
import { say } from "../words/say";
import { asItWas, noted, onPhone, outOfSight, refreshed, shelf } from "./load";
import { keepPicture } from "./pictures";
import type { AsItWas, OnPhone } from "./shape";
import { stepOf } from "./steps";

/** What was understood, in words, and the way to take it back. */
export interface Understood {
  readonly sentence: string;
  readonly undo: (() => void) | null;
}

/** A job in the hand: what is known of it, and the way to record an act, which answers in words. */
export interface InHand {
  /** Null until something is known; `missing` says why when nothing ever was. */
  readonly here: OnPhone | null;
  readonly missing: string | null;
  readonly understood: Understood | null;
  readonly trouble: string | null;
  /** Record one act, whole or not at all; true when this phone keeps it. */
  readonly record: (drafts: Drafts, sentence: string, shot?: Shot) => Promise<boolean>;
  readonly say: (sentence: string) => void;
  readonly again: () => void;
}

/** Hold a job: show what this phone knows at once, ask the server, follow its changes, and record acts. */
export function useJob(job: string): InHand {
  const [here, setHere] = useState<OnPhone | null>(null);
  const [missing, setMissing] = useState<string | null>(null);
  const [understood, setUnderstood] = useState<Understood | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const ask = () =>
    void refreshed(job).then((found) => {
      if ("pocket" in found) setHere(found);
      setMissing("pocket" in found ? null : found.trouble);
    });
  useEffect(() => {
    void onPhone(job).then((found) => found && setHere((old) => old ?? found));
    ask();
  }, [job]);
  useChanges(job, ask);
  useEffect(() => sight.subscribe(askWhenSent(ask)), [job]);

  const keep = async (drafts: Drafts, shot?: Shot): Promise<readonly Entry[] | null> => {
    const recorded = await (await outbox).record(job, drafts, shot);
    setTrouble("trouble" in recorded ? say("bag.not.kept", { reason: recorded.trouble }) : null);
    return "trouble" in recorded ? null : recorded.here;
  };
  const show = async (entries: readonly Entry[], shot?: Shot) => {
    await noted(entries);
    if (shot) await keepShot(shot);
    setHere(await onPhone(job, here?.trouble ?? null));
  };
  const undo = async (before: AsItWas | null, entries: readonly Entry[], what: string) => {
    const back = await keep(takenBack(entries, say("bag.undo.reason")));
    if (!back) return;
    setUnderstood({ sentence: say("bag.undone", { what }), undo: null });
    if (before) await outOfSight(before, entries);
    await show(back);
  };
  const record = async (drafts: Drafts, sentence: string, shot?: Shot) => {
    const before = asItWas(job);
    const entries = await keep(inStep(drafts, here), shot);
    if (!entries) return false;
    setUnderstood({ sentence, undo: () => void before.then((was) => undo(was, entries, sentence)) });
    await before;
    await show(entries, shot);
    return true;
  };
  const tell = (sentence: string) => setUnderstood({ sentence, undo: null });
  return { here, missing, understood, trouble, record, say: tell, again: ask };
}

/** Whoever has begun a step works in it: its name goes along with what they record. */
function inStep(drafts: Drafts, here: OnPhone | null): Drafts {
  const step = here && stepOf(here.pocket, phone.value?.by);
  return step ? drafts.map((draft) => (draft["step"] === undefined && draft.kind !== "entry-voided" ? { ...draft, step } : draft)) : drafts;
}

/** The small picture of a shot shows before the server has it; a full phone goes without. */
async function keepShot(shot: Shot): Promise<void> {
  try {
    await keepPicture(await shelf, await sha256(shot.bytes), new Blob([shot.bytes], { type: shot.type }));
  } catch {
    return;
  }
}

/** When the last entry that waited has gone over, the pocket that this phone has is old. */
function askWhenSent(ask: () => void): (now: { readonly entries: number }) => void {
  let before = 0;
  return ({ entries }) => {
    if (before > 0 && entries === 0) ask();
    before = entries;
  };
}
