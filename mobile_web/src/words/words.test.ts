import { describe, expect, it } from "vitest";

import { cautionsFor } from "./cautions";
import { checkWords } from "./check";
import { countWords, piecesWords } from "./container";
import { en as first } from "./en";
import bagging from "./en/bagging.json";
import desk from "./en/desk.json";
import hand from "./en/hand.json";
import phone from "./en/phone.json";
import places from "./en/places.json";
import review from "./en/review.json";
import torque from "./en/torque.json";
import who from "./en/who.json";
import work from "./en/work.json";
import workCautions from "./en/work_cautions.json";
import { moment } from "./moment";
import { say } from "./say";
import { waitingWords } from "./waiting";

const en = { ...first, ...bagging, ...desk, ...hand, ...phone, ...places, ...review, ...torque, ...who, ...work, ...workCautions };

describe("messages", () => {
  it("put values where the message wants them", () => {
    expect(say("container.label", { label: "T0042E" })).toBe("Label T0042E");
  });
  it("choose between one and many", () => {
    expect([say("job.entries", { n: 1 }), say("job.entries", { n: 0 })]).toEqual(["1 entry", "0 entries"]);
  });
  it("never promise more than the record knows", () => {
    for (const text of Object.values(en)) expect(text).not.toMatch(/\b(safe|ok|okay|airworthy|verified)\b/i);
  });
  it("have each name once", () => {
    const files = Object.values(import.meta.glob<Record<string, string>>("./en/*.json", { eager: true, import: "default" }));
    expect(files.flatMap((file) => Object.keys(file)).sort()).toEqual(Object.keys(en).sort());
  });
  it("come in pairs wherever a number chooses", () => {
    const ends = (ending: string) =>
      Object.keys(en).filter((key) => key.endsWith(ending)).map((key) => key.slice(0, -ending.length));
    expect(ends(".one")).toEqual(ends(".other"));
  });
});

describe("times", () => {
  it("leave an unreadable one as it came", () => {
    expect(moment("yesterday")).toBe("yesterday");
  });
  it("write day, month, year, hours and minutes", () => {
    expect(moment("2026-03-09T08:05:00")).toBe("9 Mar 2026, 08:05");
  });
});

describe("what lies in a container", () => {
  it("is said with number, type and set", () => {
    expect(piecesWords({ n: 6, type: "M8x1.25x30", set: "manifold", new: false })).toBe("6 × M8x1.25x30 of manifold");
    expect(piecesWords({ n: 2, type: null, set: null, new: true })).toBe("2 × new pieces");
  });
  it("is an estimate where a picture was counted", () => {
    const at = "2026-03-09T08:05:00Z";
    expect(countWords({ low: 5, high: 7, at })).toBe("Picture count: 5 to 7");
    expect(countWords({ low: 6, high: 6, at })).toBe("Picture count: 6");
  });
});

describe("what is not sent", () => {
  it("is counted, entries and photos apart, and not mentioned when there is nothing", () => {
    expect(waitingWords({ entries: 2, photos: 1 })).toBe("3 not sent: 2 entries, 1 photo");
    expect(waitingWords({ entries: 0, photos: 2 })).toBe("2 not sent: 2 photos");
    expect(waitingWords({ entries: 0, photos: 0 })).toBeNull();
  });
});

describe("cautions", () => {
  it("always say what the list cannot know, and what the findings call for", () => {
    expect(cautionsFor([])).toEqual(["caution.list"]);
    expect(cautionsFor([{ check: "torque-missing" }, { check: "picture-count-differs" }])).toEqual([
      "caution.list",
      "caution.torque",
      "caution.count",
    ]);
  });
});

it("a check's name is read as words", () => {
  expect(checkWords("tray-not-empty")).toBe("tray not empty");
});
