import { useEffect, useState } from "preact/hooks";

import type { Shot } from "../camera/camera";
import { bagged, shotForLater, undone, type Drafts, type Lot } from "../draft/bag";
import { learn } from "../draft/known";
import type { Entry } from "../outbox/box";
import { outbox } from "../outbox/here";
import { sha256 } from "../outbox/sha256";
import { say } from "../words/say";
import { lotWords, photoOnlyWords } from "../words/understood";
import { loadBagging, type Bagging } from "./bagging";

/** A photo taken and the labels read in it; `picture` is its address in this page. */
export interface Taken {
  readonly shot: Shot;
  readonly labels: readonly string[];
  readonly picture: string;
}

interface Understood {
  readonly sentence: string;
  readonly undo: (() => void) | null;
}

/** What the bagging screen knows and can do: record a lot, keep a photo for later, take the last act back. */
export function useBagging(job: string) {
  const [bagging, setBagging] = useState<Bagging | null>(null);
  const [understood, setUnderstood] = useState<Understood | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [acts, setActs] = useState(0);
  useEffect(() => {
    void loadBagging(job).then(setBagging);
  }, [job]);

  const record = async (drafts: Drafts, shot?: Shot): Promise<readonly Entry[] | null> => {
    const recorded = await (await outbox).record(job, drafts, shot);
    setTrouble("trouble" in recorded ? say("bag.not.kept", { reason: recorded.trouble }) : null);
    if ("trouble" in recorded) return null;
    setBagging((old) => old && { ...old, known: learn(old.known, recorded.here) });
    setActs((old) => old + 1);
    return recorded.here;
  };
  const act = async (drafts: Drafts, shot: Shot, sentence: string) => {
    const entries = await record(drafts, shot);
    if (entries) setUnderstood({ sentence, undo: () => void undo(entries, sentence) });
    return entries !== null;
  };
  const undo = async (entries: readonly Entry[], what: string) => {
    if (await record(undone(entries, say("bag.undo.reason")))) {
      setUnderstood({ sentence: say("bag.undone", { what }), undo: null });
    }
  };
  const pictured = async ({ bytes, width, height }: Shot) => ({ sha256: await sha256(bytes), width, height });
  return {
    bagging,
    /** How many acts were recorded here: what else is known of the job changes with it. */
    acts,
    understood,
    trouble,
    bag: async (shot: Shot, lot: Lot) =>
      bagging ? act(bagged(await pictured(shot), lot, bagging.known), shot, lotWords(lot)) : false,
    keepForLater: async (shot: Shot, label: string | null) =>
      bagging ? act(shotForLater(await pictured(shot), label, bagging.known), shot, photoOnlyWords(label)) : false,
  };
}
