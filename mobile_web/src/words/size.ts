import { number } from "./number";

/** Write a number of bytes as megabytes, which is how phones say it: 2.9 MB. */
export function megabytes(bytes: number): string {
  const size = bytes / 1_000_000;
  return `${number(size, size < 10 ? 1 : 0)} MB`;
}
