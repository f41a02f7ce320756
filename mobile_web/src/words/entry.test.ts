import { expect, it } from "vitest";

import { entrySentence } from "./entry";

it.each([
  [
    { kind: "fasteners-removed", set: "manifold bolts", n: 8, to: "B0427C" },
    "Fasteners removed · manifold bolts · 8 pieces · to B0427C",
  ],
  [
    { kind: "fasteners-removed", set: "lid", n: 2, parked: true },
    "Fasteners removed · lid · 2 pieces · to its own hole, to keep it",
  ],
  [
    { kind: "fasteners-tightened", set: "head", holes: [1, 3, 2], stage: 2, value_nm: 22, wrench: "W2" },
    "Fasteners tightened · head · 22 N·m · holes 1, 3, 2 · stage 2",
  ],
  [{ kind: "fluid-drained", fluid: "coolant", litres: 5.5 }, "Fluid drained · coolant · 5.5 L"],
  [{ kind: "setting-found", setting: "belt", value: 10, unit: "mm" }, "Setting found · belt · 10 mm"],
  [{ kind: "fasteners-moved", set: "lid", n: 3, source: "NEW", to: "T1" }, "Fasteners moved · lid · 3 pieces · from NEW to T1"],
  [{ kind: "part-removed", part: "shroud", place: "shelf 2" }, "Part removed · shroud · to shelf 2"],
  [{ kind: "second-checked", elements: ["head", "lid"] }, "Second checked · head, lid"],
  [{ kind: "locking-fitted", set: "head", n: 1 }, "Locking fitted · head · 1 piece"],
  [{ kind: "photo-added", photo: "0123456789abcdef".repeat(4) }, "Photo added · 01234567 …"],
  [{ kind: "signed-on" }, "Signed on"],
  [{ kind: "a-kind-of-next-year", thing: 1 }, "A kind of next year"],
])("says in words what %j records", (raw, words) => {
  expect(entrySentence(raw)).toBe(words);
});
