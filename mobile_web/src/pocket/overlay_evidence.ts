import type { Lay, Raw } from "./overlay";
import { containerIn } from "./overlay_sets";
import { list, number, text, traceOf } from "./read";
import type { Pocket, PocketPhoto } from "./shape";

function photoIn(pocket: Pocket, photo: string, entry: Raw): PocketPhoto {
  let found = pocket.photos.find((each) => each.photo === photo);
  if (!found) {
    const about = { shape: "other", width: null, height: null, taken: null, taken_local: null, rejected: null, device: null, original: null };
    const place = { element: null, container: null, step: null, labels: [], elements: [], pins: [] };
    const arrived = text(entry, "at") ?? "";
    pocket.photos.unshift((found = { photo, sha256: photo, arrived, ...about, ...place }));
  }
  return found;
}

const pinned: Lay = (pocket, entry) => {
  const photo = photoIn(pocket, text(entry, "photo") ?? "", entry);
  const element = text(entry, "element") ?? "";
  const [hole, x, y] = [number(entry, "hole"), number(entry, "x") ?? 0, number(entry, "y") ?? 0];
  const others = photo.pins.filter((pin) => pin.element !== element || pin.hole !== hole);
  photo.pins = [...others, { entry: text(entry, "id") ?? "", element, hole, x, y }];
  photo.elements = [...new Set([...photo.elements, element])];
};

/** A pin of the pocket that was moved or taken away; other entries that the server has are not redone here. */
const corrected: Lay = (pocket, entry) => {
  const fields = (entry["fields"] ?? null) as Record<string, number> | null;
  for (const photo of pocket.photos) {
    if (!fields) photo.pins = photo.pins.filter((pin) => pin.entry !== entry["entry"]);
    for (const pin of photo.pins) if (fields && pin.entry === entry["entry"]) Object.assign(pin, fields);
  }
};

/** What entries about photos, labels, bags and the people at work change. */
export const EVIDENCE_ACTS: Readonly<Record<string, Lay>> = {
  "photo-added": (pocket, entry) => {
    const photo = photoIn(pocket, text(entry, "photo") ?? "", entry);
    const [element, container] = [text(entry, "element"), text(entry, "container")];
    const size = { width: number(entry, "width"), height: number(entry, "height") };
    Object.assign(photo, { shape: text(entry, "shape") ?? "other", element, container, ...size, labels: list(entry, "labels") });
    photo.elements = element ? [...new Set([...photo.elements, element])] : photo.elements;
  },
  "photo-linked": (pocket, entry) => {
    const photo = photoIn(pocket, text(entry, "photo") ?? "", entry);
    const element = text(entry, "element") ?? "";
    Object.assign(photo, { element, shape: text(entry, "shape") ?? photo.shape });
    photo.elements = [...new Set([...photo.elements, element])];
  },
  "photo-pinned": pinned,
  "step-started": (pocket, entry) => {
    const step = text(entry, "name") ?? "";
    const known = pocket.steps.find((each) => each.step === step);
    if (known) known.done = false;
    else pocket.steps.push({ step, by: text(entry, "by") ?? "", done: false, elements: [] });
  },
  "step-done": (pocket, entry) => {
    for (const each of pocket.steps) if (each.step === text(entry, "name")) each.done = true;
  },
  "photo-rejected": (pocket, entry) => {
    photoIn(pocket, text(entry, "photo") ?? "", entry).rejected = text(entry, "why");
  },
  "entry-replaced": corrected,
  "entry-voided": corrected,
  "label-bound": (pocket, entry) => {
    const [code, thing] = [text(entry, "label") ?? "", text(entry, "container") ?? ""];
    pocket.labels = [...pocket.labels.filter((each) => each.code !== code), { code, thing, retired: false }];
    if (/^[TBS]/.test(code)) {
      const container = containerIn(pocket, thing);
      if (container) Object.assign(container, { labels: [...new Set([...container.labels, code])], kind: text(entry, "container_kind") });
    }
  },
  "label-retired": (pocket, entry) => {
    const code = text(entry, "label") ?? "";
    pocket.labels = [...pocket.labels.filter((each) => each.code !== code), { code, thing: "", retired: true }];
  },
  "container-placed": (pocket, entry) => {
    const container = containerIn(pocket, text(entry, "container"));
    if (container) container.place = text(entry, "place");
  },
  "container-scanned": (pocket, entry) => {
    const container = containerIn(pocket, text(entry, "container"));
    if (container) container.unseen_at_handover = false;
  },
  "kit-counted": (pocket, entry) => {
    const kit = text(entry, "kit") ?? "";
    const counted = { kit, complete: entry["complete"] === true, missing: [...list<string>(entry, "missing")], at: text(entry, "at") ?? "" };
    pocket.kits = [...pocket.kits.filter((each) => each.kit !== kit), counted];
  },
  "container-emptied": (pocket, entry) => {
    const container = containerIn(pocket, text(entry, "container"));
    if (container) container.looked_empty = text(entry, "at");
  },
  "work-interrupted": (pocket, entry) => {
    const element = text(entry, "element") ?? "";
    pocket.interrupted = [...pocket.interrupted.filter((each) => each.element !== element), { element, act: traceOf(entry) }];
  },
  "work-resumed": (pocket, entry) => {
    pocket.interrupted = pocket.interrupted.filter((each) => each.element !== entry["element"]);
  },
};
