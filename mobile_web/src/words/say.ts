import { signal } from "@preact/signals";

import { en } from "./en";
import { language } from "./language";
import { number } from "./number";

/** A message's name, without the plural ending. */
export type Message = Stem<keyof typeof en | keyof Later>;
/** Messages that come with the screens that say them (`learnWords`), so that the first load stays small. */
type Later = typeof import("./en/bagging.json") &
  typeof import("./en/desk.json") &
  typeof import("./en/hand.json") &
  typeof import("./en/phone.json") &
  typeof import("./en/places.json") &
  typeof import("./en/review.json") &
  typeof import("./en/torque.json") &
  typeof import("./en/who.json") &
  typeof import("./en/work.json") &
  typeof import("./en/work_cautions.json");
type Stem<Key extends string> = Key extends `${infer Name}.one` | `${infer Name}.other` ? Name : Key;
type Values = Readonly<Record<string, string | number>>;

const MESSAGES: Record<string, string> = { ...en };
/** The messages of the language that is spoken, where that is not English; what is missing in it is said in English. */
const foreign = signal<Readonly<Record<string, string>> | null>(null);

/** Speak with other messages from now on; null is English. */
export function speakWith(messages: Readonly<Record<string, string>> | null): void {
  foreign.value = messages;
}

/** Take in the messages of screens that are fetched only when somebody goes there. */
export function learnWords(messages: Readonly<Record<string, string>>): void {
  Object.assign(MESSAGES, messages);
}

/** Give what the language that is spoken has for a word or standing sentence of the server's; null where it has nothing, and in English. */
export function foreignWord(name: string): string | null {
  return foreign.value?.[name] ?? null;
}

/** Give a message in words; a number under `n` chooses between one and many, and numbers are written as people here do. */
export function say(message: Message, values: Values = {}): string {
  const found = (foreign.value && textOf(message, foreign.value, values)) ?? textOf(message, MESSAGES, values) ?? message;
  return found.replace(/\{(\w+)\}/g, (_, name: string) => written(values[name]));
}

function textOf(message: string, from: Readonly<Record<string, string>>, { n }: Values): string | undefined {
  const many = typeof n === "number" ? from[`${message}.${pluralOf(n)}`] : undefined;
  return many ?? from[message] ?? from[`${message}.other`];
}

function written(value: string | number | undefined): string {
  if (typeof value !== "number") return value ?? "";
  return Number.isInteger(value) ? String(value) : number(value, 4);
}

const rules = new Map<string, Intl.PluralRules>();

function pluralOf(n: number): string {
  const spoken = foreign.value ? language.value : "en";
  const rule = rules.get(spoken) ?? new Intl.PluralRules(spoken);
  rules.set(spoken, rule);
  return rule.select(n);
}
