/** Write what the device's clock says, with its offset from UTC: 2026-03-09T08:05:00.000+01:00. */
export function clockText(now: Date, offsetMinutes: number = -now.getTimezoneOffset()): string {
  const shifted = new Date(now.getTime() + offsetMinutes * 60_000).toISOString().slice(0, -1);
  const size = Math.abs(offsetMinutes);
  const two = (n: number) => String(n).padStart(2, "0");
  return `${shifted}${offsetMinutes < 0 ? "-" : "+"}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}
