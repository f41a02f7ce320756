import type { Drafts } from "./bag";
import { counted, isCorrected, type Marks } from "./marks";

/** The machine's count of a picture, as the server gave it. */
export interface Reading {
  readonly low: number;
  readonly count: number;
  readonly high: number;
  readonly confidence: number;
  readonly method: string;
}

const MOST = 500;

/** Keep what the machine counted beside what the person says, and what the person corrected in it. */
export function readingOf(photo: string, container: string, reading: Reading, marks: Marks): Drafts {
  const { low, count: n, high, confidence, method: method_version } = reading;
  if (high > MOST) return [];
  const machine = { kind: "photo-counted", photo, container, n, low, high, confidence, method_version, seen: marks.seen, mode: "machine" };
  if (!isCorrected(marks)) return [machine];
  const struck = [...marks.struck].sort((left, right) => left - right).map((place) => marks.seen[place]);
  return [machine, { kind: "reading-corrected", photo, container, n: counted(marks), struck, added: marks.added }];
}
