import { describe, expect, it } from "vitest";

import { withSince } from "../pocket/overlay";
import type { Pocket } from "../pocket/shape";
import vectors from "../pocket/vectors.json";
import cautions from "../words/en/work_cautions.json";
import work from "../words/en/work.json";
import { learnWords } from "../words/say";
import type { Act, Answers, Question } from "./act";
import { BACK } from "./back";
import { cautionsOf } from "./cautions";
import { OFF, openedBy } from "./off";
import { unnamed } from "./options";
import { dueHoles, methodOf, stageDue, tightened } from "./tighten";

learnWords({ ...work, ...cautions });
const POCKET = vectors[2]?.pocket as unknown as Pocket;
const act = (name: string) => [...OFF, ...BACK].find((each) => each.name === name) as Act;
const entriesOf = (name: string, answers: Answers, pocket = POCKET) => act(name).entries(pocket, answers);

/** Answer with the first thing offered until nothing is asked. */
function answered(each: Act, pocket: Pocket): { answers: Answers; asked: readonly string[] } | null {
  let answers: Answers = {};
  const asked: string[] = [];
  for (let question = each.next(pocket, answers); question; question = each.next(pocket, answers)) {
    const value = firstOf(question);
    if (value === null || asked.length > 4) return null;
    asked.push(question.key);
    answers = { ...answers, ...value };
  }
  return { answers, asked };
}

function firstOf(question: Question): Answers | null {
  if (question.ask === "count") return { [question.key]: 2 };
  if (question.ask === "amount") {
    const { of, key, offered } = question;
    return { ...(of?.options[0] ? { [of.key]: of.options[0].value } : {}), [key]: offered[0] ?? 1.5 };
  }
  const [first] = question.options;
  if (!first) return question.ask === "name" && question.unnamed ? { [question.key]: "photo 3" } : null;
  return { [question.key]: first.value };
}

describe("every act", () => {
  it.each([...OFF, ...BACK].map((each) => [each.name, each] as const))("%s asks at most three things, and what it records changes what the phone shows", (_, each) => {
    const found = answered(each, POCKET);
    if (found === null) return expect(each.next(POCKET, {})).toMatchObject({ options: [], unnamed: null });
    expect(found.asked.length).toBeLessThanOrEqual(3);
    expect(each.said(found.answers, POCKET)).not.toMatch(/undefined|NaN|\{|said\./);
    const entries = each.entries(POCKET, found.answers).map((entry, index) => ({ id: String(index), at: "2026-05-08T09:00:00Z", by: "Ana", ...entry }));
    const changed = withSince(POCKET, entries);
    const unseen = ["isolation-cleared", "cleaned"];
    if (entries.some((entry) => !unseen.includes(entry.kind))) expect(changed).not.toEqual(POCKET);
  });
  it("has a name of its own and words for it", () => {
    const names = [...OFF, ...BACK].map((each) => each.name);
    expect(new Set(names).size).toBe(names.length);
    for (const name of names) expect(work).toHaveProperty([`act.${name}`]);
  });
});

describe("a mouth that comes open", () => {
  it("is described only where the job does not know it", () => {
    expect(entriesOf("mouth", { from: "cover", mouth: "B 2" }).map((each) => each.kind)).toEqual(["opening-described", "opening-opened"]);
    expect(entriesOf("mouth", { mouth: "known inlet ports" })).toEqual([{ kind: "opening-opened", opening: "inlet ports", mouths: 3, by_taking_off: null }]);
  });
  it("is none when nobody says so", () => {
    expect([entriesOf("mouth", { from: "cover", mouth: "none" }), openedBy({ from: "cover", mouth: "none" })]).toEqual([[], null]);
  });
});

describe("covers", () => {
  it("go on or off by what was tapped, whatever was there before", () => {
    const label = { cover: "C-0012-X" };
    expect(entriesOf("covers", { name: "inlet ports", covers: "on 1", ...label })).toEqual([{ kind: "opening-covered", opening: "inlet ports", n: 1, covers: ["C-0012-X"] }]);
    expect(entriesOf("covers", { name: "inlet ports", covers: "off 3" })).toEqual([{ kind: "opening-uncovered", opening: "inlet ports", n: 3 }]);
    expect(entriesOf("covers", { name: "inlet ports", covers: "bare" })).toEqual([]);
  });
});

it("what nobody named is called by a photo's number that is not taken", () => {
  const photo = POCKET.photos.length + 1;
  const taken = { ...POCKET, parts: [{ ...POCKET.parts[0], part: `part of photo ${photo}` }] } as Pocket;
  expect([unnamed(POCKET, "unnamed.part"), unnamed(taken, "unnamed.part")]).toEqual([`part of photo ${photo}`, `part of photo ${photo + 1}`]);
});

describe("cautions", () => {
  it.each([
    ["cut-off", "battery", "beware.battery"],
    ["drained", "engine oil", "beware.drained"],
    ["drained", "engine oil", "beware.hot"],
    ["apart", "raw-water suction hose", "beware.waterline"],
    ["tighten", "brake calliper bolts", "beware.critical"],
    ["tighten", "inlet manifold bolts", "beware.torque"],
    ["part-off", "fuel filter bracket", "beware.fuel"],
    ["loosened", "belt tensioner", "beware.springs"],
  ])("%s %s says %s", (what, thing, message) => {
    expect(cautionsOf(what, thing, [])).toContain(message);
  });
  it("say nothing of a thing that harms nobody, and of an aircraft always", () => {
    expect([cautionsOf("part-off", "air box", []), cautionsOf("part-off", "air box", ["aviation"])]).toEqual([[], ["beware.aircraft"]]);
  });
});

describe("tightening", () => {
  const hole = (number: number, level: string, next_stage: number | null) => ({ hole: number, level, next_stage, loose: false, type: null, why: "" });
  const stage = { stage: 1, low_nm: 10, high_nm: 12, angle_deg: null, holes: [], wrenches: [] };
  const torque = { stages: [stage, { ...stage, stage: 2 }], order: [3, 1, 2] };
  const set = { set: "rail", torque, holes: [hole(1, "placed", 1), hole(2, "snug", 2), hole(3, "placed", 1), hole(4, "empty", 1)] } as never;
  it("takes the lowest stage that a fastener which is in owes, in the maker's order", () => {
    expect([stageDue(set), dueHoles(set, 1), dueHoles(set, 2)]).toEqual([1, [3, 1], [2]]);
  });
  it("records torque or angle, as typed too", () => {
    const pulled = { stage: 2, value: 90, angle: true, wrench: "W1", method: "angle" };
    expect(tightened(set, [2], pulled)).toEqual({ kind: "fasteners-tightened", set: "rail", holes: [2], stage: 2, angle_deg: 90, as_written: "90°", wrench: "W1", method: "angle" });
    expect(tightened(set, [3, 1], { ...pulled, angle: false, value: 11 })).toMatchObject({ value_nm: 11, as_written: "11 N·m" });
  });
  it("says how a wrench tells its value by its kind", () => {
    const pocket = { wrenches: [{ wrench: "W1", kind: "digital" }, { wrench: "W2", kind: "click" }] } as never;
    expect([methodOf(pocket, "W1"), methodOf(pocket, "W2"), methodOf(pocket, "unknown")]).toEqual(["dial", "click", "click"]);
  });
});

describe("a piece that strays", () => {
  const set = POCKET.sets.find((each) => each.lies_in.length > 0)!;
  const [bag] = set.lies_in;
  const lay = (pocket: Pocket, drafts: readonly { readonly kind: string }[]) => withSince(pocket, drafts.map((draft, index) => ({ id: String(index), at: "2026-05-08T09:00:00Z", by: "Ana", ...draft })));
  const inBag = (pocket: Pocket) => pocket.containers.find((each) => each.container === bag!.container)?.n;

  it("leaves the bag that it was in, says what it fell beside, and goes back when it is found", () => {
    const [gone] = entriesOf("lost", { name: set.set, from: bag!.container, beside: "inlet ports" });
    expect(gone).toMatchObject({ kind: "thing-lost", n: 1, set: set.set, source: bag!.container, opening: "inlet ports" });
    const without = lay(POCKET, [gone!]);
    expect(inBag(without)).toBe(inBag(POCKET)! - 1);
    const loss = without.losses.at(-1)!.loss;
    const again = lay(without, entriesOf("found", { name: loss, to: bag!.container }, without));
    expect(again.losses.map((each) => each.loss)).not.toContain(loss);
    expect(inBag(again)).toBe(inBag(POCKET));
  });
  it("gets a name of its own each time, so that two phones without a network lose two", () => {
    const answers = { name: set.set, from: "", beside: "" };
    expect(entriesOf("lost", answers)[0]!["loss"]).not.toBe(entriesOf("lost", answers)[0]!["loss"]);
  });
  it("out of its hole, is out of the hole too", () => {
    expect(entriesOf("lost", { name: set.set, from: "hole", beside: "" }).map((each) => each.kind)).toEqual(["fasteners-removed", "thing-lost"]);
  });
});

it.each([
  ["Batterie", "beware.battery"], ["Kraftstoffleitung", "beware.fuel"], ["Bremssattel vorn", "beware.critical"],
  ["Radmuttern links", "beware.critical"], ["Seeventil", "beware.waterline"], ["Zapfwelle", "beware.driven"], ["Kühlmittel", "beware.hot"],
])("what a German shop calls %s is warned of too", (thing, caution) => {
  expect(cautionsOf("part-off", thing, [])).toContain(caution);
});

it.each(["Radio", "Gradbogen", "Halter", "Deckel", "Schraubenschlüssel"])("%s calls for no caution", (thing) => {
  expect(cautionsOf("part-off", thing, [])).toEqual([]);
});
