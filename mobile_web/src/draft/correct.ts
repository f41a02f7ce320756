/** An entry as it came: a JSON object. */
type Raw = Readonly<Record<string, unknown>>;

export const REASONS = ["tray", "count", "place", "twice", "not"] as const;
export type Reason = (typeof REASONS)[number];

/** How a newer entry stands to an older one: taken back, or recorded anew with other fields. */
export interface Standing {
  readonly voided: boolean;
  readonly replaced: boolean;
}

/** Say for each entry whether it was taken back or put right; corrections that were taken back do not count. */
export function standings(entries: readonly Raw[]): ReadonlyMap<string, Standing> {
  const voided = new Set<string>();
  const newestFirst = [...entries].reverse();
  for (const entry of newestFirst) {
    if (entry["kind"] === "entry-voided" && !voided.has(text(entry, "id"))) voided.add(text(entry, "entry"));
  }
  const replaced = new Set(
    entries.flatMap((entry) =>
      entry["kind"] === "entry-replaced" && !voided.has(text(entry, "id")) ? [text(entry, "entry")] : [],
    ),
  );
  return new Map(entries.map((entry) => [text(entry, "id"), { voided: voided.has(text(entry, "id")), replaced: replaced.has(text(entry, "id")) }]));
}

/** Name the reasons that make sense for an entry: a wrong count only where there is a count, and so on. */
export function reasonsFor(entry: Raw): readonly Reason[] {
  return REASONS.filter((reason) => {
    if (reason === "tray") return trayField(entry) !== null;
    if (reason === "count") return typeof entry["n"] === "number";
    if (reason === "place") return text(entry, "set") !== "" && entry["kind"] !== "set-described";
    return true;
  });
}

/** Name the field in which an entry says into or out of which bag or tray. */
export function trayField(entry: Raw): "to" | "source" | "container" | null {
  for (const field of ["to", "source", "container"] as const) if (text(entry, field)) return field;
  return null;
}

/** Take an entry back. */
export function takenBack(entry: string, reason: string) {
  return [{ kind: "entry-voided", entry, reason }];
}

/** Put an entry right in some of its fields. */
export function putRight(entry: string, fields: Raw, reason: string) {
  return [{ kind: "entry-replaced", entry, fields, reason }];
}

function text(entry: Raw, field: string): string {
  const value = entry[field];
  return typeof value === "string" ? value : "";
}
