import type { Known } from "./known";
import type { Marks } from "./marks";
import { readingOf, type Reading } from "./reading";

/** Entries to be recorded, without who, when and number. */
export type Drafts = readonly Draft[];
interface Draft {
  readonly kind: string;
  readonly [field: string]: unknown;
}

/** A photo by its hash and size. */
export interface Picture {
  readonly sha256: string;
  readonly width: number;
  readonly height: number;
}

/** Pieces of one set, the label of the bag or tray that they went into, and what the machine read in the photo of them. */
export interface Lot {
  readonly label: string;
  readonly set: string;
  readonly n: number;
  readonly reading?: Reading | null;
  readonly marks?: Marks | null;
  /** Where on a photo of the machine they were, for a spot that nobody named yet. */
  readonly spot?: { readonly photo: string; readonly x: number; readonly y: number } | null;
}

/** Name the bag or tray that a label is on; a free label gives it its own name. */
export function containerOf(label: string, known: Known): string {
  return known.labels[label] ?? label;
}

/** Say that n pieces of a set went into the labelled bag, with the photo that shows it. */
export function bagged(picture: Picture, { label, set, n, reading, marks, spot }: Lot, known: Known): Drafts {
  const to = containerOf(label, known);
  const removed = { kind: "fasteners-removed", set, n, to, photos: [picture.sha256], mode: "scan" };
  const photo = added(picture, { labels: [label], container: to, element: set, shape: "tray" });
  const read = reading && marks ? readingOf(picture.sha256, to, reading, marks) : [];
  const pinned = spot ? [{ kind: "photo-pinned", photo: spot.photo, element: set, x: spot.x, y: spot.y }] : [];
  return [...bound(label, known), photo, removed, ...read, ...pinned];
}

/** Keep the photo, with its bag where a label was read, and say nothing more: to be sorted later. */
export function shotForLater(picture: Picture, label: string | null, known: Known): Drafts {
  if (label === null) return [added(picture, {})];
  return [...bound(label, known), added(picture, { labels: [label], container: containerOf(label, known), shape: "tray" })];
}

const SAYS_OF_PIECES = new Set(["fasteners-removed", "photo-counted", "reading-corrected", "photo-pinned"]);

/** Take an act back: what it says of pieces, or a photo alone; the label stays bound and photos stay photos. */
export function undone(entries: readonly { readonly id: string; readonly kind: string }[], reason: string): Drafts {
  const said = entries.filter((entry) => SAYS_OF_PIECES.has(entry.kind));
  const back = said.length ? said : entries.filter((entry) => entry.kind === "photo-added");
  return back.map((entry) => ({ kind: "entry-voided", entry: entry.id, reason }));
}

/** Put a free label on the bag or tray that it names; nothing where it is on one already. */
export function bound(label: string, known: Known): Drafts {
  if (known.labels[label] !== undefined) return [];
  const kind = label.startsWith("T") ? "tray" : "bag";
  return [{ kind: "label-bound", label, container: label, container_kind: kind, mode: "scan" }];
}

function added({ sha256, width, height }: Picture, about: Record<string, unknown>): Draft {
  return { kind: "photo-added", photo: sha256, sha256, width, height, ...about, mode: "scan" };
}
