import type { Lay, Raw } from "./overlay";
import { list, number, text, traceOf } from "./read";
import type { Pocket, PocketOpening } from "./shape";

type ListOf<Key extends keyof Pocket> = Pocket[Key] extends (infer Each)[] ? Each : never;
type Things = "parts" | "connections" | "openings" | "isolations" | "fluids" | "settings" | "renewals";

/** Find a thing by its name or make it with what is known of a new one. */
function thing<Key extends Things>(pocket: Pocket, key: Key, has: (each: ListOf<Key>) => boolean, made: () => ListOf<Key>): ListOf<Key> {
  const all = pocket[key] as ListOf<Key>[];
  let found = all.find(has);
  if (!found) all.push((found = made()));
  return found;
}

function partIn(pocket: Pocket, part: string): ListOf<"parts"> {
  const made = { on: true, off: null, place: null, zone: null, photo_wanted: false, sets: [], bring: [], owed: [] };
  return thing(pocket, "parts", (each) => each.part === part, () => ({ part, ...made }));
}

function connectionIn(pocket: Pocket, connection: string): ListOf<"connections"> {
  const made = { part: null, has_clamp: false, photo_wanted: false, apart: null, unsure: false, mouths: [] };
  return thing(pocket, "connections", (each) => each.connection === connection, () => ({ connection, ...made }));
}

function openingIn(pocket: Pocket, opening: string): PocketOpening {
  const state = { letter: "A", mouths: 1, open: null, covers: 0, numbered: [], bare: false, looked: null };
  const made = { ...state, taken_off_with: null, clean_first: false, items: [] };
  return thing(pocket, "openings", (each) => each.opening === opening, () => ({ opening, ...made }));
}

function isolationIn(pocket: Pocket, isolation: string): ListOf<"isolations"> {
  const made = { applied: null, holder: null, proven: null, removed: null, high_energy: false, scope: [] };
  return thing(pocket, "isolations", (each) => each.isolation === isolation, () => ({ isolation, ...made }));
}

function fluidIn(pocket: Pocket, fluid: string): ListOf<"fluids"> {
  const litres = { grade: null, capacity_l: null, drained_l: 0, filled_l: 0, owed_l: 0 };
  const made = { ...litres, drained: null, is_back: false, checked: null, check_bad: false };
  return thing(pocket, "fluids", (each) => each.fluid === fluid, () => ({ fluid, ...made }));
}

function settingIn(pocket: Pocket, entry: Raw): ListOf<"settings"> {
  const setting = text(entry, "setting") ?? "";
  const made = { unit: text(entry, "unit"), tolerance: 0, found: null, left: null };
  return thing(pocket, "settings", (each) => each.setting === setting, () => ({ setting, ...made }));
}

function renewalIn(pocket: Pocket, renewal: string): ListOf<"renewals"> {
  const made = { n: 0, seen_off: 0, fitted: 0, under: null, set: null, see_old_off: false, reuse_allowed: false };
  return thing(pocket, "renewals", (each) => each.renewal === renewal, () => ({ renewal, ...made }));
}

function covered(opening: PocketOpening, by: number): void {
  opening.covers = Math.max(0, opening.covers + by);
  opening.bare = opening.open !== null && opening.covers < opening.mouths;
}

/** An act on one thing that the entry names in its field. */
function on<T>(field: string, find: (pocket: Pocket, name: string) => T, change: (here: T, entry: Raw, pocket: Pocket) => void): Lay {
  return (pocket, entry) => change(find(pocket, text(entry, field) ?? ""), entry, pocket);
}

const PARTS: Readonly<Record<string, Lay>> = {
  "part-described": on("part", partIn, () => undefined),
  "part-removed": on("part", partIn, (here, entry) => Object.assign(here, { on: false, off: traceOf(entry), place: text(entry, "place") })),
  "part-fitted": on("part", partIn, (here) => Object.assign(here, { on: true, off: null, owed: [] })),
  "connection-described": on("connection", connectionIn, (here, entry) => {
    Object.assign(here, { part: text(entry, "part"), has_clamp: entry["has_clamp"] === true });
  }),
  "connection-parted": on("connection", connectionIn, (here, entry) => Object.assign(here, { apart: traceOf(entry), unsure: false })),
  "connection-made": on("connection", connectionIn, (here, entry) => {
    Object.assign(here, { apart: null, unsure: entry["pulled"] === false || entry["clamp_tight"] === false });
  }),
};

const OPENINGS: Readonly<Record<string, Lay>> = {
  "opening-described": on("opening", openingIn, (here, entry) => {
    Object.assign(here, { letter: text(entry, "opening_class") ?? "A", mouths: number(entry, "mouths") ?? 1 });
  }),
  "opening-opened": on("opening", openingIn, (here, entry) => {
    here.mouths = number(entry, "mouths") ?? here.mouths;
    Object.assign(here, { open: traceOf(entry), looked: null, taken_off_with: text(entry, "by_taking_off") ?? here.taken_off_with });
    covered(here, 0);
  }),
  "opening-covered": on("opening", openingIn, (here, entry) => {
    const covers = list<string>(entry, "covers");
    here.numbered = [...new Set([...here.numbered, ...covers])];
    covered(here, number(entry, "n") ?? (covers.length || Math.max(here.mouths - here.covers, 1)));
  }),
  "opening-uncovered": on("opening", openingIn, (here, entry) => {
    const covers = list<string>(entry, "covers");
    here.looked = null;
    covered(here, -(number(entry, "n") ?? (covers.length || Math.max(here.covers, 1))));
    here.numbered = here.covers ? here.numbered.filter((each) => !covers.includes(each)) : [];
  }),
  "looked-inside": on("opening", openingIn, (here, entry) => {
    if (entry["clear"] !== false) here.looked = traceOf(entry);
  }),
  "opening-closed": on("opening", openingIn, (here) => Object.assign(here, { open: null, bare: false })),
};

const ITEMS: Readonly<Record<string, Lay>> = {
  "item-brought-in": (pocket, entry) => {
    const [item, opening, n] = [text(entry, "item") ?? "", text(entry, "opening"), number(entry, "n") ?? 1];
    const found = pocket.items.find((each) => each.item === item && each.opening === opening);
    if (found) Object.assign(found, { n: found.n + n, act: traceOf(entry) });
    else pocket.items.push({ item, opening, n, act: traceOf(entry) });
  },
  "item-taken-out": (pocket, entry) => {
    let left = number(entry, "n") ?? 1;
    for (const each of pocket.items) {
      if (each.item !== text(entry, "item") || ![null, each.opening].includes(text(entry, "opening"))) continue;
      const out = Math.min(left, each.n);
      each.n -= out;
      left -= out;
    }
    pocket.items = pocket.items.filter((each) => each.n > 0);
  },
};

const POINTS: Readonly<Record<string, Lay>> = {
  "isolation-applied": on("isolation", isolationIn, (here, entry) => {
    Object.assign(here, { applied: traceOf(entry), holder: text(entry, "by"), proven: null, removed: null });
  }),
  "isolation-proven": on("isolation", isolationIn, (here, entry) => Object.assign(here, { proven: traceOf(entry) })),
  "isolation-transferred": on("isolation", isolationIn, (here, entry) => Object.assign(here, { holder: text(entry, "to") })),
  "isolation-removed": on("isolation", isolationIn, (here, entry) => {
    Object.assign(here, { applied: null, holder: null, removed: traceOf(entry) });
  }),
  "fluid-drained": on("fluid", fluidIn, (here, entry) => {
    Object.assign(here, { drained_l: here.drained_l + (number(entry, "litres") ?? 0), drained: traceOf(entry) });
  }),
  "fluid-filled": on("fluid", fluidIn, (here, entry) => {
    here.filled_l += number(entry, "litres") ?? 0;
  }),
  "fluid-checked": on("fluid", fluidIn, (here, entry) => Object.assign(here, { checked: traceOf(entry) })),
  "setting-found": (pocket, entry) => {
    const here = settingIn(pocket, entry);
    if (here.left === null) here.found = number(entry, "value");
  },
  "setting-set": (pocket, entry) => {
    settingIn(pocket, entry).left = number(entry, "value");
  },
  "renewal-needed": on("renewal", renewalIn, (here, entry) => {
    Object.assign(here, { n: number(entry, "n") ?? 1, under: text(entry, "under"), set: text(entry, "set") });
  }),
  "renewal-seen-off": on("renewal", renewalIn, (here, entry) => {
    here.seen_off += number(entry, "n") ?? 1;
  }),
  "renewal-fitted": on("renewal", renewalIn, (here, entry) => {
    here.fitted += number(entry, "n") ?? 1;
  }),
};

/** What entries about parts, openings, energy, fluids, settings and seals change. */
export const THING_ACTS: Readonly<Record<string, Lay>> = { ...PARTS, ...OPENINGS, ...ITEMS, ...POINTS };
