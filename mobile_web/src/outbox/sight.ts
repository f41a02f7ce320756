import { signal } from "@preact/signals";

import type { Phone } from "./box";
import type { Waiting } from "./send";

/** What of the outbox is always in sight: what waits, and why the server was not reached at the last try. */
export interface Sight extends Waiting {
  readonly unreached: string | null;
  readonly sending: boolean;
}

export const sight = signal<Sight>({ entries: 0, photos: 0, refused: [], unreached: null, sending: false });

/** This phone and who holds it, once the outbox is open. */
export const phone = signal<Phone | null>(null);
