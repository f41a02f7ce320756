import type { Lay, Raw } from "./overlay";
import { list, number, text, traceOf } from "./read";
import type { Pocket, PocketContainer, PocketHole, PocketSet } from "./shape";

const VIRTUAL = new Set(["NEW", "STORE", "SCRAP", "SENT OUT", "LOST", "?"]);
const OPEN = new Set(["empty", "parked"]);

/** Give a set of the pocket, made where it is mentioned first. */
export function setIn(pocket: Pocket, name: string): PocketSet {
  let found = pocket.sets.find((each) => each.set === name);
  if (!found) pocket.sets.unshift((found = newSet(name)));
  return found;
}

function newSet(set: string): PocketSet {
  const flags = { critical: false, single_use: false, captive: false, loosened_only: false, gasketed: false };
  const lists = { holes: [], lies_in: [], bring: [], first: [], lies_over: [], look_alikes: [] };
  const more = { second_person: false, photo_wanted: false, locking: null, captive_open: 0, torque: null, left: "" };
  return { set, part: null, n: 0, type: null, last: null, ...flags, ...more, ...lists };
}

function newHole(hole: number, type: string | null): PocketHole {
  return { hole, level: "untouched", loose: false, type, next_stage: null, why: "" };
}

/** Give a bag or tray of the pocket, made where it is mentioned first; accounts that are no container have none. */
export function containerIn(pocket: Pocket, name: string | null): PocketContainer | null {
  if (!name || VIRTUAL.has(name)) return null;
  let found = pocket.containers.find((each) => each.container === name);
  if (!found) {
    const labels = pocket.labels.filter((each) => each.thing === name && !each.retired).map((each) => each.code);
    const known = { kind: "tray", labels, shown: labels[0] ?? null, place: null, shared: false, contents: [], n: 0 };
    const more = { looked_empty: null, counted: null, unseen_at_handover: false, last: null };
    pocket.containers.unshift((found = { container: name, ...known, ...more }));
  }
  return found;
}

function touched(pocket: Pocket, entry: Raw): PocketSet {
  const set = setIn(pocket, text(entry, "set") ?? "");
  set.last = traceOf(entry);
  pocket.sets = [set, ...pocket.sets.filter((each) => each !== set)];
  return set;
}

/** Make the holes of a set up to n. */
function upTo(set: PocketSet, n: number): void {
  for (let hole = set.holes.length + 1; hole <= n; hole++) set.holes.push(newHole(hole, set.type));
  set.n = Math.max(set.n, n);
}

function chosen(set: PocketSet, entry: Raw, may: (hole: PocketHole) => boolean): PocketHole[] {
  const holes = list<number>(entry, "holes");
  if (holes.length) {
    upTo(set, Math.max(...holes));
    return set.holes.filter((each) => holes.includes(each.hole) && may(each));
  }
  return set.holes.filter(may).slice(0, number(entry, "n") ?? set.holes.length);
}

function put(pocket: Pocket, name: string | null, set: PocketSet, n: number): void {
  const container = containerIn(pocket, name);
  if (!container || n <= 0) return;
  const lot = container.contents.find((each) => each.set === set.set);
  if (lot) lot.n += n;
  else container.contents.push({ n, set: set.set, type: set.type, new: false });
  container.n += n;
  container.looked_empty = null;
  liesIn(pocket, set);
}

function take(pocket: Pocket, name: string | null, set: PocketSet, n: number): void {
  let left = n;
  for (const container of pocket.containers) {
    if (name !== null && container.container !== name) continue;
    const lot = container.contents.find((each) => each.set === set.set);
    const taken = Math.min(left, lot?.n ?? 0);
    if (!lot || !taken) continue;
    lot.n -= taken;
    container.n -= taken;
    left -= taken;
    container.contents = container.contents.filter((each) => each.n > 0);
    container.last = set.last;
  }
  liesIn(pocket, set);
}

function liesIn(pocket: Pocket, set: PocketSet): void {
  set.lies_in = pocket.containers.flatMap(({ container, place, contents }) => {
    const n = contents.filter((each) => each.set === set.set).reduce((sum, each) => sum + each.n, 0);
    return n ? [{ container, place, n }] : [];
  });
}

const removed: Lay = (pocket, entry) => {
  const set = touched(pocket, entry);
  const wanted = number(entry, "n");
  const full = set.holes.filter((each) => each.level !== "empty").length;
  if (wanted !== null && wanted > full && !set.type && !set.part) upTo(set, set.holes.length + wanted - full);
  const holes = chosen(set, entry, (hole) => hole.level !== "empty");
  const parked = entry["parked"] === true;
  for (const hole of holes) Object.assign(hole, { level: parked ? "parked" : "empty", loose: false });
  if (!parked) put(pocket, text(entry, "to"), set, number(entry, "bagged") ?? wanted ?? holes.length);
};

const fitted: Lay = (pocket, entry) => {
  const set = touched(pocket, entry);
  const holes = chosen(set, entry, (hole) => OPEN.has(hole.level));
  const pulled = set.torque !== null && !set.torque.hand_tight;
  const out = holes.filter((hole) => hole.level !== "parked" || text(entry, "source")).length;
  for (const hole of holes) {
    Object.assign(hole, { level: pulled || entry["tight"] === false ? "placed" : "final", loose: false });
    hole.next_stage = pulled ? 1 : null;
  }
  take(pocket, text(entry, "source"), set, out);
};

const tightened: Lay = (pocket, entry) => {
  const set = touched(pocket, entry);
  const last = Math.max(set.torque?.stages.length ?? 1, 1);
  const stage = number(entry, "stage") ?? last;
  for (const hole of chosen(set, entry, (each) => !OPEN.has(each.level) && each.level !== "untouched")) {
    Object.assign(hole, { level: stage >= last ? "final" : "snug", loose: false });
    hole.next_stage = stage >= last ? null : stage + 1;
  }
};

/** What entries about fastener sets change. */
export const SET_ACTS: Readonly<Record<string, Lay>> = {
  "set-described": (pocket, entry) => {
    const set = setIn(pocket, text(entry, "set") ?? "");
    const flag = (name: string) => entry[name] === true;
    set.part = text(entry, "part");
    set.type = text(entry, "type") ?? set.type;
    set.captive = flag("captive");
    set.loosened_only = flag("loosened_only");
    upTo(set, number(entry, "n") ?? 0);
  },
  "fasteners-removed": removed,
  "fasteners-fitted": fitted,
  "fasteners-tightened": tightened,
  "fasteners-loosened": (pocket, entry) => {
    const set = touched(pocket, entry);
    if (!set.holes.length) upTo(set, number(entry, "n") ?? 1);
    for (const hole of chosen(set, entry, () => true)) {
      Object.assign(hole, { loose: true, level: hole.level === "untouched" ? "final" : hole.level });
    }
  },
  "fasteners-retightened": (pocket, entry) => {
    for (const hole of chosen(touched(pocket, entry), entry, (each) => each.loose)) hole.loose = false;
  },
  "captive-released": (pocket, entry) => {
    const set = touched(pocket, entry);
    set.captive_open += number(entry, "points") ?? Math.max(set.n - set.captive_open, 1);
  },
  "captive-shut": (pocket, entry) => {
    const set = touched(pocket, entry);
    set.captive_open = Math.max(0, set.captive_open - (number(entry, "points") ?? set.captive_open));
  },
  "fasteners-moved": (pocket, entry) => {
    const set = setIn(pocket, text(entry, "set") ?? "");
    const n = number(entry, "n") ?? 0;
    take(pocket, text(entry, "source"), set, n);
    put(pocket, text(entry, "to"), set, n);
  },
  "thing-lost": (pocket, entry) => {
    const set = setIn(pocket, text(entry, "set") ?? "");
    take(pocket, text(entry, "source"), set, text(entry, "source") ? (number(entry, "n") ?? 1) : 0);
    const about = { set: text(entry, "set"), n: number(entry, "n") ?? 1, opening: text(entry, "opening"), written_off: false };
    pocket.losses.push({ loss: text(entry, "loss") ?? "", what: text(entry, "what") ?? "", last_seen: text(entry, "at") ?? "", ...about });
  },
  "thing-found": (pocket, entry) => {
    pocket.losses = pocket.losses.filter((each) => each.loss !== entry["matches"]);
    if (text(entry, "set")) put(pocket, text(entry, "to"), setIn(pocket, text(entry, "set") ?? ""), number(entry, "n") ?? 1);
  },
  "witness-marked": (pocket, entry) => void touched(pocket, entry),
  "fasteners-found-bad": (pocket, entry) => void touched(pocket, entry),
};
