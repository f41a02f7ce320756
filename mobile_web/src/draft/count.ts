const MOST = 500;

/** Add a digit to the count on the pad; what would pass the most that an entry holds begins anew with the digit. */
export function withDigit(count: number, digit: number): number {
  const next = count * 10 + digit;
  return next > MOST ? digit : next;
}
