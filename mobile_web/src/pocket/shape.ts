import type { components } from "../api";
import type { Entry } from "../outbox/box";

type Schemas = components["schemas"];

/** Everything the server says of one job in one answer; `mobile_web/README.md` tells it part by part. */
export type Pocket = Schemas["Pocket"];
export type PocketSet = Schemas["PocketSet"];
export type PocketHole = Schemas["PocketHole"];
export type PocketPart = Schemas["PocketPart"];
export type PocketOpening = Schemas["PocketOpening"];
export type PocketContainer = Schemas["PocketContainer"];
export type PocketPhoto = Schemas["PocketPhoto"];
export type PocketFinding = Schemas["PocketFinding"];
export type PocketTorque = Schemas["PocketTorque"];
export type StageAsked = Schemas["StageAsked"];
export type Pin = Schemas["PhotoPin"];
export type NextStep = Schemas["NextStep"];

/** A pocket as it lies on this phone. */
export interface Kept {
  readonly pocket: Pocket;
  /** When this phone got it, by its own clock. */
  readonly at: string;
}

/** A job on this phone: the pocket with what was recorded here since laid over it. */
export interface OnPhone extends Kept {
  /** What this phone recorded since, oldest first; the server has not judged it in this pocket. */
  readonly since: readonly Entry[];
  /** Why the server was not reached at the last try, null when it was. */
  readonly trouble: string | null;
}
