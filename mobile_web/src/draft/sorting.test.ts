import { expect, it } from "vitest";

import { sortedAs, unsortedIn } from "./sorting";

const at = "2026-03-09T08:05:00.000+00:00";
const photo = (name: string, more: object = {}) => ({ id: `of ${name}`, kind: "photo-added", photo: name, at, ...more });

it("what waits to be sorted are photos that nothing tells of, with the reader's count where it is plain", () => {
  const entries = [
    photo("plain", { container: "T1", labels: ["T0042E"], shape: "tray" }),
    photo("bagged", { element: "lid" }),
    photo("cited"),
    { id: "1", kind: "fasteners-removed", set: "lid", photos: ["cited"] },
    photo("linked"),
    { id: "2", kind: "photo-linked", photo: "linked", element: "lid" },
    photo("set aside"),
    { id: "3", kind: "photo-rejected", photo: "set aside", why: "blurred" },
    photo("taken back"),
    { id: "4", kind: "entry-voided", entry: "of taken back" },
    photo("of the page", { shape: "manual" }),
    photo("undone"),
    { id: "5", kind: "fasteners-removed", set: "lid", photos: ["undone"] },
    { id: "6", kind: "entry-voided", entry: "5" },
    { id: "7", kind: "photo-counted", photo: "plain", n: 6, low: 6, high: 6 },
    { id: "8", kind: "photo-counted", photo: "undone", n: 6, low: 5, high: 7 },
  ];
  expect(unsortedIn(entries)).toEqual([
    { photo: "plain", at, label: "T0042E", container: "T1", n: 6 },
    { photo: "undone", at, label: null, container: null, n: null },
  ]);
});

it("sorting says where the pieces were at the moment of the photo", () => {
  const [one] = unsortedIn([photo("p", { container: "T1" })]);
  const drafts = sortedAs(one!, { set: "lid", n: 6, to: "T1", reason: "sorted later" });
  expect(drafts[1]).toMatchObject({ kind: "fasteners-removed", n: 6, to: "T1", photos: ["p"], mode: "late", happened_at: at });
});
