import type { Pocket } from "./shape";

/** Name a bag or tray as its label is printed. */
export function shownIn(pocket: Pocket, container: string): string {
  return pocket.containers.find((each) => each.container === container)?.shown ?? container;
}
