import { say, type Message } from "./say";

/** Say a word of the server's, like the name of a check, in the page's language; what it has no word for stays as it came. */
export function ownWord(group: "check" | "kind" | "state" | "container" | "why" | "about", word: string): string {
  const name = `own.${group}.${word}`;
  const found = say(name as Message);
  return found === name ? word.replaceAll("-", " ") : found;
}
