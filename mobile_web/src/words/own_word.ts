import { foreignWord } from "./say";

/** Say a word of the server's, like the name of a check, in the page's language; what it has no word for stays as it came. */
export function ownWord(group: "check" | "kind" | "state" | "container" | "about" | "why", word: string): string {
  return foreignWord(`own.${group}.${word}`) ?? word.replaceAll("-", " ");
}
