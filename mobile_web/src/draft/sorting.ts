import type { Drafts } from "./bag";

/** A photo that was shot now to be sorted later, with what is known of it. */
export interface Unsorted {
  readonly photo: string;
  readonly at: string;
  readonly label: string | null;
  readonly container: string | null;
  /** The reader's count, where it has one that is not an interval. */
  readonly n: number | null;
}
type Raw = Readonly<Record<string, unknown>>;

/** Find the photos that nothing else says anything of, the oldest first; entries come oldest first. */
export function unsortedIn(entries: readonly Raw[]): Unsorted[] {
  const voided = new Set(entries.filter((entry) => entry["kind"] === "entry-voided").map((entry) => entry["entry"]));
  const standing = entries.filter((entry) => !voided.has(entry["id"]));
  const told = new Set(standing.flatMap(photosTold));
  const counts = new Map(standing.filter((entry) => entry["kind"] === "photo-counted").map((entry) => [entry["photo"], entry]));
  return standing.filter((entry) => entry["kind"] === "photo-added" && isOpen(entry) && !told.has(text(entry["photo"]))).map((entry) => {
    const counted = counts.get(entry["photo"]);
    const sure = counted && counted["low"] === counted["high"] && typeof counted["n"] === "number" && counted["n"] > 0;
    const [label] = Array.isArray(entry["labels"]) ? entry["labels"].map(String) : [];
    const container = text(entry["container"]) || null;
    return { photo: text(entry["photo"]), at: text(entry["at"]), label: label ?? null, container, n: sure ? Number(counted["n"]) : null };
  });
}

/** Say where the pieces in a photo were: written down late, for the moment of the photo. */
export function sortedAs({ photo, at }: Unsorted, { set, n, to, reason }: { set: string; n: number; to: string; reason: string }): Drafts {
  const late = { mode: "late", happened_at: at, late_reason: reason };
  return [
    { kind: "photo-linked", photo, element: set, shape: "tray" },
    { kind: "fasteners-removed", set, n, to, photos: [photo], ...late },
  ];
}

/** Which entries tell of a photo what it shows, so that it need not be sorted. */
function photosTold(entry: Raw): string[] {
  const kind = entry["kind"];
  if (kind === "photo-linked" || kind === "photo-pinned" || kind === "photo-rejected") return [text(entry["photo"])];
  return Array.isArray(entry["photos"]) ? entry["photos"].map(String) : [];
}

function isOpen(entry: Raw): boolean {
  return !entry["element"] && (entry["shape"] === undefined || entry["shape"] === "tray" || entry["shape"] === "other");
}

function text(value: unknown): string {
  return typeof value === "string" ? value : "";
}
