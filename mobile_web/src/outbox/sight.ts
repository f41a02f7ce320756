import { signal } from "@preact/signals";

import type { Phone } from "./box";
import type { Waiting } from "./send";

/** What of the outbox is always in sight: what waits, and why the server was not reached at the last try. */
export interface Sight extends Waiting {
  readonly unreached: string | null;
  readonly sending: boolean;
}

export const sight = signal<Sight>({ entries: 0, photos: 0, bytes: 0, refused: [], held: 0, unreached: null, sending: false });

/** How far the original that goes over now has come, in bytes. */
export interface Progress {
  readonly sha256: string;
  readonly sent: number;
  readonly of: number;
}
export const progress = signal<Progress | null>(null);

/** Why this browser keeps nothing, where it does not; then nothing can be recorded in it. */
export const broken = signal<string | null>(null);

/** This phone and who holds it, once the outbox is open. */
export const phone = signal<Phone | null>(null);
