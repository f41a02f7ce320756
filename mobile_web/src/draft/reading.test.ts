import { describe, expect, it } from "vitest";

import { undone } from "./bag";
import { counted, marksOf, toggled, withOneMore, withoutAdded } from "./marks";
import { readingOf } from "./reading";

const READING = { low: 2, count: 2, high: 2, confidence: 0.93, method: "network-1" };
const MARKS = marksOf([[[0, 0], [0.2, 0], [0.2, 0.2], [0, 0.2]], [[0.5, 0.5], [0.7, 0.7]]]);

describe("what the reader saw", () => {
  it("is kept as the machine's word when nobody changed it", () => {
    expect(readingOf("p", "T1", READING, MARKS)).toEqual([
      { kind: "photo-counted", photo: "p", container: "T1", n: 2, low: 2, high: 2, confidence: 0.93, method_version: "network-1",
        seen: [{ x: 0.1, y: 0.1 }, { x: 0.6, y: 0.6 }], mode: "machine" },
    ]);
  });
  it("stays beside what a person struck and added", () => {
    const marks = withOneMore(withOneMore(toggled(MARKS, 1), { x: 0.3, y: 0.3 }), { x: 0.4, y: 0.4 });
    expect(counted(marks)).toBe(3);
    const [machine, person] = readingOf("p", "T1", READING, withoutAdded(marks, 0));
    expect(machine).toMatchObject({ n: 2 });
    expect(person).toEqual({ kind: "reading-corrected", photo: "p", container: "T1", n: 2, struck: [{ x: 0.6, y: 0.6 }], added: [{ x: 0.4, y: 0.4 }] });
  });
  it("struck and let count again is no correction", () => {
    expect(readingOf("p", "T1", READING, toggled(toggled(MARKS, 0), 0)).length).toBe(1);
  });
  it("is no entry where it passes what an entry holds", () => {
    expect(readingOf("p", "T1", { ...READING, high: 501 }, MARKS)).toEqual([]);
  });
});

it("an act taken back takes its reading back too", () => {
  const kinds = ["photo-added", "fasteners-removed", "photo-counted", "reading-corrected"];
  const entries = kinds.map((kind, id) => ({ id: String(id), kind }));
  expect(undone(entries, "at once").map((draft) => draft["entry"])).toEqual(["1", "2", "3"]);
});
