import { describe, expect, it } from "vitest";

import { jobIn, pathOf, routeFrom, type Route } from "./route";

const ROUTES: readonly Route[] = [
  { screen: "jobs" },
  { screen: "findings", job: "keel 7" },
  { screen: "containers", job: "a/b" },
  { screen: "container", job: "50 % done?", container: "tray #4/left" },
  { screen: "photo", job: "ü", photo: "0".repeat(64) },
  { screen: "photos", job: "x" },
  { screen: "torque", job: "x" },
  { screen: "entries", job: "x" },
  { screen: "bag", job: "a/b" },
  { screen: "label", code: "T0042E" },
  { screen: "desk", view: "board", about: "" },
  { screen: "desk", view: "search", about: "M8×30 / flange" },
  { screen: "review", view: "review", job: "a/b", about: "" },
  { screen: "review", view: "machine", job: "x", about: "HEAT SHIELD" },
  { screen: "checks", check: "" },
  { screen: "checks", check: "hole-empty" },
];

describe("addresses", () => {
  it.each(ROUTES)("$screen: an address leads back to the screen it was made from", (route) => {
    expect(routeFrom(pathOf(route))).toEqual(route);
  });
  it.each(["/jobs", "/jobs/x/nothing", "/jobs/x/photos/y/z", "/elsewhere", "/jobs/x/entries/3", "/desk/nothing"])(
    "%s is no screen of ours",
    (path) => {
      expect(routeFrom(path)).toEqual({ screen: "missing" });
    },
  );
  it.each([
    ["/jobs/a%2Fb/nothing", "a/b"],
    ["/jobs", null],
    ["/jbos/x", null],
  ])("%s is about the job %s", (path, job) => {
    expect(jobIn(path)).toBe(job);
  });
  it.each(["/L/T0042E", "/l/T0042E"])("%s, as a label bears it, is that label's screen also without the server", (path) => {
    expect(routeFrom(path)).toEqual({ screen: "label", code: "T0042E" });
  });
  it("takes a broken percent sign as it stands", () => {
    expect(routeFrom("/jobs/50%")).toEqual({ screen: "findings", job: "50%" });
  });
});
