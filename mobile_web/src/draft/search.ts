/** What a photo can be found by. */
export interface Findable {
  readonly element: string | null;
  readonly container: string | null;
  readonly step: string | null;
  readonly labels: readonly string[];
  readonly taken: string | null;
  readonly taken_local: string | null;
  readonly arrived: string;
}
export type By = "step" | "label" | "date";

/** Group photos by what they are found by, each under every name that it has; groups in the order of their names. */
export function photosBy<T extends Findable>(by: By, photos: readonly T[], none: string): readonly (readonly [string, readonly T[]])[] {
  const groups = new Map<string, T[]>();
  for (const photo of photos) {
    const names = namesOf(by, photo);
    for (const name of names.length ? names : [none]) groups.set(name, [...(groups.get(name) ?? []), photo]);
  }
  const sorted = [...groups].sort(([left], [right]) => left.localeCompare(right, undefined, { numeric: true }));
  return by === "date" ? sorted.reverse() : sorted;
}

function namesOf(by: By, { step, element, container, labels, taken, taken_local, arrived }: Findable): readonly string[] {
  if (by === "date") return [dayOf(taken ?? taken_local ?? arrived)];
  const names = by === "step" ? [step, element] : [container, ...labels];
  return [...new Set(names.filter((name): name is string => Boolean(name)))];
}

/** Give the day of a time as written: year, month, day; a camera writes colons between them. */
function dayOf(time: string): string {
  return time.slice(0, 10).replaceAll(":", "-");
}

/** Group bags and trays by where they lie. */
export function byPlace<T extends { readonly place: string | null }>(things: readonly T[], none: string): readonly (readonly [string, readonly T[]])[] {
  const groups = new Map<string, T[]>();
  for (const thing of things) groups.set(thing.place ?? none, [...(groups.get(thing.place ?? none) ?? []), thing]);
  return [...groups].sort(([left], [right]) => left.localeCompare(right, undefined, { numeric: true }));
}
