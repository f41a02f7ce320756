import type { components } from "../api";
import type { Entry } from "../outbox/box";

/** Everything the server says of one job in one answer; `mobile_web/README.md` tells it part by part. */
export type Pocket = components["schemas"]["Pocket"];
export type PocketSet = Pocket["sets"][number];
export type PocketHole = PocketSet["holes"][number];
export type PocketTorque = NonNullable<PocketSet["torque"]>;
export type StageAsked = PocketTorque["stages"][number];
export type PocketPart = Pocket["parts"][number];
export type PocketOpening = Pocket["openings"][number];
export type PocketContainer = Pocket["containers"][number];
export type PocketPhoto = Pocket["photos"][number];
export type Pin = PocketPhoto["pins"][number];
export type PocketFinding = Pocket["findings"][number];
export type NextStep = NonNullable<Pocket["next"]["big"]>;

/** A pocket as it lies on this phone. */
export interface Kept {
  readonly pocket: Pocket;
  /** The server's mark of this very answer, to be asked with; null where it gave none. */
  readonly tag?: string | null;
  /** When this phone got it, by its own clock. */
  readonly at: string;
}

/** A job as this phone knew it before an act: its pocket, and what was recorded here since. */
export interface AsItWas {
  readonly kept: Kept;
  readonly since: readonly Entry[];
}

/** A job on this phone: the pocket with what was recorded here since laid over it. */
export interface OnPhone extends Kept {
  /** What this phone recorded since, oldest first; the server has not judged it in this pocket. */
  readonly since: readonly Entry[];
  /** Why the server was not reached at the last try, null when it was. */
  readonly trouble: string | null;
}
