import { en } from "./en";

/** A message's name, without the plural ending. */
export type Message = Stem<keyof typeof en | keyof Later>;
/** Messages that come with the screens that say them (`learnWords`), so that the first load stays small. */
type Later = typeof import("./en/desk.json") &
  typeof import("./en/hand.json") &
  typeof import("./en/who.json") &
  typeof import("./en/work.json") &
  typeof import("./en/work_cautions.json");
type Stem<Key extends string> = Key extends `${infer Name}.one` | `${infer Name}.other` ? Name : Key;
type Values = Readonly<Record<string, string | number>>;

const MESSAGES: Record<string, string> = { ...en };
const PLURALS = new Intl.PluralRules("en");

/** Take in the messages of screens that are fetched only when somebody goes there. */
export function learnWords(messages: Readonly<Record<string, string>>): void {
  Object.assign(MESSAGES, messages);
}

/** Give a message in words; a number under `n` chooses between one and many. */
export function say(message: Message, values: Values = {}): string {
  const n = values["n"];
  const ending = typeof n === "number" ? `.${PLURALS.select(n)}` : "";
  const text = MESSAGES[message + ending] ?? MESSAGES[message] ?? MESSAGES[`${message}.other`] ?? message;
  return text.replace(/\{(\w+)\}/g, (_, name: string) => String(values[name] ?? ""));
}
