import { signal } from "@preact/signals";

import { number } from "./number";

/** One pound-force foot in N·m, exact: 0.453 592 37 kg × 9.806 65 m/s² × 0.3048 m. */
const POUND_FOOT_NM = 0.45359237 * 9.80665 * 0.3048;

/** How the shop writes torques: in N·m, or in lbf·ft with the N·m beside them. */
export const torqueUnit = signal<"N·m" | "lbf·ft">("N·m");

/** Write a torque given in N·m; the one place where the page writes one. */
export function torqueWords(nm: number): string {
  return torqueRange([nm]);
}

/** Write a torque that may be a range, its ends given in N·m. */
export function torqueRange(nm: readonly number[]): string {
  const plain = `${nm.map(figure).join("–")} N·m`;
  if (torqueUnit.value === "N·m") return plain;
  return `${nm.map((each) => figure(each / POUND_FOOT_NM)).join("–")} lbf·ft (${plain})`;
}

/** Write a torque that a wrench is set to or was pulled to. */
export const newtonMetres = torqueWords;

/** Give a figure of N·m in the shop's unit, as its wrenches show it. */
export function inShopUnit(nm: number): number {
  return torqueUnit.value === "N·m" ? nm : Number((nm / POUND_FOOT_NM).toFixed(1));
}

/** Give a figure in the shop's unit as N·m. */
export function asNewtonMetres(value: number): number {
  return torqueUnit.value === "N·m" ? value : Number((value * POUND_FOOT_NM).toFixed(2));
}

/** A figure with four digits at most, written as people here do. */
export function figure(value: number): string {
  return number(Number(value.toPrecision(4)), 4);
}
