import { learn, NOTHING_KNOWN, type Known } from "../draft/known";
import { remember, remembered, waitingOf } from "../outbox/box";
import { outbox } from "../outbox/here";
import { listContainers, listNewest, type Container } from "./api";

/** What is known for bagging, and why it may be old. */
export interface Bagging {
  readonly known: Known;
  readonly trouble: string | null;
}

/** Ask the server what a job's sets and labels are; out of reach, go on with what it said last. What waits here counts too. */
export async function loadBagging(job: string): Promise<Bagging> {
  const { box } = await outbox;
  const begunHere = (await waitingOf(box, job)).some(({ kind }) => kind === "job-opened");
  const [containers, lines] = await Promise.all([listContainers(job), listNewest(job)]);
  const what = `bagging of ${job}`;
  let trouble: string | null = null;
  let known = NOTHING_KNOWN;
  if ("here" in containers && "here" in lines) {
    const entries = lines.here.lines.map((line) => line.entry).reverse();
    known = learn({ ...NOTHING_KNOWN, labels: labelsOf(containers.here) }, entries);
    await remember(box, what, known);
  } else {
    if (!begunHere) trouble = "trouble" in containers ? containers.trouble : "trouble" in lines ? lines.trouble : null;
    known = ((await remembered(box, what)) as Known | undefined) ?? NOTHING_KNOWN;
  }
  return { known: learn(known, await waitingOf(box, job)), trouble };
}

function labelsOf(containers: readonly Container[]): Record<string, string> {
  return Object.fromEntries(containers.flatMap(({ label, container }) => (label ? [[label, container]] : [])));
}
