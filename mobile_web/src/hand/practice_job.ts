import { jobName, opened } from "../draft/job";
import { outbox } from "../outbox/here";
import { hexOf } from "../outbox/uuid7";
import { goTo } from "../place";
import { say } from "../words/say";

const LEVEL = 2;

/** Give an ending for a job's name that no other phone makes. */
export function ending(): string {
  return hexOf(crypto.getRandomValues(new Uint8Array(2)));
}

/** Open a practice job and go there; gives a sentence when this phone could not keep it. */
export async function practiceJob(): Promise<string | null> {
  const job = jobName("practice", ending());
  const drafts = opened(say("practice.machine"), say("practice.work"), LEVEL, { practice: true });
  const recorded = await (await outbox).record(job, drafts);
  if ("trouble" in recorded) return say("bag.not.kept", { reason: recorded.trouble });
  goTo({ screen: "hand", view: "practice", job, about: "" });
  return null;
}
