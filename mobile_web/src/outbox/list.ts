import type { Box, WaitingEntry, WaitingPhoto } from "./box";

/** What waits, as a list shows it: the oldest first; `key` names it to the outbox. */
export interface Listed {
  readonly entries: readonly (WaitingEntry & { readonly key: number })[];
  readonly photos: readonly (WaitingPhoto & { readonly key: number })[];
}

/** Give what waits here, at most `most` of each. */
export async function listWaiting(box: Box, most: number): Promise<Listed> {
  const reading = box.transaction(["entries", "photos"]);
  const [entries, photos] = [reading.objectStore("entries"), reading.objectStore("photos")];
  const [entryKeys, entryRows] = [await entries.getAllKeys(null, most), await entries.getAll(null, most)];
  const [photoKeys, photoRows] = [await photos.getAllKeys(null, most), await photos.getAll(null, most)];
  return {
    entries: entryRows.map((row, place) => ({ ...row, key: entryKeys[place]! })),
    photos: photoRows.map((row, place) => ({ ...row, key: photoKeys[place]! })),
  };
}

/** How much room the browser gives this page, in bytes, and whether it keeps it when room gets short; null: it does not say. */
export interface Room {
  readonly left: number | null;
  readonly kept: boolean | null;
}

/** Ask the browser about room; over plain http it does not say. */
export async function roomHere(): Promise<Room> {
  const storage = (navigator as Partial<Navigator>).storage;
  if (!storage?.estimate) return { left: null, kept: null };
  const { quota, usage } = await storage.estimate();
  const left = quota === undefined || usage === undefined ? null : Math.max(0, quota - usage);
  return { left, kept: (await storage.persisted?.()) ?? null };
}

/** Ask the browser to keep what waits here also when room gets short; it may refuse. */
export async function keepRoom(): Promise<boolean> {
  return (await (navigator as Partial<Navigator>).storage?.persist?.()) ?? false;
}
