import { SET_ACTS } from "./overlay_sets";
import { EVIDENCE_ACTS } from "./overlay_evidence";
import { THING_ACTS } from "./overlay_things";
import type { Pocket } from "./shape";

/** An entry as it is recorded: its kind, who, when, and the fields of the kind. */
export type Raw = Readonly<Record<string, unknown>>;
/** Lets one entry change a pocket, which is its own to change. */
export type Lay = (pocket: Pocket, entry: Raw) => void;

const ACTS: Readonly<Record<string, Lay>> = { ...SET_ACTS, ...THING_ACTS, ...EVIDENCE_ACTS };

/**
 * Lay over a pocket what was recorded on this phone since: where things are, how many, on or off.
 * Nothing is judged: findings, what next and the start guard stay those of the pocket.
 */
export function withSince(pocket: Pocket, entries: readonly Raw[]): Pocket {
  if (!entries.length) return pocket;
  const changed = structuredClone(pocket);
  for (const entry of standing(entries)) {
    ACTS[String(entry["kind"])]?.(changed, entry);
    touchedIn(changed, entry);
  }
  return changed;
}

/** Leave out what a later entry of the same list voids; apply replacements to what it replaces. */
export function standing(entries: readonly Raw[]): readonly Raw[] {
  const here = new Set(entries.map((entry) => entry["id"]));
  const voided = new Set(entries.filter((each) => each["kind"] === "entry-voided").map((each) => each["entry"]));
  const fields = new Map<unknown, object>();
  for (const each of entries) {
    if (each["kind"] === "entry-replaced" && here.has(each["entry"])) fields.set(each["entry"], each["fields"] as object);
  }
  return entries
    .filter((each) => !voided.has(each["id"]) && !(each["kind"] === "entry-replaced" && here.has(each["entry"])))
    .map((each) => (fields.has(each["id"]) ? { ...each, ...fields.get(each["id"]) } : each));
}

const TOUCHED = ["set", "part", "connection", "opening"];

/** What an entry names belongs to the step in which it was made. */
function touchedIn(pocket: Pocket, entry: Raw): void {
  const step = pocket.steps.find((each) => each.step === entry["step"]);
  const name = TOUCHED.map((field) => entry[field]).find((value) => typeof value === "string" && value !== "");
  if (step && typeof name === "string" && !step.elements.includes(name)) step.elements.push(name);
}
