const TIME = new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
const DAY = new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "short" });

/** Write a time of day, with its day where that is not today; an unreadable one stays as it came. */
export function clock(iso: string, now: Date = new Date()): string {
  const at = new Date(iso);
  if (Number.isNaN(at.getTime())) return iso;
  return at.toDateString() === now.toDateString() ? TIME.format(at) : `${DAY.format(at)}, ${TIME.format(at)}`;
}
