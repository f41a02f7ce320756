import { expect, it } from "vitest";

import { steady } from "./steady";

it("a list keeps its order when news comes: what is gone goes, what is new comes last", () => {
  const first = steady([], ["rail", "elbow", "neck"]);
  expect(first).toEqual(["rail", "elbow", "neck"]);
  expect(steady(first, ["neck", "new", "rail", "elbow"])).toEqual(["rail", "elbow", "neck", "new"]);
  expect(steady(first, ["neck", "rail"])).toEqual(["rail", "neck"]);
});
