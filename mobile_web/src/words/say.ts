import { en } from "./en";

/** A message's name, without the plural ending. */
export type Message = Stem<keyof typeof en>;
type Stem<Key extends string> = Key extends `${infer Name}.one` | `${infer Name}.other` ? Name : Key;
type Values = Readonly<Record<string, string | number>>;

const MESSAGES: Readonly<Record<string, string>> = en;
const PLURALS = new Intl.PluralRules("en");

/** Give a message in words; a number under `n` chooses between one and many. */
export function say(message: Message, values: Values = {}): string {
  const n = values["n"];
  const ending = typeof n === "number" ? `.${PLURALS.select(n)}` : "";
  const text = MESSAGES[message + ending] ?? MESSAGES[message] ?? MESSAGES[`${message}.other`] ?? message;
  return text.replace(/\{(\w+)\}/g, (_, name: string) => String(values[name] ?? ""));
}
