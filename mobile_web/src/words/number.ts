import { locale } from "./language";

/** Write a number as people here write it, with at most `digits` after the comma or point. */
export function number(value: number, digits = 2): string {
  return new Intl.NumberFormat(locale(), { maximumFractionDigits: digits, useGrouping: false }).format(value);
}

/** The mark between whole and part in a number: a comma or a point. */
export function point(): string {
  return number(0.5, 1).charAt(1);
}

/** Read a number typed with a comma or a point, whichever the person is used to; null where it is none. */
export function readNumber(text: string): number | null {
  const plain = text.trim().replace(",", ".");
  return /^[+-]?\d+(\.\d+)?$/.test(plain) ? Number(plain) : null;
}
