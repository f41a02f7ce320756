import type { Pocket, PocketPhoto } from "../pocket/shape";
import { OUTLINES, type Outline } from "./shapes";
import type { Size } from "./view";

/** A set on the photo of the machine: its number there, its outline, and all its marks as shares of width and height. */
export interface Place {
  readonly set: string;
  readonly number: number;
  readonly outline: Outline;
  readonly marks: readonly { readonly x: number; readonly y: number }[];
}

/** A point on a photo, as an entry names it. */
export interface Spot {
  readonly photo: string;
  readonly x: number;
  readonly y: number;
}

/** How far from a mark a tap still means it, in radii of a pin. */
const REACH = 2.4;

/** Choose the photo of the machine on which a place is tapped: it shows the set last worked on, else the most sets; null where none has marks. */
export function overviewOf(pocket: Pocket): PocketPhoto | null {
  const sets = pocket.sets.map((each) => each.set);
  const shows = (photo: PocketPhoto) => new Set(photo.pins.map((pin) => pin.element).filter((element) => sets.includes(element)));
  const found = pocket.photos
    .filter((photo) => photo.sha256 && !photo.rejected && photo.shape !== "tray")
    .map((photo) => ({ photo, shown: shows(photo) }))
    .filter(({ shown }) => shown.size > 0);
  const last = sets[0] ?? "";
  found.sort((left, right) => Number(right.shown.has(last)) - Number(left.shown.has(last)) || right.shown.size - left.shown.size);
  return found[0]?.photo ?? null;
}

/** List the sets marked on a photo, numbered in the order in which they were marked; outlines take turns. */
export function placesOn(photo: PocketPhoto, pocket: Pocket): Place[] {
  const sets = new Set(pocket.sets.map((each) => each.set));
  const marked = [...new Set(photo.pins.map((pin) => pin.element))].filter((element) => sets.has(element)).sort();
  return marked.map((set, index) => ({
    set,
    number: index + 1,
    outline: OUTLINES[index % OUTLINES.length] ?? "circle",
    marks: photo.pins.filter((pin) => pin.element === set).map(({ x, y }) => ({ x, y })),
  }));
}

/** Name the set whose mark lies nearest to a tapped point; null where none is near, which is a new spot. */
export function setAt(places: readonly Place[], at: { readonly x: number; readonly y: number }, size: Size, radius: number): string | null {
  const near = places
    .flatMap(({ set, marks }) => marks.map((mark) => ({ set, far: Math.hypot(mark.x * size.width - at.x, mark.y * size.height - at.y) })))
    .sort((left, right) => left.far - right.far)[0];
  return near && near.far <= radius * REACH ? near.set : null;
}
