const FIRST_MS = 1000;
const LONGEST_MS = 30_000;

/** How long to wait before try number `fails` (from 1): doubled each time up to half a minute, spread by up to a fifth. */
export function backOff(fails: number, chance: number = Math.random()): number {
  const plain = Math.min(LONGEST_MS, FIRST_MS * 2 ** Math.max(0, fails - 1));
  return Math.round(plain * (0.8 + 0.4 * chance));
}
