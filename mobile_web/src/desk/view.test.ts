import { describe, expect, it } from "vitest";

import { cornerOf, moved, WHOLE, zoomed } from "./view";

const MIDDLE = { x: 0.5, y: 0.5 };

describe("looking at a pair", () => {
  it("whole, the picture fills the frame whatever place was marked", () => {
    expect(cornerOf(WHOLE, { x: 0.9, y: 0.1 })).toEqual({ left: 0, top: 0 });
  });
  it("zoomed, the marked place is in the middle of each frame", () => {
    const { left, top } = cornerOf({ zoom: 4, dx: 0, dy: 0 }, { x: 0.6, y: 0.4 });
    expect(left + 0.6 * 4).toBeCloseTo(0.5);
    expect(top + 0.4 * 4).toBeCloseTo(0.5);
  });
  it("no edge of a picture comes into its frame", () => {
    for (const place of [0, 0.02, 0.5, 0.99, 1]) {
      for (const zoom of [1, 1.5, 3, 8]) {
        const { left } = cornerOf({ zoom, dx: 0, dy: 0 }, { x: place, y: 0.5 });
        expect(left).toBeLessThanOrEqual(0);
        expect(left + zoom).toBeGreaterThanOrEqual(1 - 1e-9);
      }
    }
  });
  it("a step moves less of the picture the nearer one is", () => {
    expect(moved({ zoom: 2, dx: 0, dy: 0 }, 1, 0).dx).toBeCloseTo(0.075);
    expect(moved(WHOLE, 1, -1)).toEqual({ zoom: 1, dx: 0.15, dy: -0.15 });
  });
  it("far enough out it is whole again, and never nearer than eight times", () => {
    expect(zoomed(zoomed(moved(zoomed(WHOLE, 1), 1, 1), -1), -1)).toEqual(WHOLE);
    expect(zoomed(WHOLE, 99).zoom).toBe(8);
    expect(cornerOf(zoomed(WHOLE, 1), MIDDLE)).toEqual({ left: -0.25, top: -0.25 });
  });
});
