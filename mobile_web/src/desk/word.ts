import type { DeskFinding } from "../sync/desk";
import type { Word } from "../sync/release";
import { served } from "../words/served";
import { say } from "../words/say";

/** What the lead can do with a finding. */
export type Act = "decide" | "defer" | "back";

/** What was typed for it; only what the act asks for counts. */
export interface Typed {
  readonly word: "accept" | "clear";
  readonly reason: string;
  readonly limit: string;
  readonly barrier: string;
  readonly second: string;
  readonly to: string;
}

const LEAST_REASON = 10;
export const NOTHING_TYPED: Typed = { word: "accept", reason: "", limit: "", barrier: "", second: "", to: "" };

/** Name who had hands on it last, other than oneself: whom it most likely goes back to; empty where nobody is known. */
export function lastHand({ finding }: DeskFinding, people: readonly { readonly name: string }[], me: string): string {
  const known = new Set(people.map((person) => person.name));
  return finding.entries.map((entry) => entry.by).filter((by) => by !== me && known.has(by)).at(-1) ?? "";
}

/** Say which acts a finding allows: a stop is never accepted, and some stops nobody can put off. */
export function actsFor({ finding }: DeskFinding): readonly Act[] {
  if (!finding.waivable) return ["back"];
  return finding.severity === "stop" ? ["defer", "back"] : ["decide", "defer", "back"];
}

/** Say what is still missing in one sentence; null when nothing is. */
export function missing(act: Act, typed: Typed, me: string, now: Date): string | null {
  if (act === "back" && !typed.to.trim()) return say("word.missing.to");
  if (typed.reason.trim().length < LEAST_REASON) return say("word.missing.reason", { least: LEAST_REASON });
  if (act !== "defer") return null;
  const limit = endOf(typed.limit);
  if (Number.isNaN(limit.getTime())) return say("word.missing.limit");
  if (limit <= now) return say("word.past.limit");
  if (!typed.barrier.trim()) return say("word.missing.barrier");
  if (!typed.second.trim()) return say("word.missing.second");
  return typed.second.trim() === me ? say("word.same.second") : null;
}

/** Put the lead's word as it is recorded. */
export function wordOf(act: Act, { finding }: DeskFinding, typed: Typed): Word {
  const plain = { limit: null, barrier: null, second: null, to: null };
  const about = { ...plain, check: finding.check, subject: finding.subject, reason: typed.reason.trim() };
  if (act === "decide") return { ...about, decision: typed.word };
  if (act === "back") return { ...about, decision: "rework", to: typed.to.trim() };
  const limit = endOf(typed.limit).toISOString();
  return { ...about, decision: "defer", limit, barrier: typed.barrier.trim(), second: typed.second.trim() };
}

/** Give the last minute of a day where somebody sits. */
function endOf(day: string): Date {
  return new Date(`${day}T23:59:00`);
}

/** Say what was understood. */
export function understood(act: Act, { finding }: DeskFinding, typed: Typed): string {
  const what = served(finding.sentence, finding.forms);
  if (act === "back") return say("word.understood.back", { what, to: typed.to.trim() });
  return say(act === "defer" ? "word.understood.defer" : `word.understood.${typed.word}`, { what });
}
