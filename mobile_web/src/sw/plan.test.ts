import { describe, expect, it } from "vitest";

import { planFor } from "./plan";

const KEPT = new Set(["/assets/a.js", "/bolt.svg"]);

describe("without the network", () => {
  it.each([
    ["GET", "navigate", "/", "page"],
    ["GET", "navigate", "/jobs/keel/bag", "page"],
    ["GET", "navigate", "/labels/T0042E", "page"],
    ["GET", "navigate", "/checks/hole-empty", "page"],
    ["GET", "navigate", "/L/T0042E", "through"],
    ["GET", "navigate", "/api/photos/x", "through"],
    ["GET", "no-cors", "/assets/a.js", "file"],
    ["GET", "cors", "/assets/unknown.js", "through"],
    ["GET", "cors", "/api/jobs", "through"],
    ["POST", "cors", "/api/jobs/keel/entries", "through"],
  ])("%s %s %s: %s", (method, mode, path, plan) => {
    expect(planFor(method, mode, path, KEPT)).toBe(plan);
  });
});
