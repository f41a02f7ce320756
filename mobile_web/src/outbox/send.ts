import { remember, remembered, type Box, type Entry, type WaitingPhoto } from "./box";
import { progress } from "./sight";

/** What came of sending: the server has it, or will never take it as it is, or could not be asked now. */
export type Sent = { readonly got: true; readonly held?: number } | { readonly refused: string } | { readonly unreached: string };
/** An original may stop between its parts to let entries pass; it goes on where it stopped. */
export type SentInParts = Sent | { readonly paused: true };

/** What an original's sender is told and asks on its way. */
export interface OnTheWay {
  readonly progress: (sent: number) => void;
  readonly mayPass: () => Promise<boolean>;
}

/** The way to the server. */
export interface Post {
  readonly entries: (job: string, entries: readonly Entry[]) => Promise<Sent>;
  readonly preview: (photo: WaitingPhoto, bytes: ArrayBuffer) => Promise<Sent>;
  readonly original: (photo: WaitingPhoto, bytes: ArrayBuffer, onTheWay: OnTheWay) => Promise<SentInParts>;
}

const MOST_AT_ONCE = 100;

/**
 * Send what waits: entries in their order, then small pictures, then originals; null when nothing is left that could go.
 * What is refused stays, with the reason, and holds nothing else up. What was lost on the way goes again: ids keep it one.
 */
export async function sendAll(box: Box, post: Post, changed: () => void): Promise<string | null> {
  for (;;) {
    const went = await sendNext(box, post);
    if (went === "nothing left") return null;
    changed();
    if (typeof went === "object") return went.unreached;
  }
}

type Went = "went" | "nothing left" | { readonly unreached: string };

async function sendNext(box: Box, post: Post): Promise<Went> {
  const run = await nextRun(box);
  if (run.length) return sendRun(box, post, run);
  const small = await sendPreview(box, post);
  return small === "nothing left" ? sendOriginal(box, post) : small;
}
const HELD = "entries held for the lead";

/** How many entries the server keeps out of the record until a lead has seen them, since somebody here last read so. */
async function heldOf(box: Box): Promise<number> {
  return Number((await remembered(box, HELD)) ?? 0);
}

/** Somebody read that entries are held. */
export async function forgetHeld(box: Box): Promise<void> {
  await remember(box, HELD, 0);
}

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
  if ("got" in sent && sent.held) await remember(box, HELD, (await heldOf(box)) + sent.held);
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

/** Find the first photo that may go and that is wanted. */
async function nextPhoto(box: Box, wanted: (photo: WaitingPhoto) => boolean): Promise<[number, WaitingPhoto] | null> {
  let cursor = await box.transaction("photos").store.openCursor();
  while (cursor && (cursor.value.trouble !== null || !wanted(cursor.value))) cursor = await cursor.continue();
  return cursor ? [cursor.key, cursor.value] : null;
}

/** A small picture that is refused is not missed: the original follows. */
async function sendPreview(box: Box, post: Post): Promise<Went> {
  const next = await nextPhoto(box, (photo) => !photo.small);
  if (!next) return "nothing left";
  const [key, photo] = next;
  const sent = await post.preview(photo, await bytesOf(box, key));
  if ("unreached" in sent) return sent;
  await box.put("photos", { ...photo, small: true }, key);
  return "went";
}

async function sendOriginal(box: Box, post: Post): Promise<Went> {
  const next = await nextPhoto(box, () => true);
  if (!next) return "nothing left";
  const [key, photo] = next;
  const bytes = await bytesOf(box, key);
  const tell = (sent: number) => {
    progress.value = { sha256: photo.sha256, sent, of: bytes.byteLength };
  };
  const mayPass = async () => (await nextRun(box)).length > 0 || (await nextPhoto(box, (each) => !each.small)) !== null;
  const sent = await post.original(photo, bytes, { progress: tell, mayPass });
  progress.value = null;
  if ("unreached" in sent) return sent;
  if ("refused" in sent) await box.put("photos", { ...photo, trouble: sent.refused }, key);
  if ("got" in sent) await letGo(box, key);
  return "went";
}

async function bytesOf(box: Box, key: number): Promise<ArrayBuffer> {
  return (await box.get("bytes", key)) ?? new ArrayBuffer(0);
}

/** Let a photo and its bytes go from this phone. */
export async function letGo(box: Box, key: number): Promise<void> {
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

/** What waits and what was refused, counted; `bytes` are those of originals. */
export interface Waiting {
  readonly entries: number;
  readonly photos: number;
  readonly bytes: number;
  readonly refused: readonly string[];
  /** Entries that went over and wait there for a lead. */
  readonly held: number;
}

/** Count what is still here. */
export async function countWaiting(box: Box): Promise<Waiting> {
  const refused: string[] = [];
  const reading = box.transaction(["entries", "photos", "known"]);
  const held = Number((await reading.objectStore("known").get(HELD)) ?? 0);
  let [entries, photos, bytes] = [0, 0, 0];
  for (let at = await reading.objectStore("entries").openCursor(); at; at = await at.continue()) {
    entries += 1;
    if (at.value.trouble !== null) refused.push(at.value.trouble);
  }
  for (let at = await reading.objectStore("photos").openCursor(); at; at = await at.continue()) {
    photos += 1;
    bytes += at.value.size ?? 0;
    if (at.value.trouble !== null) refused.push(at.value.trouble);
  }
  return { entries, photos, bytes, refused, held };
}
