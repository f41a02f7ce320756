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

/** How somebody looked: as one who did none of it, or that it is not good. */
export type Look = "second" | "bad";

/** Name the sets that want a second person and were worked on. */
export function wantingLook<T extends LookedAt>(sets: readonly T[]): readonly T[] {
  return sets.filter((set) => (set.critical || set.second_person) && isWorkedOn(set));
}

/** Name the sets that want a locking and are back in. */
export function wantingLocking<T extends LookedAt>(sets: readonly T[]): readonly T[] {
  return sets.filter((set) => set.locking !== null && isWorkedOn(set) && set.holes.every(({ level }) => !["empty", "parked"].includes(level)));
}

/** Say that a set was looked at by somebody who did none of it. */
export function lookedAt(set: string, look: Look) {
  return [{ kind: "second-checked", elements: [set], how: "visual", result: look === "bad" ? "bad" : "good" }];
}

/** A photo as entries name it. */
export interface Pictured {
  readonly photo: string;
  readonly sha256: string;
  readonly width: number;
  readonly height: number;
}

const AGAIN = { kind: "second-checked", how: "re-look-same-person", result: "good" } as const;

/** Say that whoever did the work looked at it again with a photo from another angle; it is recorded as such and never as a second person's look. */
export function lookedAgain(set: string, photo: Pictured) {
  return [{ kind: "photo-added", ...photo, shape: "after", element: set }, { ...AGAIN, elements: [set], photos: [photo.photo] }];
}

/** Say that whoever did the work set the wrench again, and that it clicked. */
export function triedAgain(set: string) {
  return [{ ...AGAIN, elements: [set], torque_again: true }];
}

/** Ask for release, with the answer to what no record can know. */
export function releaseAsked(nothingElse: boolean, meter = "") {
  return [{ kind: "release-asked", nothing_else_apart: nothingElse, ...metered(meter) }];
}

function isWorkedOn({ holes }: LookedAt): boolean {
  return holes.some(({ level }) => level !== "untouched");
}
