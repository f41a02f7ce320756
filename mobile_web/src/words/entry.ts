import { asPrinted } from "../scan/label_code";
import { torqueWords } from "./newton_metres";
import { ownWord } from "./own_word";
import { say } from "./say";

/** A recorded entry as it came: a JSON object. */
export type Raw = Readonly<Record<string, unknown>>;

const SUBJECTS = [
  "set", "part", "connection", "opening", "cover", "item", "kit", "isolation", "fluid", "renewal", "setting", "container",
  "test", "hold", "wrench", "loss", "find", "element", "what", "person", "name", "check", "subject", "reported_device",
  "marked_device", "title", "photo", "label", "duty", "to", "other", "machine",
] as const; // prettier-ignore
const MEASURES: readonly (readonly [string, string])[] = [
  ["angle_deg", "°"], ["litres", "L"], ["turns", "turns"],
]; // prettier-ignore

/** Say in words what an entry records: its kind, about what, how many, where to. */
export function entrySentence(raw: Raw): string {
  const kind = ownWord("kind", text(raw["kind"]));
  const first = short(SUBJECTS.map((field) => text(raw[field])).find(Boolean) ?? list(raw["elements"]));
  const parts = [first, amount(raw), ...measures(raw), route(raw), holes(raw), stage(raw)].filter(Boolean);
  return asPrinted([capital(kind), ...parts].join(" · "));
}

function amount(raw: Raw): string {
  return typeof raw["n"] === "number" ? say("entry.pieces", { n: raw["n"] }) : "";
}

function measures(raw: Raw): string[] {
  const plain = typeof raw["value"] === "number" ? [`${raw["value"]} ${text(raw["unit"])}`.trim()] : [];
  const torque = typeof raw["value_nm"] === "number" ? [torqueWords(raw["value_nm"])] : [];
  return plain.concat(
    torque,
    MEASURES.flatMap(([field, unit]) => (typeof raw[field] === "number" ? [`${raw[field]} ${unit}`] : [])),
  );
}

function route(raw: Raw): string {
  const from = text(raw["source"]);
  const to = raw["parked"] === true ? say("entry.parked") : text(raw["to"]) || text(raw["place"]);
  return [from && say("entry.from", { from }), to && say("entry.to", { to })].filter(Boolean).join(" ");
}

function holes(raw: Raw): string {
  const holes = list(raw["holes"]);
  return holes ? say("entry.holes", { holes }) : "";
}

function stage(raw: Raw): string {
  return typeof raw["stage"] === "number" ? say("entry.stage", { stage: raw["stage"] }) : "";
}

/** Shorten a SHA-256, which names a photo, to what a person can compare. */
function short(name: string): string {
  return /^[0-9a-f]{64}$/.test(name) ? `${name.slice(0, 8)} …` : name;
}

function list(value: unknown): string {
  return Array.isArray(value) ? value.map(String).join(", ") : "";
}

function text(value: unknown): string {
  return typeof value === "string" ? value : "";
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
