import { describe, expect, it } from "vitest";

import { bagged, shotForLater, undone } from "./bag";
import { withDigit } from "./count";
import { isForBags, learn, liesAlready, newSpot, NOTHING_KNOWN } from "./known";

const SHA = "a".repeat(64);
const PICTURE = { sha256: SHA, width: 640, height: 480 };
const LOT = { label: "T0042E", set: "lid", n: 8 };
const near = (zone: string | null, photo: number) => `near ${zone ?? "the machine"}, photo ${photo}`;

describe("what lies in a bag already", () => {
  const bag = { id: "1", kind: "fasteners-removed", set: "lid", to: "left tray" };
  const bind = { id: "0", kind: "label-bound", label: "T0042E", container: "left tray" };
  const lies = (...entries: object[]) => liesAlready(learn(NOTHING_KNOWN, entries as Record<string, unknown>[]), "T0042E", "lid");
  it("is known by the bag's label until it is fitted, looked empty or taken back", () => {
    expect([lies(bind), lies(bind, bag)]).toEqual([false, true]);
    expect(lies(bind, bag, { id: "2", kind: "fasteners-fitted", set: "lid", source: "left tray" })).toBe(false);
    expect(lies(bind, bag, { id: "2", kind: "fasteners-fitted", set: "other", source: "left tray" })).toBe(true);
    expect(lies(bind, bag, { id: "2", kind: "container-emptied", container: "left tray" })).toBe(false);
    expect(lies(bind, bag, { id: "2", kind: "entry-voided", entry: "1" })).toBe(false);
  });
});

describe("what a job's entries teach", () => {
  const known = learn(NOTHING_KNOWN, [
    { id: "1", kind: "set-described", set: "lid", n: 4 },
    { id: "2", kind: "label-bound", label: "T0042E", container: "left tray" },
    { id: "3", kind: "photo-added", photo: "x" },
    { id: "4", kind: "fasteners-removed", set: "pump cover", zone: "port side", n: 6 },
    { id: "5", kind: "fasteners-removed", set: "wrong one", n: 6 },
    { id: "6", kind: "entry-voided", entry: "5", reason: "wrong" },
    { id: "7", kind: "fasteners-loosened", set: "lid" },
    { id: "8", kind: "label-bound", label: "B0001A", container: "B0001A" },
    { id: "9", kind: "label-retired", label: "B0001A" },
  ]);
  it("is its sets, the last used first, without what was voided, and its living labels", () => {
    expect(known).toEqual({ sets: ["lid", "pump cover"], labels: { T0042E: "left tray" }, photos: 1, zone: "port side" });
  });
  it("names a new spot by zone and photo, never like one that is there", () => {
    expect(newSpot(known, near)).toBe("near port side, photo 2");
    expect(newSpot({ ...known, sets: ["near port side, photo 2"] }, near)).toBe("near port side, photo 3");
    expect(newSpot(NOTHING_KNOWN, near)).toBe("near the machine, photo 1");
  });
});

it("labels of bags and trays are read, strange ones only where this job knows them", () => {
  const known = { ...NOTHING_KNOWN, labels: { MR8JZ: "old tin" } };
  const read = [["T0042E", true], ["B00019", true], ["T0042F", false], ["W0042E", true], ["MR8JZ", false]] as const;
  expect(read.filter(([code, checked]) => isForBags({ code, checked }, known)).map(([code]) => code)).toEqual([
    "T0042E",
    "B00019",
    "MR8JZ",
  ]);
});

describe("an act of bagging", () => {
  it("binds a free label, adds the photo and says what came out where, the photo as its evidence", () => {
    const drafts = bagged(PICTURE, LOT, NOTHING_KNOWN);
    expect(drafts).toEqual([
      { kind: "label-bound", label: "T0042E", container: "T0042E", container_kind: "tray", mode: "scan" },
      { kind: "photo-added", photo: SHA, sha256: SHA, width: 640, height: 480, labels: ["T0042E"], container: "T0042E",
        element: "lid", shape: "tray", mode: "scan" },
      { kind: "fasteners-removed", set: "lid", n: 8, to: "T0042E", photos: [SHA], mode: "scan" },
    ]);
  });
  it("goes to the container that the label is on, and does not bind it twice", () => {
    const known = { ...NOTHING_KNOWN, labels: { T0042E: "left tray" } };
    expect(bagged(PICTURE, LOT, known).map((draft) => draft["to"] ?? draft["container"])).toEqual([
      "left tray",
      "left tray",
    ]);
  });
  it("may be a photo alone", () => {
    expect(shotForLater(PICTURE, "B0001A", NOTHING_KNOWN)).toMatchObject([
      { kind: "label-bound", container_kind: "bag" },
      { kind: "photo-added", container: "B0001A" },
    ]);
    expect(shotForLater(PICTURE, null, NOTHING_KNOWN).map((draft) => draft.kind)).toEqual(["photo-added"]);
  });
  it("is taken back by voiding what it says of pieces, or its photo if that is all", () => {
    const recorded = [{ id: "1", kind: "photo-added" }, { id: "2", kind: "fasteners-removed" }];
    expect(undone(recorded, "at once")).toEqual([{ kind: "entry-voided", entry: "2", reason: "at once" }]);
    expect(undone(recorded.slice(0, 1), "at once")).toEqual([{ kind: "entry-voided", entry: "1", reason: "at once" }]);
  });
});

it("the pad's count grows by digits and never passes what an entry holds", () => {
  expect([withDigit(0, 6), withDigit(1, 2), withDigit(50, 0), withDigit(50, 1), withDigit(0, 0)]).toEqual([6, 12, 500, 1, 0]);
});
