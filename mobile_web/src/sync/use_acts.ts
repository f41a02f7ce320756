import { useEffect, useState } from "preact/hooks";

import type { Shot } from "../camera/camera";
import { waitingOf, type Entry } from "../outbox/box";
import { outbox } from "../outbox/here";
import type { Draft } from "../outbox/outbox";
import { sight } from "../outbox/sight";
import { say } from "../words/say";

interface Understood {
  readonly sentence: string;
  readonly undo: (() => void) | null;
}

/** Record acts in a job: each answers in words what was understood, and one tap takes it back. */
export function useActs(job: string) {
  const [understood, setUnderstood] = useState<Understood | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);

  const record = async (drafts: readonly Draft[], shot?: Shot): Promise<readonly Entry[] | null> => {
    const recorded = await (await outbox).record(job, drafts, shot);
    setTrouble("trouble" in recorded ? say("bag.not.kept", { reason: recorded.trouble }) : null);
    return "trouble" in recorded ? null : recorded.here;
  };
  const undo = async (entries: readonly Entry[], what: string, then?: () => void) => {
    const reason = say("bag.undo.reason");
    const back = [...entries].reverse().map((entry) => ({ kind: "entry-voided", entry: entry.id, reason }));
    if (!(await record(back))) return;
    setUnderstood({ sentence: say("bag.undone", { what }), undo: null });
    then?.();
  };
  const act = async (drafts: readonly Draft[], sentence: string, more: { shot?: Shot; undone?: () => void } = {}) => {
    const entries = await record(drafts, more.shot);
    if (entries) setUnderstood({ sentence, undo: () => void undo(entries, sentence, more.undone) });
    return entries;
  };
  return { act, understood, trouble };
}

/** Give what this phone recorded in a job and the server does not have yet. */
export function useUnsent(job: string): readonly Entry[] {
  const [unsent, setUnsent] = useState<readonly Entry[]>([]);
  const { entries } = sight.value;
  useEffect(() => {
    void outbox.then(({ box }) => waitingOf(box, job)).then(setUnsent);
  }, [job, entries]);
  return unsent;
}
