import type { Box, Entry, WaitingPhoto } from "./box";

/** What came of sending: the server has it, or will never take it as it is, or could not be asked now. */
export type Sent = { readonly got: true } | { readonly refused: string } | { readonly unreached: string };

/** The way to the server. */
export interface Post {
  readonly entries: (job: string, entries: readonly Entry[]) => Promise<Sent>;
  readonly photo: (photo: WaitingPhoto, bytes: ArrayBuffer) => Promise<Sent>;
}

const MOST_AT_ONCE = 100;

/**
 * Send what waits, entries in their order before any photo; null when nothing is left that could go.
 * What is refused stays, with the reason, and holds nothing else up. What was lost on the way goes again: ids keep it one.
 */
export async function sendAll(box: Box, post: Post, changed: () => void): Promise<string | null> {
  for (;;) {
    const run = await nextRun(box);
    const went = run.length ? await sendRun(box, post, run) : await sendPhoto(box, post);
    if (went === "nothing left") return null;
    changed();
    if (typeof went === "object") return went.unreached;
  }
}

type Went = "went" | "nothing left" | { readonly unreached: string };
interface Numbered {
  readonly key: number;
  readonly entry: Entry;
}

/** Take the entries at the front that go to one job. */
async function nextRun(box: Box): Promise<Numbered[]> {
  const run: Numbered[] = [];
  let cursor = await box.transaction("entries").store.openCursor();
  while (cursor && run.length < MOST_AT_ONCE) {
    const { entry, trouble } = cursor.value;
    if (trouble === null) {
      if (run[0] && run[0].entry.job !== entry.job) break;
      run.push({ key: cursor.key, entry });
    }
    cursor = await cursor.continue();
  }
  return run;
}

async function sendRun(box: Box, post: Post, run: readonly Numbered[]): Promise<Went> {
  const sent = await post.entries(run[0]!.entry.job, run.map((each) => each.entry));
  if ("unreached" in sent) return sent;
  if ("refused" in sent && run.length > 1) return eachAlone(box, post, run);
  const changing = box.transaction("entries", "readwrite");
  const settled = run.map(({ key, entry }) =>
    "refused" in sent ? changing.store.put({ entry, trouble: sent.refused }, key) : changing.store.delete(key),
  );
  await Promise.all([...settled, changing.done]);
  return "went";
}

/** One of several is unsound: find out which, and let the others go. */
async function eachAlone(box: Box, post: Post, run: readonly Numbered[]): Promise<Went> {
  for (const each of run) {
    const went = await sendRun(box, post, [each]);
    if (went !== "went") return went;
  }
  return "went";
}

async function sendPhoto(box: Box, post: Post): Promise<Went> {
  let cursor = await box.transaction("photos").store.openCursor();
  while (cursor && cursor.value.trouble !== null) cursor = await cursor.continue();
  if (!cursor) return "nothing left";
  const { key, value: photo } = cursor;
  const sent = await post.photo(photo, (await box.get("bytes", key)) ?? new ArrayBuffer(0));
  if ("unreached" in sent) return sent;
  if ("refused" in sent) await box.put("photos", { ...photo, trouble: sent.refused }, key);
  else await letGo(box, key);
  return "went";
}

async function letGo(box: Box, key: number): Promise<void> {
  const changing = box.transaction(["photos", "bytes"], "readwrite");
  await Promise.all([changing.objectStore("photos").delete(key), changing.objectStore("bytes").delete(key), changing.done]);
}

/** Let what was refused try again: the server may have changed its mind. */
export async function forgive(box: Box): Promise<void> {
  const changing = box.transaction(["entries", "photos"], "readwrite");
  let entry = await changing.objectStore("entries").openCursor();
  while (entry) {
    await entry.update({ ...entry.value, trouble: null });
    entry = await entry.continue();
  }
  let photo = await changing.objectStore("photos").openCursor();
  while (photo) {
    await photo.update({ ...photo.value, trouble: null });
    photo = await photo.continue();
  }
  await changing.done;
}

/** What waits and what was refused, counted. */
export interface Waiting {
  readonly entries: number;
  readonly photos: number;
  readonly refused: readonly string[];
}

/** Count what is still here. */
export async function countWaiting(box: Box): Promise<Waiting> {
  const refused: string[] = [];
  const reading = box.transaction(["entries", "photos"]);
  const counted = { entries: 0, photos: 0 };
  for (const name of ["entries", "photos"] as const) {
    let cursor = await reading.objectStore(name).openCursor();
    while (cursor) {
      counted[name] += 1;
      if (cursor.value.trouble !== null) refused.push(cursor.value.trouble);
      cursor = await cursor.continue();
    }
  }
  return { ...counted, refused };
}
