import { openDB, type DBSchema, type IDBPDatabase } from "idb";

import type { Entry } from "../outbox/box";
import type { AsItWas, Kept, Pocket } from "./shape";

/** A small picture as it lies on this phone. */
export interface KeptPicture {
  readonly bytes: ArrayBuffer;
  readonly type: string;
}

interface Stores extends DBSchema {
  pockets: { key: string; value: Kept & { readonly used: number } };
  since: { key: string; value: Entry };
  pictures: { key: string; value: KeptPicture };
  marks: { key: string; value: unknown };
}
export type Shelf = IDBPDatabase<Stores>;

const MOST_JOBS = 3;

/** Open what this browser keeps of jobs; apart from the outbox, so that it can be thrown away without harm. */
export function openShelf(name = "lastbolt pocket"): Promise<Shelf> {
  return openDB<Stores>(name, 1, {
    upgrade(made) {
      for (const store of ["pockets", "since", "pictures", "marks"] as const) made.createObjectStore(store);
    },
  });
}

/** Keep a job's newest pocket; of the jobs used before, the last ones stay with their pictures. */
export async function keepPocket(shelf: Shelf, kept: Kept, now: number = Date.now()): Promise<void> {
  await shelf.put("pockets", { ...kept, used: now }, kept.pocket.job);
  const all = (await shelf.getAll("pockets")).sort((left, right) => right.used - left.used);
  const old = all.slice(MOST_JOBS);
  if (!old.length) return;
  for (const each of old) await shelf.delete("pockets", each.pocket.job);
  const shown = new Set(all.slice(0, MOST_JOBS).flatMap((each) => each.pocket.photos.map((photo) => photo.sha256)));
  for (const sha256 of await shelf.getAllKeys("pictures")) if (!shown.has(sha256)) await shelf.delete("pictures", sha256);
}

/** Give the pocket of a job as it was kept last. */
export async function keptPocket(shelf: Shelf, job: string): Promise<Kept | null> {
  return (await shelf.get("pockets", job)) ?? null;
}

/** Name the jobs that are kept here, the last used first. */
export async function keptJobs(shelf: Shelf): Promise<string[]> {
  const all = await shelf.getAll("pockets");
  return all.sort((left, right) => right.used - left.used).map((each) => each.pocket.job);
}

/** Note entries recorded here, until a pocket holds them. */
export async function noteSince(shelf: Shelf, entries: readonly Entry[]): Promise<void> {
  const changing = shelf.transaction("since", "readwrite");
  for (const entry of entries) void changing.store.put(entry, entry.id);
  await changing.done;
}

/** Give what was recorded here on a job since its pocket was made, in its order. */
export async function sinceOf(shelf: Shelf, job: string): Promise<Entry[]> {
  const all = await shelf.getAll("since");
  return all.filter((entry) => entry.job === job).sort((left, right) => left.seq - right.seq);
}

/** Tell whether a pocket holds an entry: it says up to which number it has those of each device. */
export function isTaken(pocket: Pocket, entry: Entry): boolean {
  return entry.seq <= (pocket.head.taken?.[String(entry["device"])] ?? 0);
}

/** Forget what a pocket holds. */
export async function forgetSince(shelf: Shelf, pocket: Pocket): Promise<void> {
  for (const entry of await sinceOf(shelf, pocket.job)) if (isTaken(pocket, entry)) await shelf.delete("since", entry.id);
}

/**
 * Show a job as it was before entries were recorded, where its pocket has taken them in already (`since` names what it has not);
 * what others did meanwhile is out of sight until the server's next answer.
 */
export async function backTo(shelf: Shelf, before: AsItWas, { entries, since }: { entries: readonly Entry[]; since: ReadonlySet<string> }): Promise<void> {
  if (entries.every((entry) => since.has(entry.id))) return;
  await keepPocket(shelf, before.kept);
  await noteSince(shelf, before.since);
}
