/** A point on a photo: shares of its width and height. */
export interface Spot {
  readonly x: number;
  readonly y: number;
}
type Outline = readonly (readonly [number, number])[];

/** What the reader saw in a photo, and what a person struck from it and added to it. */
export interface Marks {
  readonly seen: readonly Spot[];
  readonly struck: ReadonlySet<number>;
  readonly added: readonly Spot[];
}

/** The middle of an outline. */
export function middle(outline: Outline): Spot {
  const sum = outline.reduce((all, [x, y]) => ({ x: all.x + x, y: all.y + y }), { x: 0, y: 0 });
  const share = (whole: number) => Math.round((whole / Math.max(1, outline.length)) * 10_000) / 10_000;
  return { x: share(sum.x), y: share(sum.y) };
}

/** Begin with what the reader saw. */
export function marksOf(outlines: readonly Outline[]): Marks {
  return { seen: outlines.map(middle), struck: new Set(), added: [] };
}

/** How many parts the photo shows after a person looked. */
export function counted({ seen, struck, added }: Marks): number {
  return seen.length - struck.size + added.length;
}

/** Strike one that was seen, or let it count again. */
export function toggled(marks: Marks, place: number): Marks {
  const struck = new Set(marks.struck);
  if (!struck.delete(place)) struck.add(place);
  return { ...marks, struck };
}

/** Add one that was not seen. */
export function withOneMore(marks: Marks, spot: Spot): Marks {
  return { ...marks, added: [...marks.added, spot] };
}

/** Take away one that was added. */
export function withoutAdded(marks: Marks, place: number): Marks {
  return { ...marks, added: marks.added.filter((_, index) => index !== place) };
}

/** Tell whether a person changed anything. */
export function isCorrected({ struck, added }: Marks): boolean {
  return struck.size > 0 || added.length > 0;
}
