import { describe, expect, it } from "vitest";

import { putRight, reasonsFor, standings, takenBack } from "../draft/correct";
import { answerFrom, givenOver, takenOver, traysIn } from "../draft/handover";
import { jobName, opened } from "../draft/job";
import { lookedAgain, lookedAt, triedAgain, wantingLocking, wantingLook } from "../draft/looks";
import { foundPiece, millimetres } from "../draft/orphan";
import { practised, screwsBack, thrownAway } from "../draft/practice";
import { byPlace, photosBy, type Findable } from "../draft/search";
import hand from "../words/en/hand.json";
import { learnWords } from "../words/say";
import { typedCode } from "../words/slip";
import { FIRST_VIEWS, HAND_VIEWS, handPath, handRoute, type HandRoute } from "./route";

learnWords(hand);

describe("addresses", () => {
  const routes: readonly HandRoute[] = [
    ...HAND_VIEWS.map((view): HandRoute => ({ screen: "hand", view, job: "a b/c", about: "" })),
    { screen: "hand", view: "correct", job: "x", about: "01-2" },
    ...FIRST_VIEWS.map((view): HandRoute => ({ screen: "first", view })),
  ];
  it.each(routes)("are read back: %o", (route) => {
    const parts = handPath(route).split("/").filter(Boolean).map(decodeURIComponent);
    expect(handRoute(parts)).toEqual(route);
  });
  it("that are others' are left alone", () => {
    expect([["jobs", "x"], ["jobs", "x", "bag"], ["first", "nothing"], ["jobs", "x", "next", "y", "z"]].map(handRoute)).toEqual([null, null, null, null]);
  });
});

describe("a code as typed", () => {
  it("is read in any case and with or without its dashes", () => {
    expect(["t-0042-e", "T0042E", " t 0042 e"].map(typedCode)).toEqual([{ code: "T0042E" }, { code: "T0042E" }, { code: "T0042E" }]);
  });
  it.each([
    ["", "Nothing was typed"],
    ["T-0043-E", "T-0043-E has a slip in it"],
    ["Q-0042-E", "No label begins with Q"],
    ["T-42", "T42 is too short"],
    ["T-00X2-E", "T00X2E is no label code"],
  ])("%s: its slip is said in words", (text, words) => {
    expect(typedCode(text)).toHaveProperty("slip", expect.stringContaining(words));
  });
});

describe("handing over", () => {
  it("keeps what the record lists and what is added, and says when a long list was cut", () => {
    expect(answerFrom(["a.", "b."], " c ", "…")).toBe("a. b. c");
    expect(answerFrom([], " ", "…")).toBeNull();
    const long = answerFrom(["x".repeat(600)], "", " (more)");
    expect([long?.length, long?.endsWith(" (more)")]).toEqual([500, true]);
  });
  it("signs the giver off, the taker on", () => {
    const [offer, off] = givenOver({ half_done: "a", dangerous: null, not_listed: null }, null, "hash");
    expect(offer).toEqual({ kind: "handover-offered", half_done: "a", voice_note: "hash" });
    expect(off).toEqual({ kind: "signed-off", why: "shift" });
    expect(takenOver("", ["T1"], [])[0]).toEqual({ kind: "handover-accepted", containers: ["T1"], disputed: [], mode: "scan" });
    expect(takenOver("Ana", [], [])[0]).toHaveProperty("giver", "Ana");
  });
  it("finds trays by their label, by their own name, and not by a stranger's", () => {
    const trays = [{ container: "T0042E", label: "T-0042-E" }, { container: "red box", label: "B-0001-X" }, { container: "dish", label: null }];
    expect(traysIn(["B0001X", "T0042E", "K0001A"], trays).map((tray) => tray.container)).toEqual(["T0042E", "red box"]);
  });
});

describe("corrections", () => {
  const said = { id: "1", kind: "fasteners-removed", set: "S", n: 6, to: "T1" };
  it("offer only reasons that make sense", () => {
    expect(reasonsFor(said)).toEqual(["tray", "count", "place", "twice", "not"]);
    expect(reasonsFor({ kind: "part-removed", part: "P" })).toEqual(["twice", "not"]);
    expect(reasonsFor({ kind: "container-scanned", container: "T1" })).toEqual(["tray", "twice", "not"]);
  });
  it("of corrections leave the first entry standing", () => {
    const [void1] = takenBack("1", "x");
    const [void2] = takenBack("2", "x");
    const [right] = putRight("1", { n: 5 }, "x");
    const of = (...more: object[]) => standings([said, ...more] as { id: string }[]).get("1");
    expect(of({ ...void1, id: "2" })).toEqual({ voided: true, replaced: false });
    expect(of({ ...void1, id: "2" }, { ...void2, id: "3" })).toEqual({ voided: false, replaced: false });
    expect(of({ ...right, id: "2" })).toEqual({ voided: false, replaced: true });
    expect(of({ ...right, id: "2" }, { ...void2, id: "3" })).toEqual({ voided: false, replaced: false });
  });
});

describe("looks", () => {
  const holes = [{ level: "final" }, { level: "final" }];
  const set = { set: "S", critical: true, second_person: false, locking: "split-pin", n: 2, holes };
  it("are wanted of critical sets that were worked on, lockings of those that are back in", () => {
    const untouched = { ...set, set: "U", holes: [{ level: "untouched" }] };
    const out = { ...set, set: "O", holes: [{ level: "empty" }, { level: "final" }] };
    expect(wantingLook([set, untouched, out, { ...set, set: "P", critical: false }]).map((each) => each.set)).toEqual(["S", "O"]);
    expect(wantingLocking([set, untouched, out]).map((each) => each.set)).toEqual(["S"]);
  });
  it("of the same person are recorded as such", () => {
    const again = { kind: "second-checked", elements: ["S"], how: "re-look-same-person", result: "good" };
    const photo = { photo: "p", sha256: "p", width: 4, height: 3 };
    expect(triedAgain("S")).toEqual([{ ...again, torque_again: true }]);
    expect(lookedAgain("S", photo)).toEqual([
      { kind: "photo-added", ...photo, shape: "after", element: "S" },
      { ...again, photos: ["p"] },
    ]);
    expect(lookedAt("S", "second")[0]).toHaveProperty("how", "visual");
    expect(lookedAt("S", "bad")[0]).toHaveProperty("result", "bad");
  });
});

describe("a lone piece", () => {
  it("is measured with comma or point, within reason", () => {
    expect(["8,0", " 30 ", "8.5", "0", "x", "-3", "1001", ""].map(millimetres)).toEqual([8, 30, 8.5, null, null, null, null, null]);
  });
  it("is found, measured, and named only when a person says so", () => {
    const piece = { kind: "bolt", diameter_mm: 8, length_mm: null, head_mm: null };
    expect(foundPiece(piece, "f", "bolt", "caliper", null)).toEqual([
      { kind: "thing-found", find: "f", what: "bolt" },
      { kind: "fastener-measured", what: "f", diameter_mm: 8, how: "caliper" },
    ]);
    expect(foundPiece(piece, "f", "bolt", "photo", "S")[2]).toEqual({ kind: "fastener-identified", find: "f", set: "S" });
  });
});

describe("a new job", () => {
  it.each([
    ["Harbour launch, inboard engine", "harbour-launch-inboard-engin-ab12"],
    ["Pumpe für Öl", "pumpe-fur-ol-ab12"],
    ["船", "job-ab12"],
  ])("%s gets a name of plain letters", (machine, name) => {
    expect(jobName(machine, "ab12")).toBe(name);
  });
  it("needs nothing but the machine's name", () => {
    expect(opened("A", "", 2)[0]).toEqual({ kind: "job-opened", machine: "A", title: "A..", level: 2 });
    expect(opened("A", "Oil", 2, { meter: " 1204 h " })[0]).toEqual({ kind: "job-opened", machine: "A", title: "Oil", level: 2, meter: "1204 h" });
    expect(opened("Pump", "x".repeat(80), 2, { practice: true })[0]).toEqual({ kind: "job-opened", machine: "Pump", title: "x".repeat(60), level: 2, practice: true });
  });
});

describe("the practice job", () => {
  const bag = { id: "1", kind: "fasteners-removed", set: "S", n: 2, to: "B1" };
  it("is as far as its entries that count", () => {
    const done = practised([{ id: "0", kind: "label-bound" }, bag, { id: "2", kind: "release-asked" }, { id: "3", kind: "entry-voided", entry: "2" }]);
    expect([done.bagged?.n, done.asked, done.loosened, done.bound]).toEqual([2, 0, false, ["0"]]);
  });
  it("puts its screws back and looks into the bag; thrown away, its labels are free", () => {
    expect(screwsBack({ set: "S", to: "B1", n: 2 })).toEqual([
      { kind: "fasteners-fitted", set: "S", n: 2, source: "B1" },
      { kind: "container-emptied", container: "B1" },
    ]);
    const away = thrownAway(["0"], "over");
    expect(away[0]).toEqual({ kind: "entry-voided", entry: "0", reason: "over" });
    expect(practised([bag, ...away.map((draft, n) => ({ ...draft, id: `9${n}` }))]).thrown).toBe(true);
  });
});

describe("finding", () => {
  const photo = (more: Partial<Findable>): Findable => ({ element: null, container: null, step: null, labels: [], taken: null, taken_local: null, arrived: "2026-03-09T08:00:00Z", ...more });
  const first = photo({ element: "pump", container: "T1", labels: ["T1", "T2"] });
  const second = photo({ taken_local: "2026:03:10 09:00:00", step: "strip" });
  it("a photo by step, label and date, under every name that it has", () => {
    expect(photosBy("step", [first, second], "?").map(([name]) => name)).toEqual(["pump", "strip"]);
    expect(photosBy("label", [first, second], "?").map(([name, all]) => [name, all.length])).toEqual([["?", 1], ["T1", 1], ["T2", 1]]);
    expect(photosBy("date", [first, second], "?").map(([name]) => name)).toEqual(["2026-03-10", "2026-03-09"]);
  });
  it("bags by where they lie", () => {
    expect(byPlace([{ place: "shelf 10" }, { place: null }, { place: "shelf 2" }], "?").map(([name]) => name)).toEqual(["?", "shelf 2", "shelf 10"]);
  });
});
