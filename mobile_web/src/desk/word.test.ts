import { beforeAll, describe, expect, it } from "vitest";

import type { DeskFinding } from "../sync/desk";
import review from "../words/en/review.json";
import { learnWords } from "../words/say";
import { actsFor, lastHand, missing, NOTHING_TYPED, wordOf } from "./word";

const found = (severity: "stop" | "decide" | "note", waivable: boolean): DeskFinding => ({
  finding: { check: "hole-empty", severity, waivable, subject: "LID", sentence: "1 hole is empty.", to_do: "", forms: [], key: "", entries: [], photos: [] },
  grades: [], pair: null, on_map: false, sent_back: null,
}); // prettier-ignore
const NOW = new Date("2026-11-25T12:00:00Z");
const WHOLE = { ...NOTHING_TYPED, reason: "comes on Monday", limit: "2031-01-01", barrier: "tag", second: "Ben", to: "Ana" };

beforeAll(() => learnWords(review));

describe("the lead's word", () => {
  it("a stop is never accepted; what nobody can put off can only be sent back", () => {
    expect(actsFor(found("stop", false))).toEqual(["back"]);
    expect(actsFor(found("stop", true))).toEqual(["defer", "back"]);
    expect(actsFor(found("decide", true))).toEqual(["decide", "defer", "back"]);
  });
  it("goes back to whom had hands on it last, other than oneself and the server", () => {
    const entry = (by: string) => ({ entry: by, by, at: "2026-11-25T12:00:00Z", kind: "part-fitted", recorded: {} });
    const one = found("stop", true);
    const by = (...names: string[]) => ({ ...one, finding: { ...one.finding, entries: names.map(entry) } });
    const people = [{ name: "Ana" }, { name: "Ben" }, { name: "Lee" }];
    expect(lastHand(by("Ana", "Ben", "Lee", "server"), people, "Lee")).toBe("Ben");
    expect(lastHand(by("Lee"), people, "Lee")).toBe("");
  });
  it.each([
    ["decide", { reason: "short" }, /reason/],
    ["back", { to: " " }, /whom/],
    ["defer", { limit: "" }, /which day/],
    ["defer", { limit: "2026-11-24" }, /over already/],
    ["defer", { barrier: "" }, /harm/],
    ["defer", { second: "" }, /second person/],
    ["defer", { second: "Lee" }, /other than you/],
  ] as const)("%s lacks what it needs: %o", (act, lacks, said) => {
    expect(missing(act, { ...WHOLE, ...lacks }, "Lee", NOW)).toMatch(said);
  });
  it("lacks nothing when all is there; a limit holds to the end of its day", () => {
    for (const act of ["decide", "defer", "back"] as const) expect(missing(act, WHOLE, "Lee", NOW)).toBeNull();
    expect(missing("defer", { ...WHOLE, limit: "2026-11-26" }, "Lee", NOW)).toBeNull();
  });
  it("says only what the act is about", () => {
    const word = wordOf("back", found("stop", true), WHOLE);
    expect(word).toMatchObject({ decision: "rework", to: "Ana", limit: null, barrier: null, second: null });
    expect(wordOf("defer", found("stop", true), WHOLE)).toMatchObject({ decision: "defer", second: "Ben", barrier: "tag", to: null });
    expect(wordOf("decide", found("decide", true), { ...WHOLE, word: "clear" }).decision).toBe("clear");
  });
});
