import "fake-indexeddb/auto";
import { beforeEach, describe, expect, it } from "vitest";

import { alikeIn, countOff, labelIn } from "./judgments";
import { backTo, forgetSince, keepPocket, keptJobs, keptPocket, noteSince, openShelf, sinceOf, type Shelf } from "./keep";
import type { Pocket } from "./shape";

const pocket = (job: string, photos: readonly string[] = []) => ({ job, photos: photos.map((sha256) => ({ sha256 })) }) as unknown as Pocket;
const entry = (id: string, seq: number, job = "keel") => ({ id, seq, job, device: "phone", kind: "part-removed" });

describe("what the phone keeps of jobs", () => {
  let shelf: Shelf;
  let turn = 0;
  beforeEach(async () => {
    shelf = await openShelf(`shelf ${turn++}`);
  });
  it("is the last three, with the pictures that they show", async () => {
    for (const [job, photo] of [["a", "1"], ["b", "2"], ["c", "3"]] as const) {
      await keepPocket(shelf, { pocket: pocket(job, [photo]), at: "" }, Number(photo));
      await shelf.put("pictures", { bytes: new ArrayBuffer(1), type: "image/jpeg" }, photo);
    }
    await keepPocket(shelf, { pocket: pocket("d", ["4"]), at: "" }, 9);
    expect(await keptJobs(shelf)).toEqual(["d", "c", "b"]);
    expect(await shelf.getAllKeys("pictures")).toEqual(["2", "3"]);
    expect(await keptPocket(shelf, "a")).toBeNull();
  });
  it("is shown as before an act that is taken back, also when the pocket holds the act already", async () => {
    const before = { kept: { pocket: pocket("keel", ["old"]), at: "then" }, since: [entry("1", 1)] };
    await keepPocket(shelf, { pocket: pocket("keel", ["new"]), at: "now" });
    await backTo(shelf, before, { entries: [entry("2", 2)], since: new Set(["2"]) });
    expect((await keptPocket(shelf, "keel"))?.at).toBe("now");
    await backTo(shelf, before, { entries: [entry("2", 2)], since: new Set() });
    expect((await keptPocket(shelf, "keel"))?.at).toBe("then");
    expect((await sinceOf(shelf, "keel")).map((each) => each.id)).toEqual(["1"]);
  });
  it("is laid over with what was recorded here, until a pocket asked for later holds it", async () => {
    await noteSince(shelf, [entry("2", 2), entry("1", 1), entry("9", 3, "mast")]);
    expect((await sinceOf(shelf, "keel")).map((each) => each.id)).toEqual(["1", "2"]);
    const head = { taken: { phone: 1, "another phone": 7 } };
    await forgetSince(shelf, { ...pocket("keel", []), head } as unknown as Pocket);
    expect((await sinceOf(shelf, "keel")).map((each) => each.id)).toEqual(["2"]);
    expect(await sinceOf(shelf, "mast")).toHaveLength(1);
  });
});

describe("what the phone judges by itself", () => {
  const labels = [{ code: "T0042E", thing: "T0042E", retired: false }, { code: "B0040Z", thing: "", retired: true }, { code: "P0001S", thing: "rail", retired: false }];
  const known = { labels, elsewhere: [{ code: "T0106E", thing: "T0106E", job: "mast" }], containers: [{ container: "T0042E", contents: [{ set: "elbow" }] }] } as unknown as Pocket;
  it.each([
    ["T0042E", { is: "container" }],
    ["B0040Z", { is: "retired" }],
    ["P0001S", { is: "thing", letter: "P", thing: "rail" }],
    ["T0106E", { is: "elsewhere", job: "mast" }],
    ["T0101O", { is: "free", letter: "T" }],
    ["T0101X", { is: "strange" }],
  ])("is what the label %s is", (code, what) => {
    expect(labelIn(known, code)).toMatchObject(what);
  });
  it("is whether a count fits the holes, and whether look-alikes lie together", () => {
    const set = { n: 3, holes: [{ level: "final" }, { level: "untouched" }, { level: "empty" }], look_alikes: ["elbow", "neck"] } as never;
    expect([countOff(set, 2), countOff(set, 3), countOff(set, 1), countOff(undefined, 9)]).toEqual([0, 1, -1, 0]);
    expect(alikeIn(known.containers[0], set)).toEqual(["elbow"]);
  });
});
