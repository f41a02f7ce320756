import { say } from "../words/say";

const HOUR_MS = 3_600_000;

/** Say how long ago something was, in whole hours below two days, in days from there. */
export function ageWords(since: string, now: Date): string {
  const hours = Math.max(0, Math.floor((now.getTime() - new Date(since).getTime()) / HOUR_MS));
  if (hours < 1) return say("age.now");
  return hours < 48 ? say("age.hours", { n: hours }) : say("age.days", { n: Math.floor(hours / 24) });
}
