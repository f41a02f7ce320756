import type { Sight } from "../outbox/sight";
import { say } from "./say";

/** Say what this phone has not handed over yet; null when there is nothing. */
export function waitingWords({ entries, photos }: Pick<Sight, "entries" | "photos">): string | null {
  if (entries + photos === 0) return null;
  const parts = [entries ? say("outbox.entries", { n: entries }) : "", photos ? say("outbox.photos", { n: photos }) : ""];
  return say("outbox.waiting", { count: entries + photos, what: parts.filter(Boolean).join(", ") });
}
