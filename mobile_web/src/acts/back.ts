import type { Pocket } from "../pocket/shape";
import { say } from "../words/say";
import { inOrder, numberOf, textOf, type Act, type Answers, type Option } from "./act";
import { choice, connections, isolations, name, openings, parts, sets } from "./options";
import { unitOf } from "./off";
import { stepDone } from "./steps";
import { emptied, found, kit, marked, moved } from "./strayed";

const called = (answers: Answers) => textOf(answers, "name");

const partOn: Act = {
  name: "part-on",
  side: "back",
  shape: "after",
  next: (pocket, answers) => inOrder(name("ask.part.on", parts(pocket, false), null))(pocket, answers),
  entries: (_, answers) => [{ kind: "part-fitted", part: called(answers) }],
  said: (answers) => say("said.part-on", { name: called(answers) }),
};

const joined: Act = {
  name: "joined",
  side: "back",
  shape: "after",
  next: (pocket, answers) =>
    inOrder(
      name("ask.joined", connections(pocket, true), null),
      choice("how", "ask.pulled", [["both", "joined.both"], ["pulled", "joined.pulled"], ["pushed", "joined.pushed"]]),
    )(pocket, answers),
  entries: (_, answers) => {
    const how = textOf(answers, "how");
    return [{ kind: "connection-made", connection: called(answers), pulled: how !== "pushed", clamp_tight: how === "both" }];
  },
  said: (answers) => say("said.joined", { name: called(answers) }),
};

const tightAgain: Act = {
  name: "tight-again",
  side: "back",
  shape: "after",
  next: (pocket, answers) => inOrder(name("ask.tight", sets(pocket, (set) => set.holes.some((hole) => hole.loose)), null))(pocket, answers),
  entries: (_, answers) => [{ kind: "fasteners-retightened", set: called(answers) }],
  said: (answers) => say("said.tight-again", { name: called(answers) }),
};

const latched: Act = {
  name: "latched",
  side: "back",
  shape: "after",
  next: (pocket, answers) => inOrder(name("ask.latched", sets(pocket, (set) => set.captive_open > 0), null))(pocket, answers),
  entries: (pocket, answers) => [{ kind: "captive-shut", set: called(answers), points: pointsOf(pocket, answers) }],
  said: (answers, pocket) => say("said.latched", { name: called(answers), n: pointsOf(pocket, answers) }),
};

function pointsOf(pocket: Pocket, answers: Answers): number {
  return Math.max(pocket.sets.find((each) => each.set === called(answers))?.captive_open ?? 1, 1);
}

/** Covers on or off: always a choice between two, never what the last state makes of it. */
const covers: Act = {
  name: "covers",
  side: "back",
  shape: "inside",
  next: (pocket, answers) => {
    if (answers["name"] === undefined) return name("ask.opening", openings(pocket, true), null);
    const here = pocket.openings.find((each) => each.opening === called(answers));
    const bare = Math.max((here?.mouths ?? 1) - (here?.covers ?? 0), 0);
    const options: Option[] = [
      ...(bare > 1 ? [{ value: `on ${bare}`, label: say("covers.on", { n: bare }) }] : []),
      { value: "on 1", label: say("covers.on", { n: 1 }) },
      ...(here?.covers ? [{ value: `off ${here.covers}`, label: say("covers.off", { n: here.covers }) }] : []),
      ...((here?.covers ?? 0) > 1 ? [{ value: "off 1", label: say("covers.off", { n: 1 }) }] : []),
      { value: "bare", label: say("covers.bare") },
    ];
    return answers["covers"] === undefined ? { ask: "choice", key: "covers", title: "ask.covers", options } : null;
  },
  entries: (_, answers) => {
    const [way, n] = textOf(answers, "covers").split(" ");
    if (way === "bare") return [];
    const label = textOf(answers, "cover");
    return [{ kind: way === "on" ? "opening-covered" : "opening-uncovered", opening: called(answers), n: Number(n), ...(label ? { covers: [label] } : {}) }];
  },
  said: (answers) => {
    const [way, n] = textOf(answers, "covers").split(" ");
    if (way === "bare") return say("said.covers.bare", { name: called(answers) });
    return say(way === "on" ? "said.covers.on" : "said.covers.off", { n: Number(n), name: called(answers) });
  },
};

const looked: Act = {
  name: "looked",
  side: "back",
  shape: "inside",
  next: (pocket, answers) =>
    inOrder(
      name("ask.looked", openings(pocket, true), null),
      choice("how", "ask.seen", [["eye", "looked.eye"], ["mirror", "looked.mirror"], ["scope", "looked.scope"], ["found", "looked.found"]]),
    )(pocket, answers),
  entries: (_, answers) => {
    const how = textOf(answers, "how");
    return [{ kind: "looked-inside", opening: called(answers), clear: how !== "found", how: how === "found" ? "eye" : how }];
  },
  said: (answers) => say(textOf(answers, "how") === "found" ? "said.looked.found" : "said.looked", { name: called(answers) }),
};

const shut: Act = {
  name: "shut",
  side: "back",
  shape: "after",
  next: (pocket, answers) => inOrder(name("ask.shut", openings(pocket, true), null))(pocket, answers),
  entries: (_, answers) => [{ kind: "opening-closed", opening: called(answers) }],
  said: (answers) => say("said.shut", { name: called(answers) }),
};

const itemOut: Act = {
  name: "item-out",
  side: "back",
  shape: "after",
  next: (pocket, answers) => {
    const inside = pocket.items.flatMap((each) => {
      const where = each.opening ?? say("item.machine");
      return [...new Set([each.n, 1])].map((n) => ({ value: JSON.stringify([each.item, each.opening, n]), label: `${n} × ${each.item}`, hint: where }));
    });
    return inOrder(name("ask.item.out", inside, null, "out"))(pocket, answers);
  },
  entries: (_, answers) => {
    const [item, opening, n] = outOf(answers);
    return [{ kind: "item-taken-out", item, n, opening }];
  },
  said: (answers) => {
    const [item, opening, n] = outOf(answers);
    return say("said.item-out", { item, n, where: opening ?? say("item.machine") });
  },
};

function outOf(answers: Answers): [string, string | null, number] {
  return JSON.parse(textOf(answers, "out")) as [string, string | null, number];
}

/** What becomes of a tag: handed over, or off after a look round. */
const tag: Act = {
  name: "tag",
  side: "back",
  shape: "after",
  next: (pocket, answers) => {
    const others = pocket.people.map((each) => ({ value: `to ${each.name}`, label: say("tag.to", { who: each.name }) }));
    const options = [{ value: "off", label: say("tag.off") }, ...others];
    return inOrder(name("ask.tag", isolations(pocket, true), null), { ask: "choice", key: "way", title: "ask.tag.way", options })(pocket, answers);
  },
  entries: (_, answers) => {
    const [isolation, way] = [called(answers), textOf(answers, "way")];
    if (way === "off") return [{ kind: "isolation-cleared", isolation }, { kind: "isolation-removed", isolation }];
    return [{ kind: "isolation-transferred", isolation, to: way.slice(3) }];
  },
  said: (answers) => {
    const way = textOf(answers, "way");
    return way === "off" ? say("said.tag.off", { name: called(answers) }) : say("said.tag.to", { name: called(answers), who: way.slice(3) });
  },
};

const filled: Act = {
  name: "filled",
  side: "back",
  shape: "after",
  next: (pocket, answers) => {
    const owed = pocket.fluids.filter((each) => each.drained !== null).map((each) => ({ value: each.fluid, label: each.fluid, hint: each.grade ?? "" }));
    const here = pocket.fluids.find((each) => each.fluid === called(answers));
    const left = here ? Math.max(Math.round((here.drained_l - here.filled_l) * 10) / 10, 0) : 0;
    return inOrder(name("ask.fluid.in", owed, null), { ask: "amount", key: "litres", title: "ask.litres.in", unit: "L", offered: left ? [left] : [] })(pocket, answers);
  },
  entries: (_, answers) => [{ kind: "fluid-filled", fluid: called(answers), litres: numberOf(answers, "litres") }],
  said: (answers) => say("said.filled", { name: called(answers), litres: numberOf(answers, "litres") }),
};

const level: Act = {
  name: "level",
  side: "back",
  shape: "after",
  next: (pocket, answers) =>
    inOrder(
      name("ask.level", pocket.fluids.map((each) => ({ value: each.fluid, label: each.fluid })), null),
      choice("found", "ask.level.how", [["right", "level.right"], ["low", "level.low"], ["leaks", "level.leaks"]]),
    )(pocket, answers),
  entries: (_, answers) => {
    const found = textOf(answers, "found");
    return [{ kind: "fluid-checked", fluid: called(answers), level_right: found !== "low", leaks: found === "leaks" }];
  },
  said: (answers) => say("said.level", { name: called(answers), found: say(`level.${textOf(answers, "found") as "right"}`) }),
};

const settingSet: Act = {
  name: "setting-set",
  side: "back",
  shape: "after",
  next: (pocket, answers) => {
    const found = pocket.settings.filter((each) => each.found !== null).map((each) => ({ value: each.setting, label: each.setting, hint: say("setting.found", { value: each.found ?? 0, unit: each.unit ?? "mm" }) }));
    const here = pocket.settings.find((each) => each.setting === called(answers));
    const offered = here?.found === null || here?.found === undefined ? [] : [here.found];
    return inOrder(name("ask.setting.set", found, null), { ask: "amount", key: "value", title: "ask.left", unit: unitOf(pocket, called(answers)), offered })(pocket, answers);
  },
  entries: (pocket, answers) => [{ kind: "setting-set", setting: called(answers), value: numberOf(answers, "value"), unit: unitOf(pocket, called(answers)) }],
  said: (answers, pocket) => say("said.setting-set", { name: called(answers), value: numberOf(answers, "value"), unit: unitOf(pocket, called(answers)) }),
};

const sealOn: Act = {
  name: "seal-on",
  side: "back",
  shape: "after",
  next: (pocket, answers) => {
    const owed = pocket.renewals.filter((each) => each.fitted < each.n).map((each) => ({ value: each.renewal, label: each.renewal, hint: each.under ?? each.set ?? "" }));
    return inOrder(name("ask.seal.on", owed, null))(pocket, answers);
  },
  entries: (pocket, answers) => [{ kind: "renewal-fitted", renewal: called(answers), n: owedOf(pocket, answers) }],
  said: (answers, pocket) => say("said.seal-on", { name: called(answers), n: owedOf(pocket, answers) }),
};

function owedOf(pocket: Pocket, answers: Answers): number {
  const here = pocket.renewals.find((each) => each.renewal === called(answers));
  return Math.max((here?.n ?? 1) - (here?.fitted ?? 0), 1);
}

/** What is put together, covered, shut, taken out, restored. */
export const BACK: readonly Act[] = [partOn, joined, tightAgain, latched, covers, looked, shut, itemOut, tag, filled, level, settingSet, sealOn, marked, moved, emptied, found, kit, stepDone];
