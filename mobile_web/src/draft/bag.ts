import type { Known } from "./known";

/** Entries to be recorded, without who, when and number. */
export type Drafts = readonly { readonly kind: string; readonly [field: string]: unknown }[];

/** What the photo shows: its hash and size, and the label in view. */
export interface Shown {
  readonly label: string;
  readonly sha256: string;
  readonly width: number;
  readonly height: number;
}

/** Name the bag or tray that a label is on; a free label gives it its own name. */
export function containerOf(label: string, known: Known): string {
  return known.labels[label] ?? label;
}

/** Say that n pieces of a set went into the labelled bag, with the photo that shows it. */
export function bagged(shown: Shown, what: { readonly set: string; readonly n: number }, known: Known): Drafts {
  const { set, n } = what;
  const to = containerOf(shown.label, known);
  const removed = { kind: "fasteners-removed", set, n, to, photos: [shown.sha256], mode: "scan" };
  return [...bound(shown.label, known), added(shown, known, { element: set }), removed];
}

/** Keep the photo with its bag and say nothing more: to be sorted later. */
export function shotForLater(shown: Shown, known: Known): Drafts {
  return [...bound(shown.label, known), added(shown, known, {})];
}

/** Take an act back: what it says of pieces, or a photo alone; the label stays bound and photos stay photos. */
export function undone(entries: readonly { readonly id: string; readonly kind: string }[], reason: string): Drafts {
  const said = entries.filter((entry) => entry.kind === "fasteners-removed");
  const back = said.length ? said : entries.filter((entry) => entry.kind === "photo-added");
  return back.map((entry) => ({ kind: "entry-voided", entry: entry.id, reason }));
}

function bound(label: string, known: Known): Drafts {
  if (known.labels[label] !== undefined) return [];
  const kind = label.startsWith("T") ? "tray" : "bag";
  return [{ kind: "label-bound", label, container: label, container_kind: kind, mode: "scan" }];
}

function added(shown: Shown, known: Known, more: Record<string, unknown>) {
  const { label, sha256, width, height } = shown;
  const photo = { photo: sha256, sha256, width, height, labels: [label], container: containerOf(label, known) };
  return { kind: "photo-added", shape: "tray", ...photo, ...more, mode: "scan" };
}
