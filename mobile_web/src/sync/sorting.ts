import type { Known } from "../draft/known";
import { unsortedIn, type Unsorted } from "../draft/sorting";
import { remember, remembered, waitingOf } from "../outbox/box";
import { outbox } from "../outbox/here";
import { listAll } from "./api";
import { loadBagging } from "./bagging";

type Raw = Readonly<Record<string, unknown>>;

/** What waits to be sorted in a job, and where things may have been; out of reach, from what was known last. */
export async function loadSorting(job: string): Promise<{ readonly unsorted: readonly Unsorted[]; readonly known: Known }> {
  const { box } = await outbox;
  const [lines, { known }] = await Promise.all([listAll(job), loadBagging(job)]);
  const what = `entries of ${job}`;
  const fresh = "here" in lines ? lines.here : null;
  if (fresh) await remember(box, what, fresh);
  const old = fresh ?? ((await remembered(box, what)) as readonly Raw[] | undefined) ?? [];
  const here = new Set(old.map((entry) => entry["id"]));
  const waiting = (await waitingOf(box, job)).filter((entry) => !here.has(entry.id));
  return { unsorted: unsortedIn([...old, ...waiting]), known };
}

/** A photo's bytes where they still wait on this phone, else the server's small picture of it. */
export async function pictureFor(photo: string): Promise<string> {
  const { box } = await outbox;
  const keys = await box.getAllKeys("photos");
  const rows = await box.getAll("photos");
  const key = keys[rows.findIndex((row) => row.sha256 === photo)];
  const bytes = key === undefined ? undefined : await box.get("bytes", key);
  return bytes ? URL.createObjectURL(new Blob([bytes])) : `/api/photos/${photo}/preview`;
}
