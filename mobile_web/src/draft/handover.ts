const LONGEST = 500;

/** The giver's answers, in the giver's words or as the record lists it; null where nothing was said. */
export interface Answers {
  readonly half_done: string | null;
  readonly dangerous: string | null;
  readonly not_listed: string | null;
}

/** Put the lines that somebody agrees to and what he adds into one answer; too long a list is cut and says so. */
export function answerFrom(lines: readonly string[], own: string, cut: string): string | null {
  const all = [...lines, own.trim()].filter(Boolean).join(" ");
  return all.length > LONGEST ? `${all.slice(0, LONGEST - cut.length)}${cut}` : all || null;
}

/** Give a job over: the three answers, a voice note by the hash of its bytes, and the giver signs off. */
export function givenOver(answers: Answers, to: string | null, voice: string | null) {
  const said = Object.fromEntries(Object.entries({ ...answers, to, voice_note: voice }).filter(([, value]) => value));
  return [
    { kind: "handover-offered", ...said },
    { kind: "signed-off", why: "shift" },
  ];
}

/** Take a job over: what was seen on the walk, what is disputed; whoever takes over signs on. */
export function takenOver(giver: string, seen: readonly string[], disputed: readonly string[]) {
  const from = giver ? { giver } : {};
  return [
    { kind: "handover-accepted", ...from, containers: seen, disputed, mode: "scan" },
    { kind: "signed-on" },
  ];
}

/** Find the trays that labels in view are on, by their printed or compact codes. */
export function traysIn<T extends { readonly container: string; readonly label: string | null }>(
  codes: readonly string[],
  trays: readonly T[],
): readonly T[] {
  const seen = new Set(codes.map(plain));
  return trays.filter(({ container, label }) => seen.has(plain(container)) || (label !== null && seen.has(plain(label))));
}

function plain(code: string): string {
  return code.replaceAll("-", "").toUpperCase();
}
