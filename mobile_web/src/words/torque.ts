import type { TorqueRow } from "../sync/api";
import messages from "./en/torque.json";
import { locale } from "./language";
import { torqueRange } from "./newton_metres";
import { learnWords, say } from "./say";

learnWords(messages);

type Stage = TorqueRow["stages"][number];
type Pull = TorqueRow["holes"][number]["pulls"][number];

/** Say in a few words how a set stands: what is open, else that nothing is, or that nobody touched it. */
export function standing(row: Pick<TorqueRow, "open_holes" | "holes">): string {
  const n = row.open_holes.length;
  if (n) return say("torque.open", { n, holes: row.open_holes.join(", ") });
  return say(row.holes.every((hole) => hole.state === "untouched") ? "torque.untouched" : "torque.done");
}

/** Say what a stage asks: torque, angle, and the holes where it is not for all. */
export function stageWords(stage: Pick<Stage, "low_nm" | "high_nm" | "angle_deg" | "holes">): string {
  const { low_nm: low, high_nm: high, angle_deg: angle, holes } = stage;
  const ends = low === high ? [low] : [low, high];
  const figures = ends.filter((end) => end !== null);
  const torque = figures.length ? torqueRange(figures) : "";
  const turned = angle === null ? "" : say("torque.stage.angle", { angle });
  const asked = [torque, turned].filter(Boolean).join(" + ") || say("torque.stage.unknown");
  return holes.length ? `${asked}, ${say("torque.stage.holes", { holes: holes.join(", ") })}` : asked;
}

/** Say what may be claimed for a pull, by its stage where there are several. */
export function pullWords({ stage, said }: Pull, stages: number): string {
  return stages > 1 ? say("torque.pull.stage", { stage, said }) : said;
}

/** Say with which wrench a pull was made, and by whom. */
export function pullerWords({ wrench, by }: Pull): string {
  return say("torque.pull.with", { wrench: wrench || say("torque.pull.no.wrench"), by });
}

/** Give the exact N·m, nothing where the value is printed in N·m just so. */
export function exactWords({ as_written, exact }: Pick<TorqueRow, "as_written" | "exact">): string {
  const bare = (text: string) => text.replace(/[\s·]/g, "").replace("–", "-").toLowerCase();
  return bare(as_written) === bare(exact) ? "" : exact;
}

/** Write a day. */
export function day(on: string): string {
  return new Intl.DateTimeFormat(locale(), { dateStyle: "medium", timeZone: "UTC" }).format(new Date(`${on}T00:00:00Z`));
}

/** Say which order is drawn, and that it is only suggested where the maker gave none. */
export function orderWords(drawing: TorqueRow["drawing"]): string {
  if (!drawing?.order.length) return say("torque.order.none");
  const order = drawing.order.join(" ");
  return drawing.is_suggested ? say("torque.order.suggested", { order }) : order;
}
