import { readLabel } from "../scan/label_code";
import type { Pocket, PocketContainer, PocketSet } from "./shape";

/**
 * What this phone judges by itself, from what the pocket says, before the server has had a look. These are all;
 * every check of the manual runs on the server only.
 */
export type Label =
  | { readonly is: "container"; readonly container: PocketContainer }
  | { readonly is: "thing"; readonly letter: string; readonly thing: string }
  | { readonly is: "free"; readonly letter: string }
  | { readonly is: "elsewhere"; readonly job: string; readonly thing: string }
  | { readonly is: "retired" }
  | { readonly is: "strange" };

/** Say what a label is in a job: on a bag or thing of it, free, of another job, dead, or none of ours. */
export function labelIn(pocket: Pocket, code: string): Label {
  const read = readLabel(code);
  const bound = pocket.labels.find((each) => each.code === code);
  const letter = code.slice(0, 1);
  if (bound?.retired) return { is: "retired" };
  if (bound) {
    const container = pocket.containers.find((each) => each.container === bound.thing);
    return container ? { is: "container", container } : { is: "thing", letter, thing: bound.thing };
  }
  const other = pocket.elsewhere.find((each) => each.code === code);
  if (other) return { is: "elsewhere", job: other.job, thing: other.thing };
  return read?.checked ? { is: "free", letter } : { is: "strange" };
}

/** How many more or fewer than the set still has in its holes; 0 when the count fits or the set is not described. */
export function countOff(set: PocketSet | undefined, n: number): number {
  if (!set || set.n === 0) return 0;
  const inside = set.holes.filter((hole) => hole.level !== "empty").length;
  return n - inside;
}

/** Name the look-alikes of a set that lie in a container already. */
export function alikeIn(container: PocketContainer | undefined, set: PocketSet | undefined): readonly string[] {
  const there = new Set(container?.contents.map((each) => each.set));
  return set?.look_alikes.filter((other) => there.has(other)) ?? [];
}
