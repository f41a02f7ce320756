import { expect, it } from "vitest";

import { backOff } from "./back_off";

it("waits longer after each failure, never longer than half a minute, and not all phones at once", () => {
  expect([1, 2, 3, 5, 6, 60].map((fails) => backOff(fails, 0.5))).toEqual([1000, 2000, 4000, 16_000, 30_000, 30_000]);
  expect([backOff(1, 0), backOff(1, 1), backOff(0, 0.5)]).toEqual([800, 1200, 1000]);
});
