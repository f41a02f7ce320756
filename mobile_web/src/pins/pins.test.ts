import { describe, expect, it } from "vitest";

import { cornersOf, OUTLINES, outlineOf } from "./shapes";
import { moved, sharesOf, WHOLE, zoomed } from "./view";
import { overviewOf, placesOn, setAt } from "./places";
import { photoFor } from "./which_photo";

const SIZE = { width: 1600, height: 1200 };

describe("what is in sight of a photo", () => {
  it("keeps the point under the fingers where it is", () => {
    const at = { x: 400, y: 300 };
    const view = zoomed(WHOLE, 2, at, SIZE);
    expect([(at.x - view.x) / (SIZE.width / view.k), (at.y - view.y) / (SIZE.height / view.k)]).toEqual([0.25, 0.25]);
  });
  it("never leaves the photo nor grows beyond it", () => {
    expect(zoomed(WHOLE, 0.1, { x: 0, y: 0 }, SIZE)).toEqual(WHOLE);
    expect(moved({ k: 2, x: 0, y: 0 }, { x: -500, y: 9000 }, SIZE)).toEqual({ k: 2, x: 0, y: 600 });
  });
  it("gives a place in shares, inside the photo", () => {
    expect([sharesOf({ x: 400, y: 300 }, SIZE), sharesOf({ x: -5, y: 2000 }, SIZE)]).toEqual([{ x: 0.25, y: 0.25 }, { x: 0, y: 1 }]);
  });
});

describe("outlines", () => {
  it("are the circle for the set that is looked at, others for the others", () => {
    const sets = ["rail", "elbow", "neck"];
    expect(sets.map((set) => outlineOf(set, "rail", sets))).toEqual(["circle", "square", "triangle"]);
  });
  it("have as many corners as their name says", () => {
    expect(OUTLINES.map((each) => cornersOf(each, 10)?.split(" ").length ?? 0)).toEqual([0, 4, 3, 4, 6]);
  });
});

it("the photo with most marks of a set is taken, never a tray's, never a rejected one", () => {
  const photo = (name: string, more: object) => ({ photo: name, sha256: name, rejected: null, shape: "other", elements: [], pins: [], ...more });
  const pin = { element: "rail", hole: 1 };
  const photos = [
    photo("tray", { shape: "tray", elements: ["rail"] }),
    photo("before", { shape: "before", elements: ["cover"] }),
    photo("blurred", { rejected: "blurred", pins: [pin, pin] }),
    photo("marked", { shape: "after", pins: [pin] }),
  ];
  const set = { set: "rail", part: "cover" } as never;
  expect([photoFor({ photos } as never, set)?.photo, photoFor({ photos: photos.slice(0, 3) } as never, set)?.photo]).toEqual(["marked", "before"]);
  expect(photoFor({ photos: photos.slice(0, 1) } as never, set)).toBeNull();
});

describe("the place of pieces on the photo of the machine", () => {
  const mark = (element: string, x: number, y: number, hole = 1) => ({ entry: `${element}${hole}`, element, hole, x, y });
  const photo = (name: string, pins: readonly object[], shape = "before") => ({ photo: name, sha256: name, rejected: false, shape, elements: [], pins });
  const pocket = (photos: readonly object[]) => ({ sets: [{ set: "rail" }, { set: "elbow" }], photos }) as never;
  const two = photo("two", [mark("rail", 0.25, 0.25), mark("rail", 0.5, 0.25, 2), mark("elbow", 0.75, 0.5), mark("gone", 0.1, 0.9)]);

  it("is asked on the photo that shows the set last worked on, never on a tray's or one that was rejected", () => {
    const others = [photo("elbow only", [mark("elbow", 0.5, 0.5)]), photo("tray", [mark("rail", 0, 0)], "tray"), { ...photo("bad", [mark("rail", 0, 0)]), rejected: true }];
    expect(overviewOf(pocket([...others, two]))?.photo).toBe("two");
    expect(overviewOf(pocket([photo("bare", [])]))).toBeNull();
  });
  it("numbers the sets of the job and gives each an outline of its own", () => {
    const places = placesOn(two as never, pocket([two]));
    expect(places.map(({ set, number, outline, marks }) => [set, number, outline, marks.length])).toEqual([["elbow", 1, "circle", 1], ["rail", 2, "square", 2]]);
  });
  it("is the nearest mark within a finger's reach, and a new spot beside all of them", () => {
    const places = placesOn(two as never, pocket([two]));
    const at = (x: number, y: number, radius = 50) => setAt(places, { x, y }, SIZE, radius);
    expect([at(430, 330), at(1180, 640), at(800, 310)]).toEqual(["rail", "elbow", "rail"]);
    expect([at(40, 40), at(1200, 900), at(430, 330, 10)]).toEqual([null, null, null]);
  });
});
