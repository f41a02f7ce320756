const LONGEST_NAME = 28;
const LONGEST_TITLE = 60;
const SHORTEST_TITLE = 3;

/** Make a job's name from its machine's: small letters and digits, and an ending that no other phone makes. */
export function jobName(machine: string, ending: string): string {
  const plain = machine
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, LONGEST_NAME)
    .replace(/-+$/, "");
  return `${plain || "job"}-${ending}`;
}

/** Open a job: the machine's name is enough; whoever opens it is on it. What its meter shows goes along where somebody read it. */
export function opened(machine: string, title: string, level: number, { practice = false, meter = "" }: { readonly practice?: boolean; readonly meter?: string } = {}) {
  const work = title.trim().slice(0, LONGEST_TITLE);
  const marked = { ...(practice ? { practice } : {}), ...metered(meter) };
  return [
    { kind: "job-opened", machine, title: work.length < SHORTEST_TITLE ? machine.slice(0, LONGEST_TITLE).padEnd(3, ".") : work, level, ...marked },
    { kind: "signed-on" },
  ];
}

const LONGEST_METER = 40;

/** What a machine's meter shows, as it was typed; nothing where nothing was. */
export function metered(meter: string): { readonly meter?: string } {
  const read = meter.trim().slice(0, LONGEST_METER);
  return read ? { meter: read } : {};
}
