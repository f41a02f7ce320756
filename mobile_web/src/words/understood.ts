import type { Lot } from "../draft/bag";
import { shown } from "../scan/label_code";
import { say } from "./say";

/** Say what was understood of a bagging: how many, of what, into what. */
export function lotWords({ label, set, n }: Lot): string {
  return say("bag.understood", { pieces: say("entry.pieces", { n }), set, label: shown(label) });
}

/** Say what was understood of a photo alone. */
export function photoOnlyWords(label: string | null): string {
  return label === null ? say("bag.understood.photo.plain") : say("bag.understood.photo", { label: shown(label) });
}
