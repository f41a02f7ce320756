import type { Pocket, PocketSet } from "../pocket/shape";
import { say, type Message } from "../words/say";
import type { Option, Question } from "./act";

/** A question for a name: what the job knows first, "the photo is the name" beside it. */
export function name(title: Message, options: readonly Option[], unnamed: Message | null, key = "name"): Question {
  return { ask: "name", key, title, options, unnamed };
}

/** A question with fixed answers; each answer's words are a message of its own. */
export function choice(key: string, title: Message, answers: readonly (readonly [string, Message])[]): Question {
  return { ask: "choice", key, title, options: answers.map(([value, message]) => ({ value, label: say(message) })) };
}

const plain = (value: string, hint = ""): Option => ({ value, label: value, hint });

/** The sets, the last worked on first; the hint says how many and of what. */
export function sets(pocket: Pocket, wanted: (set: PocketSet) => boolean = () => true): Option[] {
  return pocket.sets.filter(wanted).map((set) => plain(set.set, [set.n ? `${set.n} ×` : "", set.type && set.type !== "other" ? set.type : ""].join(" ").trim()));
}

/** Parts that are on, or off; what holds a part that came loose lately comes first. */
export function parts(pocket: Pocket, on: boolean): Option[] {
  const order = new Map(pocket.sets.map((set, index) => [set.part, index]));
  const rank = (part: string) => order.get(part) ?? order.size;
  const known = pocket.parts.filter((each) => each.on === on).map((each) => each.part);
  const held = on ? pocket.sets.flatMap((set) => (set.part && !pocket.parts.some((each) => each.part === set.part) ? [set.part] : [])) : [];
  return [...new Set([...known, ...held])].sort((left, right) => rank(left) - rank(right)).map((part) => plain(part));
}

/** Connections that are together, or apart. */
export function connections(pocket: Pocket, apart: boolean): Option[] {
  const wanted = pocket.connections.filter((each) => (each.apart !== null || each.unsure) === apart);
  return wanted.map((each) => plain(each.connection, each.part ?? ""));
}

/** Openings that are open, or shut; the hint says class, mouths and covers. */
export function openings(pocket: Pocket, open: boolean): Option[] {
  return pocket.openings
    .filter((each) => (each.open !== null) === open)
    .map(({ opening, letter, mouths, covers }) => plain(opening, say(open ? "opening.covers" : "opening.mouths", { letter, covers, mouths, n: mouths })));
}

/** Isolation points that are cut off now, or not. */
export function isolations(pocket: Pocket, applied: boolean): Option[] {
  return pocket.isolations
    .filter((each) => (each.applied !== null) === applied)
    .map((each) => plain(each.isolation, each.holder ? say("isolation.holder", { holder: each.holder }) : ""));
}

/** Words of the trade that a shop uses every day, for a job that knows none of its own yet. */
export function offered(messages: readonly Message[], known: readonly Option[]): Option[] {
  const words = messages.map((message) => say(message));
  return [...known, ...words.filter((word) => !known.some((each) => each.value === word)).map((word) => plain(word))];
}

/** Give a name to what nobody named: what it is and the number of the photo that shows it. */
export function unnamed(pocket: Pocket, message: Message): string {
  const taken = new Set([...pocket.sets.map((each) => each.set), ...pocket.parts.map((each) => each.part), ...pocket.connections.map((each) => each.connection), ...pocket.openings.map((each) => each.opening)]);
  let photo = pocket.photos.length + 1;
  while (taken.has(say(message, { photo }))) photo += 1;
  return say(message, { photo });
}
