/** What the bagging screen knows of a job: its sets, the latest used first, and what its labels are bound to. */
export interface Known {
  readonly sets: readonly string[];
  readonly labels: Readonly<Record<string, string>>;
  readonly photos: number;
  readonly zone: string | null;
  /** Which sets lie in which bag or tray, as far as known. */
  readonly lies?: Readonly<Record<string, readonly string[]>>;
}

export const NOTHING_KNOWN: Known = { sets: [], labels: {}, photos: 0, zone: null };

type Raw = Readonly<Record<string, unknown>>;

/** Learn from entries, oldest first; what was voided teaches nothing. */
export function learn(known: Known, entries: readonly Raw[]): Known {
  const voided = new Set(entries.filter((entry) => entry["kind"] === "entry-voided").map((entry) => entry["entry"]));
  return entries.filter((entry) => !voided.has(entry["id"])).reduce(learnOne, known);
}

function learnOne(known: Known, entry: Raw): Known {
  const [set, label, container, zone] = ["set", "label", "container", "zone"].map((field) => textIn(entry, field));
  let next = known;
  if (set) next = { ...next, sets: [set, ...next.sets.filter((each) => each !== set)] };
  if (zone) next = { ...next, zone };
  if (entry["kind"] === "photo-added") next = { ...next, photos: next.photos + 1 };
  if (entry["kind"] === "label-bound" && label && container) {
    next = { ...next, labels: { ...next.labels, [label]: container } };
  }
  if (entry["kind"] === "fasteners-removed" && set) next = lying(next, textIn(entry, "to"), (sets) => [...new Set([...sets, set])]);
  if (entry["kind"] === "fasteners-fitted" && set) next = lying(next, textIn(entry, "source"), (sets) => sets.filter((each) => each !== set));
  if (entry["kind"] === "container-emptied") next = lying(next, container ?? null, () => []);
  if (entry["kind"] === "label-retired" && label) {
    const { [label]: _, ...labels } = next.labels;
    next = { ...next, labels };
  }
  return next;
}

function lying(known: Known, container: string | null, change: (sets: readonly string[]) => readonly string[]): Known {
  if (!container) return known;
  return { ...known, lies: { ...known.lies, [container]: change(known.lies?.[container] ?? []) } };
}

/** Tell whether pieces of a set lie in the labelled bag already: bagged twice, or more of them. */
export function liesAlready(known: Known, label: string, set: string): boolean {
  return (known.lies?.[known.labels[label] ?? label] ?? []).includes(set);
}

/** Name a spot that nobody has named: by the zone last worked in and the number of the photo that shows it. */
export function newSpot(known: Known, near: (zone: string | null, photo: number) => string): string {
  let photo = known.photos + 1;
  while (known.sets.includes(near(known.zone, photo))) photo += 1;
  return near(known.zone, photo);
}

function textIn(entry: Raw, field: string): string | null {
  const value = entry[field];
  return typeof value === "string" && value !== "" ? value : null;
}

/** Tell whether a label found in a picture is on a bag or tray, or may be put on one. */
export function isForBags(label: { readonly code: string; readonly checked: boolean }, known: Known): boolean {
  return known.labels[label.code] !== undefined || (label.checked && /^[TB]/.test(label.code));
}
