import { uuid7 } from "../outbox/uuid7";
import type { Pocket } from "../pocket/shape";
import { shownIn } from "../pocket/shown";
import { say } from "../words/say";
import { inOrder, textOf, type Act, type Answers, type Option } from "./act";
import { choice, name, openings, sets } from "./options";

const called = (answers: Answers) => textOf(answers, "name");
const setIn = (pocket: Pocket, set: string) => pocket.sets.find((each) => each.set === set);
/** Two phones without a network may lose a piece of one set each: no name is given twice. */
const ofItsOwn = (set: string) => `${set} ${uuid7().slice(-6)}`;

function bagsOf(pocket: Pocket, set: string): Option[] {
  return (setIn(pocket, set)?.lies_in ?? []).map(({ container, n }) => ({ value: container, label: shownIn(pocket, container), hint: `${n} ×` }));
}

/** A piece fell and is not to be seen: where it came from keeps the count right, what it fell beside says where to look. */
export const lost: Act = {
  name: "lost",
  side: "off",
  shape: "during",
  next: (pocket, answers) => {
    if (answers["name"] === undefined) return name("ask.lost", sets(pocket), "unnamed.set");
    const inside = setIn(pocket, called(answers))?.holes.some((hole) => hole.level !== "empty") ?? false;
    const from = [...bagsOf(pocket, called(answers)), ...(inside ? [{ value: "hole", label: say("lost.hole") }] : []), { value: "", label: say("lost.hand") }];
    const beside = [...openings(pocket, true), { value: "", label: say("lost.outside") }];
    const asked = inOrder({ ask: "choice", key: "from", title: "ask.lost.from", options: from }, { ask: "choice", key: "beside", title: "ask.lost.beside", options: beside });
    return asked(pocket, from.length === 1 && answers["from"] === undefined ? { ...answers, from: "" } : answers);
  },
  entries: (pocket, answers) => {
    const [set, from] = [called(answers), textOf(answers, "from")];
    const type = setIn(pocket, set)?.type ?? null;
    const source = from === "hole" ? "?" : from || null;
    const out = from === "hole" ? [{ kind: "fasteners-removed", set, n: 1, to: "?" }] : [];
    const gone = { kind: "thing-lost", loss: ofItsOwn(set), what: say("lost.what", { set }), n: 1, set, type, source };
    return [...out, { ...gone, opening: textOf(answers, "beside") || null }];
  },
  said: (answers) => say("said.lost", { name: called(answers) }),
};

/** A lost piece turned up: the loss that it closes, and where it lies now. */
export const found: Act = {
  name: "found",
  side: "back",
  shape: "after",
  next: (pocket, answers) => {
    const losses = pocket.losses.map((each) => ({ value: each.loss, label: each.what, hint: each.opening ?? "" }));
    if (answers["name"] === undefined) return name("ask.found.which", losses, null);
    const set = pocket.losses.find((each) => each.loss === called(answers))?.set ?? "";
    return inOrder({ ask: "choice", key: "to", title: "ask.found.to", options: [...bagsOf(pocket, set), { value: "", label: say("found.hand") }] })(pocket, answers);
  },
  entries: (pocket, answers) => {
    const loss = pocket.losses.find((each) => each.loss === called(answers));
    const type = setIn(pocket, loss?.set ?? "")?.type ?? null;
    const here = { kind: "thing-found", find: ofItsOwn(loss?.set ?? ""), what: loss?.what ?? null, n: 1, matches: called(answers) };
    return [{ ...here, set: loss?.set ?? null, type, to: textOf(answers, "to") || null }];
  },
  said: (answers, pocket) => say("said.found", { name: pocket.losses.find((each) => each.loss === called(answers))?.what ?? called(answers) }),
};

/** Old pieces are thrown away, or go into another bag: a bag and its count stay true. */
export const moved: Act = {
  name: "moved",
  side: "back",
  shape: "after",
  next: (pocket, answers) => {
    const lots = pocket.containers.flatMap(({ container, shown, contents }) =>
      contents.filter((each) => each.set !== null).map((each) => ({ value: JSON.stringify([container, each.set, each.n]), label: `${each.n} × ${each.set}`, hint: shown ?? container })),
    );
    const [from] = lotOf(answers);
    const others = pocket.containers.filter((each) => each.container !== from).map((each) => ({ value: each.container, label: each.shown ?? each.container }));
    return inOrder(name("ask.moved", lots, null), { ask: "choice", key: "to", title: "ask.moved.to", options: [{ value: "SCRAP", label: say("moved.scrap") }, ...others] })(pocket, answers);
  },
  entries: (_, answers) => {
    const [source, set, n] = lotOf(answers);
    return [{ kind: "fasteners-moved", set, n, source, to: textOf(answers, "to") }];
  },
  said: (answers, pocket) => {
    const [, set, n] = lotOf(answers);
    const to = textOf(answers, "to");
    return to === "SCRAP" ? say("said.moved.scrap", { set, n }) : say("said.moved", { set, n, to: shownIn(pocket, to) });
  },
};

function lotOf(answers: Answers): [string, string, number] {
  const said = called(answers);
  return said ? (JSON.parse(said) as [string, string, number]) : ["", "", 0];
}

/** Paint across head and part: who sees it knows that it was pulled and has not turned. */
export const marked: Act = {
  name: "marked",
  side: "back",
  shape: "after",
  next: (pocket, answers) => inOrder(name("ask.marked", sets(pocket, (set) => set.holes.some((hole) => hole.level === "final")), null))(pocket, answers),
  entries: (pocket, answers) => [{ kind: "witness-marked", set: called(answers), n: pulledOf(pocket, answers) }],
  said: (answers, pocket) => say("said.marked", { name: called(answers), n: pulledOf(pocket, answers) }),
};

function pulledOf(pocket: Pocket, answers: Answers): number {
  return Math.max(setIn(pocket, called(answers))?.holes.filter((hole) => hole.level === "final").length ?? 1, 1);
}

/** The mouth's surroundings are clean before it is opened, or clean again. */
export const cleaned: Act = {
  name: "cleaned",
  side: "off",
  shape: "during",
  next: (pocket, answers) =>
    inOrder(
      name("ask.cleaned", [...openings(pocket, true), ...openings(pocket, false)], null),
      choice("how", "ask.cleaned.how", [["vacuum", "cleaned.vacuum"], ["wipe", "cleaned.wipe"], ["wash", "cleaned.wash"], ["air", "cleaned.air"], ["tape", "cleaned.tape"]]),
    )(pocket, answers),
  entries: (_, answers) => [{ kind: "cleaned", opening: called(answers), how: textOf(answers, "how") }],
  said: (answers) => say("said.cleaned", { name: called(answers) }),
};

/** A tool kit is counted: whole, or something is missing. */
export const kit: Act = {
  name: "kit",
  side: "back",
  shape: "after",
  next: (pocket, answers) =>
    inOrder(
      name("ask.kit", pocket.kits.map((each) => ({ value: each.kit, label: each.kit })), "unnamed.kit"),
      choice("whole", "ask.kit.whole", [["yes", "seen.kit.whole"], ["no", "seen.kit.short"]]),
    )(pocket, answers),
  entries: (_, answers) => [{ kind: "kit-counted", kit: called(answers), complete: textOf(answers, "whole") === "yes" }],
  said: (answers) => say(textOf(answers, "whole") === "yes" ? "said.kit" : "said.kit.short", { kit: called(answers) }),
};

/** A bag or tray that should be empty was looked into: it is, and is free. */
export const emptied: Act = {
  name: "emptied",
  side: "back",
  shape: "after",
  next: (pocket, answers) => {
    const bags = pocket.containers.filter((each) => each.n === 0 && each.last !== null && each.looked_empty === null);
    return inOrder(name("ask.emptied", bags.map((each) => ({ value: each.container, label: each.shown ?? each.container })), null))(pocket, answers);
  },
  entries: (_, answers) => [{ kind: "container-emptied", container: called(answers) }],
  said: (answers, pocket) => say("said.emptied", { label: shownIn(pocket, called(answers)) }),
};

/** Where a bag or tray lies, so that it is found again. */
export const putAway: Act = {
  name: "put-away",
  side: "off",
  shape: "during",
  next: (pocket, answers) => {
    const bags = pocket.containers.map((each) => ({ value: each.container, label: each.shown ?? each.container, hint: each.place ?? "" }));
    const here = pocket.containers.find((each) => each.container === called(answers))?.place;
    const places = new Set(pocket.containers.flatMap((each) => (each.place && each.place !== here ? [each.place] : [])));
    const known = [...places].map((place) => ({ value: place, label: place }));
    return inOrder(name("ask.put", bags, null), name("ask.put.where", known, "unnamed.place", "place"))(pocket, answers);
  },
  entries: (_, answers) => [{ kind: "container-placed", container: called(answers), place: textOf(answers, "place") }],
  said: (answers, pocket) => say("said.put", { name: shownIn(pocket, called(answers)), place: textOf(answers, "place") }),
};
