import { describe, expect, it } from "vitest";

import { planFor } from "./plan";

const KEPT = new Set(["/assets/a.js", "/bolt.svg"]);

describe("without the network", () => {
  it.each([
    ["GET", "navigate", "/", "page"],
    ["GET", "navigate", "/jobs/keel/bag", "page"],
    ["GET", "navigate", "/labels/T0042E", "page"],
    ["GET", "navigate", "/checks/hole-empty", "page"],
    ["GET", "navigate", "/jobs/keel 1.2", "page"],
    ["GET", "navigate", "/jbos/keel", "page"],
    ["GET", "navigate", "/wherever", "page"],
    ["GET", "navigate", "/L/T0042E", "page unless reached"],
    ["GET", "navigate", "/bolt.svg", "through"],
    ["GET", "navigate", "/sw.js", "through"],
    ["GET", "navigate", "/ca", "through"],
    ["GET", "navigate", "/ca/lastbolt.crt", "through"],
    ["GET", "navigate", "/old-list.html", "page"],
    ["GET", "navigate", "/api/photos/x", "through"],
    ["GET", "no-cors", "/assets/a.js", "file"],
    ["GET", "no-cors", "/bolt.svg", "file"],
    ["GET", "cors", "/wherever", "through"],
    ["GET", "cors", "/assets/unknown.js", "through"],
    ["GET", "cors", "/api/jobs", "through"],
    ["POST", "cors", "/api/jobs/keel/entries", "through"],
  ])("%s %s %s: %s", (method, mode, path, plan) => {
    expect(planFor(method, mode, path, KEPT)).toBe(plan);
  });
});
