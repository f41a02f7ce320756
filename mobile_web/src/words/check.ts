import { ownWord } from "./own_word";

/** Write a check's name as people say it: `tray-not-empty` is "tray not empty". */
export function checkWords(check: string): string {
  return ownWord("check", check);
}
