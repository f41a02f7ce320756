/** An entry as it came: a JSON object. */
type Raw = Readonly<Record<string, unknown>>;

/** What was done of the practice job; each is one line that ticks itself. */
export interface Practised {
  readonly bagged: { readonly set: string; readonly to: string | null; readonly n: number } | null;
  readonly loosened: boolean;
  readonly ragIn: boolean;
  readonly asked: number;
  readonly back: boolean;
  readonly tight: boolean;
  readonly ragOut: boolean;
  readonly thrown: boolean;
  /** Entries that bound a label, which is free again once they are taken back. */
  readonly bound: readonly string[];
}

/** Tell from a practice job's entries, oldest first, how far it is. */
export function practised(entries: readonly Raw[]): Practised {
  const voided = new Set(entries.filter((entry) => entry["kind"] === "entry-voided").map((entry) => entry["entry"]));
  const count = entries.filter((entry) => !voided.has(entry["id"]));
  const has = (kind: string) => count.some((entry) => entry["kind"] === kind);
  const bag = count.find((entry) => entry["kind"] === "fasteners-removed");
  return {
    bagged: bag ? { set: String(bag["set"]), to: typeof bag["to"] === "string" ? bag["to"] : null, n: Number(bag["n"]) } : null,
    loosened: has("fasteners-loosened"),
    ragIn: has("item-brought-in"),
    asked: count.filter((entry) => entry["kind"] === "release-asked").length,
    back: has("fasteners-fitted"),
    tight: has("fasteners-retightened"),
    ragOut: has("item-taken-out"),
    thrown: count.some((entry) => entry["kind"] === "signed-off" && entry["why"] === "done"),
    bound: count.filter((entry) => entry["kind"] === "label-bound").map((entry) => String(entry["id"])),
  };
}

/** Put the bagged screws back, and look into the bag. */
export function screwsBack({ set, to, n }: NonNullable<Practised["bagged"]>) {
  const fitted = { kind: "fasteners-fitted", set, n, ...(to ? { source: to } : {}) };
  return to ? [fitted, { kind: "container-emptied", container: to }] : [fitted];
}

/** Throw a practice job away: its labels are free again, its entries stay readable, no list counts it. */
export function thrownAway(bound: readonly string[], reason: string) {
  return [...bound.map((entry) => ({ kind: "entry-voided", entry, reason })), { kind: "signed-off", why: "done" }];
}
