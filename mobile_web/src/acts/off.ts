import type { Pocket } from "../pocket/shape";
import { say } from "../words/say";
import { inOrder, numberOf, textOf, type Act, type Answers, type Question } from "./act";
import { stepBegun } from "./steps";
import { cleaned, lost, putAway } from "./strayed";
import { choice, connections, isolations, name, offered, openings, parts, sets } from "./options";

const MOST = 500;
const called = (answers: Answers) => textOf(answers, "name");

/** How many fasteners a set has in its holes, if the job knows. */
function insideOf(pocket: Pocket, set: string): number {
  const found = pocket.sets.find((each) => each.set === set);
  return found ? found.holes.filter((hole) => hole.level !== "empty").length : 0;
}

/** A set and, only where the job does not know it, how many. */
function setAndCount(pocket: Pocket, answers: Answers): Question | null {
  if (answers["name"] === undefined) return name("ask.set", sets(pocket), "unnamed.set");
  const known = insideOf(pocket, called(answers)) > 0;
  return known || answers["n"] !== undefined ? null : { ask: "count", key: "n", title: "ask.n", most: MOST };
}

const counted = (pocket: Pocket, answers: Answers) => numberOf(answers, "n") || insideOf(pocket, called(answers)) || 1;

const partOff: Act = {
  name: "part-off",
  side: "off",
  shape: "before",
  next: (pocket, answers) => inOrder(name("ask.part", parts(pocket, true), "unnamed.part"))(pocket, answers),
  entries: (_, answers) => [{ kind: "part-removed", part: called(answers) }],
  said: (answers) => say("said.part-off", { name: called(answers) }),
  follow: (answers) => ({ act: "mouth", answers: { from: called(answers) } }),
};

const apart: Act = {
  name: "apart",
  side: "off",
  shape: "before",
  next: (pocket, answers) => inOrder(name("ask.connection", connections(pocket, false), "unnamed.connection"))(pocket, answers),
  entries: (_, answers) => [{ kind: "connection-parted", connection: called(answers) }],
  said: (answers) => say("said.apart", { name: called(answers) }),
  follow: (answers) => ({ act: "mouth", answers: { from: called(answers) } }),
};

const loosened: Act = {
  name: "loosened",
  side: "off",
  shape: "before",
  next: setAndCount,
  entries: (pocket, answers) => [{ kind: "fasteners-loosened", set: called(answers), n: counted(pocket, answers) }],
  said: (answers, pocket) => say("said.loosened", { name: called(answers), n: counted(pocket, answers) }),
};

const parked: Act = {
  name: "parked",
  side: "off",
  shape: "during",
  next: setAndCount,
  entries: (pocket, answers) => [{ kind: "fasteners-removed", set: called(answers), n: counted(pocket, answers), parked: true }],
  said: (answers, pocket) => say("said.parked", { name: called(answers), n: counted(pocket, answers) }),
};

const latches: Act = {
  name: "latches",
  side: "off",
  shape: "before",
  next: (pocket, answers) => {
    const captive = sets(pocket, (set) => set.captive);
    if (answers["name"] === undefined) return name("ask.latches", captive.length ? captive : sets(pocket), "unnamed.latches");
    return insideOf(pocket, called(answers)) || answers["n"] !== undefined ? null : { ask: "count", key: "n", title: "ask.points", most: MOST };
  },
  entries: (pocket, answers) => [{ kind: "captive-released", set: called(answers), points: counted(pocket, answers) }],
  said: (answers, pocket) => say("said.latches", { name: called(answers), n: counted(pocket, answers) }),
};

const ITEMS = ["item.rag", "item.light", "item.pin", "item.tool"] as const;

/** Where an item goes: asked only when more than one mouth stands open. */
const itemIn: Act = {
  name: "item-in",
  side: "off",
  shape: "during",
  next: (pocket, answers) => {
    const open = openings(pocket, true);
    const known = [...new Set(pocket.items.map((each) => each.item))].map((item) => ({ value: item, label: item }));
    if (answers["item"] === undefined) return { ask: "several", key: "item", title: "ask.item", options: offered(ITEMS, known), most: 4 };
    if (answers["where"] === undefined && open.length > 1) return { ask: "choice", key: "where", title: "ask.where", options: [...open, { value: "", label: say("item.machine") }] };
    return null;
  },
  entries: (pocket, answers) => [{ kind: "item-brought-in", item: textOf(answers, "item"), n: numberOf(answers, "n") || 1, opening: whereOf(pocket, answers) || null }],
  said: (answers, pocket) => say("said.item-in", { item: textOf(answers, "item"), n: numberOf(answers, "n") || 1, where: whereOf(pocket, answers) || say("item.machine") }),
};

function whereOf(pocket: Pocket, answers: Answers): string {
  if (answers["where"] !== undefined) return textOf(answers, "where");
  const open = pocket.openings.filter((each) => each.open !== null);
  return open.length === 1 ? (open[0]?.opening ?? "") : "";
}

/** A mouth comes open: one tap says class and number of mouths, or that none is; what is described needs no number. */
const mouth: Act = {
  name: "mouth",
  side: "off",
  shape: "inside",
  next: (pocket, answers) => (answers["mouth"] === undefined ? { ask: "choice", key: "mouth", title: answers["from"] === undefined ? "ask.mouth.which" : "ask.mouth", options: mouthsOf(pocket, answers) } : null),
  entries: (pocket, answers) => mouthEntries(pocket, answers),
  said: (answers) => {
    const [letter, mouths] = textOf(answers, "mouth").split(" ");
    if (letter === "none") return say("said.mouth.none");
    return letter === "known" ? say("said.mouth.known", { name: textOf(answers, "mouth").slice(6) }) : say("said.mouth", { letter: letter ?? "", n: Number(mouths), name: mouthName(answers) });
  },
  follow: (answers) => {
    const opening = openedBy(answers);
    return opening === null ? null : { act: "covers", answers: { name: opening } };
  },
};

/** Which opening an answer opened; null when none did. */
export function openedBy(answers: Answers): string | null {
  const said = textOf(answers, "mouth");
  if (said === "none") return null;
  return said.startsWith("known ") ? said.slice(6) : mouthName(answers);
}

function mouthName(answers: Answers): string {
  const from = textOf(answers, "from");
  return from ? say("mouth.under", { from }) : textOf(answers, "name") || say("mouth.plain");
}

function mouthsOf(pocket: Pocket, answers: Answers) {
  const known = openings(pocket, false).map((each) => ({ ...each, value: `known ${each.value}` }));
  const fresh = (["A", "B"] as const).flatMap((letter) => [1, 2, 3, 4].map((n) => ({ value: `${letter} ${n}`, label: say(`mouth.${letter}`, { n }) })));
  return [...(answers["from"] === undefined ? [] : [{ value: "none", label: say("mouth.none") }]), ...known, ...fresh];
}

function mouthEntries(pocket: Pocket, answers: Answers) {
  const opening = openedBy(answers);
  if (opening === null) return [];
  const from = textOf(answers, "from") || null;
  const known = pocket.openings.find((each) => each.opening === opening);
  const [letter, mouths] = textOf(answers, "mouth").split(" ");
  if (known) return [{ kind: "opening-opened", opening, mouths: known.mouths, by_taking_off: from }];
  const described = { kind: "opening-described", opening, opening_class: letter, mouths: Number(mouths) };
  return [described, { kind: "opening-opened", opening, mouths: Number(mouths), by_taking_off: from }];
}

const POINTS = ["isolation.battery", "isolation.seacock", "isolation.fuel", "isolation.mains", "isolation.air", "isolation.hydraulic"] as const;

const cutOff: Act = {
  name: "cut-off",
  side: "off",
  shape: "during",
  next: (pocket, answers) => inOrder(name("ask.isolation", offered(POINTS, isolations(pocket, false)).filter((each) => !isHeld(pocket, each.value)), null))(pocket, answers),
  entries: (_, answers) => [{ kind: "isolation-applied", isolation: called(answers) }],
  said: (answers) => say("said.cut-off", { name: called(answers) }),
  follow: (answers) => ({ act: "prove", answers: { name: called(answers) } }),
};

function isHeld(pocket: Pocket, isolation: string): boolean {
  return pocket.isolations.some((each) => each.isolation === isolation && each.applied !== null);
}

const prove: Act = {
  name: "prove",
  side: "off",
  shape: "during",
  next: (pocket, answers) => {
    const open = pocket.isolations.filter((each) => each.applied && !each.proven).map((each) => ({ value: each.isolation, label: each.isolation }));
    if (answers["name"] === undefined) return name("ask.prove", open, null);
    return inOrder(choice("how", "ask.how", [["tried to start", "prove.try"], ["tester", "prove.tester"], ["gauge at zero", "prove.gauge"]]))(pocket, answers);
  },
  entries: (_, answers) => [{ kind: "isolation-proven", isolation: called(answers), how: textOf(answers, "how") }],
  said: (answers) => say("said.prove", { name: called(answers) }),
};

const FLUIDS = ["fluid.oil", "fluid.coolant", "fluid.fuel", "fluid.hydraulic"] as const;
const LITRES = [0.5, 1, 2, 3, 4, 5, 6, 8];

const drained: Act = {
  name: "drained",
  side: "off",
  shape: "during",
  next: (pocket, answers) => {
    const known = pocket.fluids.map((each) => ({ value: each.fluid, label: each.fluid, hint: each.grade ?? "" }));
    const capacity = pocket.fluids.find((each) => each.fluid === called(answers))?.capacity_l;
    const amounts = capacity ? [...new Set([capacity, ...LITRES])] : LITRES;
    return inOrder(name("ask.fluid", offered(FLUIDS, known), null), { ask: "amount", key: "litres", title: "ask.litres.out", unit: "L", offered: amounts })(pocket, answers);
  },
  entries: (_, answers) => [{ kind: "fluid-drained", fluid: called(answers), litres: numberOf(answers, "litres") }],
  said: (answers) => say("said.drained", { name: called(answers), litres: numberOf(answers, "litres") }),
};

const settingFound: Act = {
  name: "setting-found",
  side: "off",
  shape: "before",
  next: (pocket, answers) => {
    const known = [...pocket.settings].sort((left, right) => Number(left.found !== null) - Number(right.found !== null));
    const options = known.map((each) => ({ value: each.setting, label: each.setting, hint: unitOf(pocket, each.setting) }));
    if (answers["name"] === undefined && !options.length) return name("ask.setting", options, "unnamed.setting");
    if (answers["value"] !== undefined) return null;
    const figure = { ask: "amount", key: "value", title: "ask.found", unit: unitOf(pocket, called(answers)), offered: [] } as const;
    return answers["name"] === undefined ? { ...figure, of: { key: "name", title: "ask.setting", options } } : figure;
  },
  entries: (pocket, answers) => [{ kind: "setting-found", setting: called(answers), value: numberOf(answers, "value"), unit: unitOf(pocket, called(answers)) }],
  said: (answers, pocket) => say("said.setting-found", { name: called(answers), value: numberOf(answers, "value"), unit: unitOf(pocket, called(answers)) }),
};

/** The unit of a setting; mm where nobody said one. */
export function unitOf(pocket: Pocket, setting: string): string {
  return pocket.settings.find((each) => each.setting === setting)?.unit ?? "mm";
}

const sealOff: Act = {
  name: "seal-off",
  side: "off",
  shape: "during",
  next: (pocket, answers) => {
    const known = pocket.renewals.filter((each) => each.seen_off < each.n).map((each) => ({ value: each.renewal, label: each.renewal, hint: each.under ?? each.set ?? "" }));
    return inOrder(name("ask.seal", known, "unnamed.seal"))(pocket, answers);
  },
  entries: (pocket, answers) => {
    const known = pocket.renewals.find((each) => each.renewal === called(answers));
    const off = { kind: "renewal-seen-off", renewal: called(answers), n: Math.max((known?.n ?? 1) - (known?.seen_off ?? 0), 1) };
    return known ? [off] : [{ kind: "renewal-needed", renewal: called(answers), n: 1, see_old_off: true }, off];
  },
  said: (answers) => say("said.seal-off", { name: called(answers) }),
};

const foundBad: Act = {
  name: "found-bad",
  side: "off",
  shape: "defect",
  next: (pocket, answers) =>
    inOrder(
      name("ask.set", sets(pocket), "unnamed.set"),
      choice("defect", "ask.defect", [["missing", "defect.missing"], ["loose", "defect.loose"], ["broken", "defect.broken"], ["stripped", "defect.stripped"], ["wrong", "defect.wrong"], ["corroded", "defect.corroded"]]),
    )(pocket, answers),
  entries: (_, answers) => [{ kind: "fasteners-found-bad", set: called(answers), defect: textOf(answers, "defect") }],
  said: (answers) => say("said.found-bad", { name: called(answers), defect: say(`defect.${textOf(answers, "defect") as "loose"}`) }),
};

/** What is taken apart, opened, brought in, cut off. */
export const OFF: readonly Act[] = [partOff, apart, loosened, itemIn, mouth, cutOff, prove, drained, settingFound, sealOff, latches, parked, foundBad, lost, cleaned, putAway, stepBegun];
