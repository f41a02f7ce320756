/** Entries to be recorded, without who, when and number. */
export type Drafts = readonly Draft[];
export interface Draft {
  readonly kind: string;
  readonly [field: string]: unknown;
}

const STAYS = new Set(["label-bound", "photo-added"]);

/** Take an act back: everything that it said; a label stays bound and photos stay photos, unless there is nothing else. */
export function takenBack(entries: readonly { readonly id: string; readonly kind: string }[], reason: string): Drafts {
  const said = entries.filter((entry) => !STAYS.has(entry.kind));
  const back = said.length ? said : entries.filter((entry) => entry.kind === "photo-added");
  return back.map((entry) => ({ kind: "entry-voided", entry: entry.id, reason }));
}
