import type { Pocket, PocketPhoto, PocketSet } from "../pocket/shape";

const SHAPES = ["before", "during", "other", "after", "inside", "tray", "defect", "manual"];

/** Choose the photo that shows best where a set goes: most of its holes marked, else one said to show it or its part. */
export function photoFor(pocket: Pocket, set: PocketSet): PocketPhoto | null {
  return photosFor(pocket, set)[0] ?? null;
}

/** List the photos that show where a set goes, the best first; tray pictures show the pieces, not the place. */
export function photosFor(pocket: Pocket, set: PocketSet): PocketPhoto[] {
  const pinned = (photo: PocketPhoto) => photo.pins.filter((pin) => pin.element === set.set).length;
  const about = (photo: PocketPhoto) => photo.elements.includes(set.set) || (set.part !== null && photo.elements.includes(set.part));
  return pocket.photos
    .filter((photo) => photo.sha256 && !photo.rejected && (pinned(photo) || (about(photo) && photo.shape !== "tray")))
    .sort((left, right) => pinned(right) - pinned(left) || SHAPES.indexOf(left.shape) - SHAPES.indexOf(right.shape));
}
