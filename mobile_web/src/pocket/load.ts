import { allWaitingOf, type Entry } from "../outbox/box";
import { outbox } from "../outbox/here";
import { getPocket } from "../sync/pocket";
import { backTo, forgetSince, isTaken, keepPocket, keptPocket, noteSince, openShelf, sinceOf, type Shelf } from "./keep";
import { withSince } from "./overlay";
import { keepPictures } from "./pictures";
import type { AsItWas, Kept, OnPhone, Pocket } from "./shape";

/** What this browser keeps of jobs, opened once. */
export const shelf: Promise<Shelf> = openShelf();

/** Give a job as this phone knows it without asking anybody; null when it never saw it. */
export async function onPhone(job: string, trouble: string | null = null): Promise<OnPhone | null> {
  const opened = await shelf;
  const kept = await keptPocket(opened, job);
  return kept && laidOver(kept, await sinceHere(opened, kept.pocket), trouble);
}

/** Ask the server for a job and keep the answer; out of reach, give what is here, with the reason. */
export async function refreshed(job: string): Promise<OnPhone | { readonly trouble: string }> {
  const opened = await shelf;
  const old = await keptPocket(opened, job);
  const answer = await getPocket(job, old?.tag ?? null);
  const now = await keptPocket(opened, job);
  if ("trouble" in answer) return (await onPhone(job, answer.trouble)) ?? answer;
  const { pocket, tag } = answer.here === "unchanged" ? { pocket: old!.pocket, tag: old!.tag ?? null } : answer.here;
  if (now && now.at !== old?.at && isBehind(pocket, now.pocket, answer.here === "unchanged")) return (await onPhone(job))!;
  const kept: Kept = { pocket, tag, at: new Date().toISOString() };
  await keepPocket(opened, kept);
  await forgetSince(opened, pocket);
  void keepPictures(opened, pocket);
  return laidOver(kept, await sinceHere(opened, pocket), null);
}

/** Tell whether an answer came too late: a newer one was kept meanwhile, or an act was taken out of sight. */
function isBehind(pocket: Pocket, now: Pocket, unchanged: boolean): boolean {
  return unchanged ? now.head.hash !== pocket.head.hash : now.head.position > pocket.head.position;
}

/** Note what was recorded here, so that it shows before the server has judged it. */
export async function noted(entries: readonly Entry[]): Promise<void> {
  await noteSince(await shelf, entries);
}

/** Give what this phone knows of a job before an act, so that the act can be taken back out of sight. */
export async function asItWas(job: string): Promise<AsItWas | null> {
  const opened = await shelf;
  const kept = await keptPocket(opened, job);
  return kept && { kept, since: await sinceHere(opened, kept.pocket) };
}

/** Take entries out of sight that the pocket has taken in already. */
export async function outOfSight(before: AsItWas, entries: readonly Entry[]): Promise<void> {
  const opened = await shelf;
  const now = (await keptPocket(opened, before.kept.pocket.job)) ?? before.kept;
  const since = await sinceHere(opened, now.pocket);
  await backTo(opened, before, { entries, since: new Set(since.map((entry) => entry.id)) });
}

/** What was recorded here since the pocket: noted, or put into the outbox by a screen that notes nothing. */
async function sinceHere(opened: Shelf, pocket: Pocket): Promise<Entry[]> {
  const { box } = await outbox;
  const [noted, waiting] = await Promise.all([sinceOf(opened, pocket.job), allWaitingOf(box, pocket.job)]);
  const refused = new Set(waiting.filter(({ trouble }) => trouble !== null).map(({ entry }) => entry.id));
  const all = new Map([...noted, ...waiting.map(({ entry }) => entry)].map((entry) => [entry.id, entry]));
  return [...all.values()].filter((entry) => refused.has(entry.id) || !isTaken(pocket, entry)).sort((left, right) => left.seq - right.seq);
}

function laidOver(kept: Kept, since: readonly Entry[], trouble: string | null): OnPhone {
  return { ...kept, pocket: withSince(kept.pocket, since), since, trouble };
}
