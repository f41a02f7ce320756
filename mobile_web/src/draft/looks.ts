import { metered } from "./job";

/** What of a set a look needs to know. */
export interface LookedAt {
  readonly set: string;
  readonly critical: boolean;
  readonly second_person: boolean;
  readonly locking: string | null;
  readonly n: number;
  readonly holes: readonly { readonly level: string }[];
}

/** How somebody looked: as one who did none of it, as the one who did it, later, or that it is not good. */
export type Look = "second" | "again" | "bad";

/** Name the sets that want a second person and were worked on. */
export function wantingLook<T extends LookedAt>(sets: readonly T[]): readonly T[] {
  return sets.filter((set) => (set.critical || set.second_person) && isWorkedOn(set));
}

/** Name the sets that want a locking and are back in. */
export function wantingLocking<T extends LookedAt>(sets: readonly T[]): readonly T[] {
  return sets.filter((set) => set.locking !== null && isWorkedOn(set) && set.holes.every(({ level }) => !["empty", "parked"].includes(level)));
}

/** Say that a set was looked at; a look of the same person is recorded as such and never as a second person's. */
export function lookedAt(set: string, look: Look) {
  const how = look === "again" ? "re-look-same-person" : "visual";
  return [{ kind: "second-checked", elements: [set], how, result: look === "bad" ? "bad" : "good" }];
}

/** Ask for release, with the answer to what no record can know. */
export function releaseAsked(nothingElse: boolean, meter = "") {
  return [{ kind: "release-asked", nothing_else_apart: nothingElse, ...metered(meter) }];
}

function isWorkedOn({ holes }: LookedAt): boolean {
  return holes.some(({ level }) => level !== "untouched");
}
