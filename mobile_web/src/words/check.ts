/** Write a check's name as people say it: `tray-not-empty` is "tray not empty". */
export function checkWords(check: string): string {
  return check.replaceAll("-", " ");
}
