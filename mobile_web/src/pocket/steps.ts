import type { Pocket } from "./shape";

/** Name the step in which somebody works now: the last that they began and did not end; null when none is. */
export function stepOf(pocket: Pocket, by: string | null | undefined): string | null {
  return pocket.steps.filter((each) => each.by === by && !each.done).at(-1)?.step ?? null;
}
