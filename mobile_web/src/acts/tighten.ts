import type { Draft } from "../draft/taken_back";
import type { Pocket, PocketSet } from "../pocket/shape";

/** One stage as it was pulled: at what, with which wrench. */
export interface Pulled {
  readonly stage: number;
  readonly value: number;
  /** The value is an angle in degrees, not a torque. */
  readonly angle: boolean;
  readonly wrench: string;
  readonly method: string;
}

const IN = new Set(["placed", "snug", "final"]);

/** Give the stage that is due next on a set whose fasteners are in; null when none is. */
export function stageDue(set: PocketSet): number | null {
  const stages = set.holes.filter((hole) => IN.has(hole.level) && hole.next_stage !== null).map((hole) => hole.next_stage as number);
  return stages.length ? Math.min(...stages) : null;
}

/** List the holes that owe a stage, in the order of the maker or else by number. */
export function dueHoles(set: PocketSet, stage: number): number[] {
  const of = set.torque?.stages[stage - 1]?.holes ?? [];
  const due = set.holes.filter((hole) => IN.has(hole.level) && hole.next_stage === stage && (!of.length || of.includes(hole.hole))).map((hole) => hole.hole);
  const order = set.torque?.order ?? [];
  const rank = (hole: number) => (order.includes(hole) ? order.indexOf(hole) : order.length + hole);
  return due.sort((left, right) => rank(left) - rank(right));
}

/** Say how a wrench of a kind tells its value. */
export function methodOf(pocket: Pocket, wrench: string): string {
  const kind = pocket.wrenches.find((each) => each.wrench === wrench)?.kind;
  if (kind === "angle") return "angle";
  return kind === "indicating" || kind === "digital" ? "dial" : "click";
}

/** Record a stage as pulled on holes, in the order in which they are given. */
export function tightened(set: PocketSet, holes: readonly number[], { stage, value, angle, wrench, method }: Pulled): Draft {
  const figure = angle ? { angle_deg: value, as_written: `${value}°` } : { value_nm: value, as_written: `${value} N·m` };
  return { kind: "fasteners-tightened", set: set.set, holes, stage, ...figure, wrench, method };
}
