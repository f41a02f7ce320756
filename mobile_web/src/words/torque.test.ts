import { describe, expect, it } from "vitest";

import { day, exactWords, orderWords, pullerWords, pullWords, stageWords, standing } from "./torque";

const hole = (number: number, state: "open" | "done" | "untouched") => ({
  hole: number,
  state,
  next_stage: null,
  why: "",
  pulls: [],
});
const pull = { stage: 2, said: "reached 24 N·m", value_nm: 24, wrench: "", by: "Ben", at: "2026-05-08T08:58:00Z", fault: "" };

describe("how a set stands", () => {
  it("is said by its open holes, else by what was touched", () => {
    expect(standing({ open_holes: [2, 4], holes: [hole(2, "open"), hole(4, "open")] })).toBe("2 holes open: 2, 4");
    expect(standing({ open_holes: [3], holes: [hole(3, "open")] })).toBe("1 hole open: 3");
    expect(standing({ open_holes: [], holes: [hole(1, "done"), hole(2, "untouched")] })).toBe("No hole open");
    expect(standing({ open_holes: [], holes: [hole(1, "untouched")] })).toBe("Not touched in this job");
  });
});

describe("what a stage asks", () => {
  it("is a range, a figure, an angle, both, or not known", () => {
    const all = { holes: [], angle_deg: null };
    expect(stageWords({ ...all, low_nm: 20, high_nm: 25 })).toBe("20–25 N·m");
    expect(stageWords({ ...all, low_nm: 22, high_nm: 22 })).toBe("22 N·m");
    expect(stageWords({ ...all, low_nm: 20, high_nm: 20, angle_deg: 90 })).toBe("20 N·m + 90°");
    expect(stageWords({ ...all, low_nm: null, high_nm: null })).toBe("no value entered");
    expect(stageWords({ low_nm: null, high_nm: null, angle_deg: 90, holes: [1, 2] })).toBe("90°, only holes 1, 2");
  });
});

it("a pull says its stage only where there are several, and that no wrench was said", () => {
  expect([pullWords(pull, 1), pullWords(pull, 2)]).toEqual(["reached 24 N·m", "Stage 2: reached 24 N·m"]);
  expect([pullerWords(pull), pullerWords({ ...pull, wrench: "W2" })]).toEqual(["wrench not said, Ben", "W2, Ben"]);
});

it("the exact value is left out where the print says just that", () => {
  expect(exactWords({ as_written: "22-26 Nm", exact: "22–26 N·m" })).toBe("");
  expect(exactWords({ as_written: "35 lbf ft", exact: "47.453628191599014 N·m" })).toBe("47.453628191599014 N·m");
});

it("a day is written as day, month, year", () => {
  expect(day("2026-03-09")).toBe("9 Mar 2026");
});

it("an order of our own is said to be suggested", () => {
  const drawing = { svg: "", order: [1, 3, 2], is_suggested: true, title: "", remark: "" };
  expect(orderWords(drawing)).toBe("1 3 2 (suggested: the maker's manual first)");
  expect(orderWords({ ...drawing, is_suggested: false })).toBe("1 3 2");
  expect(orderWords(null)).toBe("none given");
});
