/** Write a torque given in N·m; the one place where the page writes one, so that a shop's unit has one place to go. */
export function newtonMetres(value: number): string {
  return `${Number(value.toFixed(value < 10 ? 2 : 1))} N·m`;
}
