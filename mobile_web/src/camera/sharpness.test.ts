import { expect, it } from "vitest";

import { sharpness } from "./sharpness";

const W = 60;
const picture = (at: (x: number, y: number) => number) => Float32Array.from({ length: W * W }, (_, i) => at(i % W, Math.floor(i / W)));

it("an edge is sharp, the same edge smeared out is not, and a slope has no edge at all", () => {
  const edge = picture((x) => (x % 10 < 5 ? 20 : 220));
  const smeared = picture((x) => 120 + 100 * Math.sin((x / 40) * Math.PI));
  const slope = picture((x, y) => 2 * x + y);
  expect(sharpness(edge, W)).toBe(200);
  expect(sharpness(smeared, W)).toBeLessThan(3);
  expect(sharpness(slope, W)).toBe(0);
});
