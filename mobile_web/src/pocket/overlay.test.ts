import { describe, expect, it } from "vitest";

import { standing, withSince, type Raw } from "./overlay";
import type { Pocket } from "./shape";
import vectors from "./vectors.json";

/** What the vectors hold of a pocket; `tests/web/pocket_vectors.py` has the same for the server's. */
function shownOf(pocket: Pocket) {
  const pairs = <T,>(all: readonly T[], each: (one: T) => [string, unknown] | null) =>
    Object.fromEntries(all.map(each).filter((pair) => pair !== null));
  return {
    sets: pairs(pocket.sets, (s) => [s.set, [s.n, s.holes.map((hole) => hole.level[0]).join("")]]),
    captive: pairs(pocket.sets, (s) => (s.captive_open ? [s.set, s.captive_open] : null)),
    bags: pairs(pocket.containers, (c) => (c.n ? [c.container, c.n] : null)),
    off: pocket.parts.filter((each) => !each.on).map((each) => each.part).sort(),
    apart: pocket.connections.filter((each) => each.apart).map((each) => each.connection).sort(),
    open: pairs(pocket.openings, (o) => (o.open ? [o.opening, [o.mouths, o.covers]] : null)),
    items: pocket.items.map((each) => [each.item, each.opening, each.n]).sort(),
    held: pairs(pocket.isolations, (i) => (i.applied ? [i.isolation, i.holder] : null)),
    fluids: pairs(pocket.fluids, (f) => [f.fluid, [f.drained_l, Number(f.filled_l.toFixed(3))]]),
    settings: pairs(pocket.settings, (s) => [s.setting, [s.found, s.left]]),
    renewals: pairs(pocket.renewals, (r) => [r.renewal, r.fitted]),
    labels: pocket.labels.filter((each) => !each.retired).map((each) => [each.code, each.thing]).sort(),
  };
}

describe("what is laid over a pocket", () => {
  it.each(vectors.map((vector, index) => [index, vector] as const))("is what the server says after the same entries, part %i of the sample", (_, vector) => {
    const pocket = vector.pocket as unknown as Pocket;
    const before = structuredClone(pocket);
    expect(shownOf(withSince(pocket, vector.entries as Raw[]))).toEqual(vector.shown);
    expect(pocket).toEqual(before);
  });
  it("leaves out what is taken back, and takes a correction's fields", () => {
    const entries = [
      { id: "1", kind: "part-removed", part: "lid" },
      { id: "2", kind: "part-removed", part: "rail" },
      { id: "3", kind: "entry-voided", entry: "1" },
      { id: "4", kind: "entry-replaced", entry: "2", fields: { part: "shroud" } },
    ];
    expect(standing(entries).map((each) => [each["id"], each["part"]])).toEqual([["2", "shroud"], ["3", undefined]]);
  });
  it("moves and takes away a pin that the server has", () => {
    const pin = { entry: "p1", element: "rail", hole: 1, x: 0.1, y: 0.2 };
    const photo = { photo: "a", pins: [pin] };
    const pocket = { ...(vectors[0]?.pocket as unknown as Pocket), photos: [photo] } as unknown as Pocket;
    const moved = { id: "9", kind: "entry-replaced", entry: "p1", fields: { x: 0.7, y: 0.8 } };
    expect(withSince(pocket, [moved]).photos[0]?.pins).toEqual([{ ...pin, x: 0.7, y: 0.8 }]);
    expect(withSince(pocket, [{ id: "9", kind: "entry-voided", entry: "p1" }]).photos[0]?.pins).toEqual([]);
  });
});
