import { say } from "./say";

export interface Counts {
  readonly stop: number;
  readonly decide: number;
  readonly note: number;
}

/** Say in one sentence what stands in the way of release. */
export function headline(counts: Counts, unchecked: number): string {
  const parts = [
    counts.stop ? say("headline.stop", { n: counts.stop }) : "",
    counts.decide ? say("headline.decide", { n: counts.decide }) : "",
    counts.note ? say("headline.note", { n: counts.note }) : "",
  ].filter(Boolean);
  const found = parts.length ? parts : [say("headline.nothing")];
  const all = unchecked ? [...found, say("headline.unchecked", { n: unchecked })] : found;
  return `${all.join(", ")}.`;
}
