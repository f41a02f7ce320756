import { signal } from "@preact/signals";

import { shelf } from "../pocket/load";

/** The wrench in the hand and since when; it stays for 30 minutes or until another (practice 5.0). */
export interface InTheHand {
  readonly wrench: string;
  readonly at: number;
}

const STAYS_MS = 30 * 60_000;
const MARK = "wrench in the hand";

/** Which wrench is in the hand, null when none is or it lay too long. */
export const wrench = signal<InTheHand | null>(null);

void shelf.then((opened) => opened.get("marks", MARK)).then((kept) => {
  const was = kept as InTheHand | undefined;
  if (was && wrench.value === null && isFresh(was)) wrench.value = was;
});

/** Tell whether it was taken up lately enough. */
export function isFresh(taken: InTheHand, now: number = Date.now()): boolean {
  return now - taken.at < STAYS_MS;
}

/** Name the wrench that is in the hand now. */
export function wrenchNow(): string | null {
  return wrench.value && isFresh(wrench.value) ? wrench.value.wrench : null;
}

/** Take a wrench up; scanned again, its time begins anew. */
export function takeUp(name: string): void {
  wrench.value = { wrench: name, at: Date.now() };
  void shelf.then((opened) => opened.put("marks", wrench.value, MARK));
}
