import { openDB, type DBSchema, type IDBPDatabase, type IDBPTransaction } from "idb";

import { hexOf } from "./uuid7";

/** An entry as it goes over the wire: the envelope and the fields of its kind. */
export interface Entry {
  readonly id: string;
  readonly job: string;
  readonly seq: number;
  readonly kind: string;
  readonly [field: string]: unknown;
}

/** An entry that the server has not taken yet; `trouble` says why it was refused. */
export interface WaitingEntry {
  readonly entry: Entry;
  readonly trouble: string | null;
}

/**
 * A photo whose original the server does not have yet; its bytes lie beside it, as the camera gave them.
 * `small` tells that the small picture that stands in for it went over, or is not wanted.
 */
export interface WaitingPhoto {
  readonly job: string;
  readonly by: string;
  readonly sha256: string;
  readonly type: string;
  readonly trouble: string | null;
  readonly small?: boolean;
  readonly size?: number;
  readonly at?: string;
}

/** This phone as entries name it, who holds it, and the number of its last entry. */
export interface Phone {
  readonly device: string;
  readonly by: string | null;
  readonly seq: number;
  /** Until when the PIN of whoever holds it counts here. */
  readonly until?: string | null;
}

interface Stores extends DBSchema {
  phone: { key: string; value: Phone };
  entries: { key: number; value: WaitingEntry };
  photos: { key: number; value: WaitingPhoto };
  bytes: { key: number; value: ArrayBuffer };
  known: { key: string; value: unknown };
}
export type Box = IDBPDatabase<Stores>;
const HERE = "this";

/** Open what this browser keeps for the shop's server; it outlives reloads and crashes. */
export function openBox(name = "lastbolt"): Promise<Box> {
  return openDB<Stores>(name, 1, {
    upgrade(made) {
      made.createObjectStore("phone");
      made.createObjectStore("entries", { autoIncrement: true });
      made.createObjectStore("photos", { autoIncrement: true });
      made.createObjectStore("bytes");
      made.createObjectStore("known");
    },
  });
}

/** Tell which phone this is; at its first use it gets a name of its own, which it keeps. */
export async function phoneOf(box: Box): Promise<Phone> {
  const changing = box.transaction("phone", "readwrite");
  const phone = (await changing.store.get(HERE)) ?? newPhone();
  await changing.store.put(phone, HERE);
  await changing.done;
  return phone;
}

/** Put down who holds the phone from now on. */
export async function holdPhone(box: Box, by: string): Promise<Phone> {
  const changing = box.transaction("phone", "readwrite");
  const phone = { ...((await changing.store.get(HERE)) ?? newPhone()), by };
  await changing.store.put(phone, HERE);
  await changing.done;
  return phone;
}

/** What the server says of this phone: its name there, the highest number it has of it, and who holds it until when. */
export interface Belonging {
  readonly device: string | null;
  readonly seq: number;
  readonly by: string | null;
  readonly until: string | null;
}

/** Put down whose phone this is from now on; a number that was given here is never given again. */
export async function settlePhone(box: Box, { device, seq, by, until }: Belonging): Promise<Phone> {
  const changing = box.transaction("phone", "readwrite");
  const before = (await changing.store.get(HERE)) ?? newPhone();
  const same = device === null || device === before.device;
  const phone = { device: device ?? before.device, seq: same ? Math.max(seq, before.seq) : seq, by, until };
  await changing.store.put(phone, HERE);
  await changing.done;
  return phone;
}

/** What an act wants kept: its entries in their order, yet without a number, and the photo that belongs to them. */
export interface Act {
  readonly entries: readonly Unnumbered[];
  readonly photo: { readonly about: WaitingPhoto; readonly bytes: ArrayBuffer } | null;
}
export interface Unnumbered {
  readonly id: string;
  readonly job: string;
  readonly kind: string;
  readonly [field: string]: unknown;
}

/** Keep one act whole or not at all, its entries numbered without a gap whichever tab they come from. */
export async function keep(box: Box, act: Act): Promise<Entry[]> {
  const changing = box.transaction(["phone", "entries", "photos", "bytes"], "readwrite", { durability: "strict" });
  const phone = (await changing.objectStore("phone").get(HERE)) ?? newPhone();
  const { device } = phone;
  const entries = act.entries.map((entry, index): Entry => ({ ...entry, device, seq: phone.seq + index + 1 }));
  const counted = { ...phone, seq: phone.seq + entries.length };
  try {
    await changing.objectStore("phone").put(counted, HERE);
    for (const entry of entries) await changing.objectStore("entries").add({ entry, trouble: null });
    if (act.photo) await keepPhoto(changing, act.photo);
  } catch (error) {
    changing.done.catch(() => undefined);
    changing.abort();
    throw error;
  }
  await changing.done;
  return entries;
}

type Changing = IDBPTransaction<Stores, ("phone" | "entries" | "photos" | "bytes")[], "readwrite">;

async function keepPhoto(changing: Changing, photo: NonNullable<Act["photo"]>): Promise<void> {
  const key = await changing.objectStore("photos").add(photo.about);
  await changing.objectStore("bytes").put(photo.bytes, key);
}

/** Remember the last answer about something, for when the server is out of reach. */
export async function remember(box: Box, what: string, answer: unknown): Promise<void> {
  await box.put("known", answer, what);
}

/** Give the last answer about something, if there was one. */
export async function remembered(box: Box, what: string): Promise<unknown> {
  return box.get("known", what);
}

function newPhone(): Phone {
  return { device: `phone ${hexOf(crypto.getRandomValues(new Uint8Array(6)))}`, by: null, seq: 0 };
}

/** Give what waits of a job, in its order, with what the server said of refused entries. */
export async function allWaitingOf(box: Box, job: string): Promise<WaitingEntry[]> {
  return (await box.getAll("entries")).filter(({ entry }) => entry.job === job);
}

/** Give the entries of a job that the server does not have yet, in their order. */
export async function waitingOf(box: Box, job: string): Promise<Entry[]> {
  return (await allWaitingOf(box, job)).map(({ entry }) => entry);
}
