import { locale } from "./language";

const DAY = { day: "numeric", month: "short", year: "numeric" } as const;
const TIME = { hour: "2-digit", minute: "2-digit", hourCycle: "h23" } as const;

/** Write a time of day with its date, in the reader's own time zone; an unreadable one stays as it came. */
export function moment(iso: string | null | undefined): string {
  if (!iso) return "";
  const at = new Date(iso);
  return Number.isNaN(at.getTime()) ? iso : `${written(DAY, at)}, ${written(TIME, at)}`;
}

/** A formatter takes long to make, and a wall of photos asks for hundreds at each turn of the wheel. */
const kept = new Map<string, Intl.DateTimeFormat>();

function written(how: Intl.DateTimeFormatOptions, at: Date): string {
  const name = `${locale()} ${how === DAY ? "day" : "time"}`;
  const format = kept.get(name) ?? new Intl.DateTimeFormat(locale(), how);
  kept.set(name, format);
  return format.format(at);
}
