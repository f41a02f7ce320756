import "fake-indexeddb/auto";

import { afterEach, beforeEach, describe, expect, it } from "vitest";

import type { Entry, WaitingPhoto } from "./box";
import { remember, remembered } from "./box";
import { Outbox } from "./outbox";
import type { OnTheWay, Post, Sent, SentInParts } from "./send";
import { phone, sight } from "./sight";

/** A server that keeps what it is sent, once an id, and may be told to fail. */
class Shop implements Post {
  readonly journal = new Map<string, Entry>();
  readonly kept: string[] = [];
  readonly calls: string[] = [];
  reachable = true;
  loseReplies = 0;
  holds = 0;
  refusesPhotos = false;
  halfway: (() => Promise<void>) | null = null;
  refuses: (entry: Entry) => boolean = () => false;

  entries = async (job: string, entries: readonly Entry[]): Promise<Sent> => {
    this.calls.push(`${job}: ${entries.map((entry) => entry.kind).join(", ")}`);
    if (!this.reachable) return { unreached: "no answer" };
    if (entries.some(this.refuses)) return { refused: "this set has no such hole" };
    for (const entry of entries) if (!this.journal.has(entry.id)) this.journal.set(entry.id, entry);
    return this.answered();
  };
  preview = async (_: WaitingPhoto, bytes: ArrayBuffer): Promise<Sent> => {
    this.calls.push(`small picture of ${bytes.byteLength}`);
    return this.reachable ? this.answered() : { unreached: "no answer" };
  };
  original = async (photo: WaitingPhoto, bytes: ArrayBuffer, onTheWay: OnTheWay): Promise<SentInParts> => {
    this.calls.push(`original of ${bytes.byteLength}`);
    if (!this.reachable) return { unreached: "no answer" };
    if (this.refusesPhotos) return { refused: "no photo" };
    onTheWay.progress(1);
    await this.halfway?.();
    if (await onTheWay.mayPass()) return { paused: true };
    this.kept.push(photo.sha256);
    return this.answered();
  };
  private answered(): Sent {
    if (this.loseReplies === 0) return { got: true, held: this.holds };
    this.loseReplies -= 1;
    return { unreached: "the answer was lost" };
  }
}

const PICTURE = { bytes: new Uint8Array([1, 2, 3]).buffer, type: "image/jpeg" };
let number = 0;
let name = "";
let shop: Shop;
const open: Outbox[] = [];

async function opened(): Promise<Outbox> {
  const outbox = await Outbox.open(shop, name);
  open.push(outbox);
  return outbox;
}

async function held(): Promise<Outbox> {
  const outbox = await opened();
  await outbox.hold("Ana");
  return outbox;
}

const seqs = () => [...shop.journal.values()].map((entry) => entry.seq);
const kinds = () => [...shop.journal.values()].map((entry) => entry.kind);

beforeEach(() => {
  name = `box ${number++}`;
  shop = new Shop();
});
afterEach(() => {
  for (const outbox of open.splice(0)) outbox.close();
});

describe("recording", () => {
  it("fills in who, where, when and the number, and sends entries, then the small picture, then the original", async () => {
    const outbox = await held();
    await outbox.record("keel", [{ kind: "photo-added", photo: "x" }, { kind: "fasteners-removed", set: "lid", n: 6 }], PICTURE);
    await outbox.send();
    const [first, second] = [...shop.journal.values()];
    expect(first).toMatchObject({ kind: "photo-added", job: "keel", by: "Ana", seq: 1, device: phone.value?.device });
    expect(second).toMatchObject({ kind: "fasteners-removed", set: "lid", n: 6, seq: 2 });
    expect(first?.["at"]).toMatch(/^\d{4}-\d\d-\d\dT[\d:.]{12}[+-]\d\d:\d\d$/);
    expect(shop.calls).toEqual(["keel: photo-added, fasteners-removed", "small picture of 3", "original of 3"]);
    expect(sight.value).toEqual({ entries: 0, photos: 0, bytes: 0, refused: [], held: 0, unreached: null, sending: false });
  });
  it("says how many entries the server holds for a lead, also after a reload, until somebody read so", async () => {
    const outbox = await held();
    shop.holds = 1;
    for (const kind of ["part-removed", "part-fitted"]) await outbox.record("keel", [{ kind }]);
    await outbox.send();
    const again = await opened();
    expect(sight.value.held).toBe(shop.calls.length);
    await again.readHeld();
    expect(sight.value.held).toBe(0);
  });
  it("asks first who holds the phone", async () => {
    const outbox = await opened();
    expect(await outbox.record("keel", [{ kind: "signed-on" }])).toEqual({ trouble: "nobody" });
    expect(shop.calls).toEqual([]);
  });
  it("keeps nothing of an act that cannot be kept whole, and leaves no gap behind it", async () => {
    const outbox = await held();
    const bad = await outbox.record("keel", [{ kind: "one" }, { kind: "two", cannot: () => "be stored" }]);
    expect(bad).toEqual({ trouble: "DataCloneError" });
    await outbox.record("keel", [{ kind: "three" }]);
    await outbox.send();
    expect([kinds(), seqs()]).toEqual([["three"], [1]]);
  });
});

describe("out of reach", () => {
  it("what waits is in sight, nothing is stopped, and a reload goes on in order under the same name", async () => {
    shop.reachable = false;
    const before = await held();
    await before.record("keel", [{ kind: "one" }], PICTURE);
    await before.record("keel", [{ kind: "two" }]);
    await before.send();
    expect(sight.value).toMatchObject({ entries: 2, photos: 1, unreached: "no answer" });
    const device = phone.value?.device;
    before.close();
    shop.reachable = true;
    const after = await opened();
    expect(phone.value).toEqual({ device, by: "Ana", seq: 2 });
    await after.record("keel", [{ kind: "three" }]);
    await after.send();
    expect([kinds(), seqs(), shop.kept.length]).toEqual([["one", "two", "three"], [1, 2, 3], 1]);
    expect(sight.value).toMatchObject({ entries: 0, photos: 0, unreached: null });
  });
  it("replies lost on the way make no second entry", async () => {
    const outbox = await held();
    shop.loseReplies = 2;
    await outbox.record("keel", [{ kind: "one" }]);
    for (let turn = 0; turn < 3; turn++) await outbox.send();
    expect([kinds(), sight.value.entries]).toEqual([["one"], 0]);
  });
  it("the last answer about something is remembered", async () => {
    const outbox = await opened();
    await remember(outbox.box, "containers of keel", [{ container: "T0042E" }]);
    outbox.close();
    const again = await opened();
    expect(await remembered(again.box, "containers of keel")).toEqual([{ container: "T0042E" }]);
    expect(await remembered(again.box, "containers of mast")).toBeUndefined();
  });
});

describe("refused", () => {
  it("one unsound entry stays with its reason and holds up neither its neighbours nor photos", async () => {
    const outbox = await held();
    shop.reachable = false;
    await outbox.record("keel", [{ kind: "one" }, { kind: "bad" }, { kind: "three" }], PICTURE);
    await outbox.send();
    shop.reachable = true;
    shop.refuses = (entry) => entry.kind === "bad";
    await outbox.send();
    expect([kinds(), shop.kept.length]).toEqual([["one", "three"], 1]);
    expect(sight.value).toMatchObject({ entries: 1, photos: 0, refused: ["this set has no such hole"] });
    shop.refuses = () => false;
    await outbox.again();
    expect([kinds(), sight.value.refused]).toEqual([["one", "three", "bad"], []]);
  });
});

describe("originals", () => {
  it("let an entry pass that is recorded while they go over, and are tried no second time for their small picture", async () => {
    const outbox = await held();
    let turns = 0;
    shop.halfway = async () => {
      if (turns++ === 0) await outbox.record("keel", [{ kind: "between" }]);
    };
    await outbox.record("keel", [{ kind: "one" }], PICTURE);
    await outbox.send();
    expect(shop.calls).toEqual(["keel: one", "small picture of 3", "original of 3", "keel: between", "original of 3"]);
    expect(shop.kept.length).toBe(1);
  });
  it("all small pictures go before the first original, and their bytes are counted while they wait", async () => {
    const outbox = await held();
    shop.reachable = false;
    await outbox.record("keel", [{ kind: "one" }], PICTURE);
    await outbox.record("keel", [{ kind: "two" }], PICTURE);
    await outbox.send();
    expect(sight.value.bytes).toBe(6);
    shop.reachable = true;
    shop.calls.length = 0;
    await outbox.send();
    expect(shop.calls.slice(1)).toEqual(["small picture of 3", "small picture of 3", "original of 3", "original of 3"]);
    expect(sight.value.bytes).toBe(0);
  });
});

describe("taking back before it was sent", () => {
  it("voids an entry that waits, and forgets one that was refused", async () => {
    const outbox = await held();
    shop.reachable = false;
    await outbox.record("keel", [{ kind: "one" }]);
    const [key] = await outbox.box.getAllKeys("entries");
    await outbox.takeBackEntry(key!, "a slip");
    shop.reachable = true;
    shop.refuses = (entry) => entry.kind === "bad";
    await outbox.record("keel", [{ kind: "bad" }]);
    await outbox.send();
    const [refused] = await outbox.box.getAllKeys("entries");
    await outbox.takeBackEntry(refused!, "a slip");
    expect([kinds(), sight.value.entries]).toEqual([["one", "entry-voided"], 0]);
  });
  it("sets a photo aside in the record and lets its bytes go", async () => {
    const outbox = await held();
    shop.refusesPhotos = true;
    await outbox.record("keel", [{ kind: "photo-added" }], PICTURE);
    await outbox.send();
    expect(sight.value).toMatchObject({ photos: 1, refused: ["no photo"] });
    const [key] = await outbox.box.getAllKeys("photos");
    await outbox.takeBackPhoto(key!, "taken back");
    await outbox.send();
    expect([kinds(), sight.value.photos, await outbox.box.count("bytes")]).toEqual([["photo-added", "photo-rejected"], 0, 0]);
  });
});

describe("several at once", () => {
  it("a burst is numbered without a gap and sent in order, jobs apart", async () => {
    const outbox = await held();
    shop.reachable = false;
    await Promise.all(
      Array.from({ length: 30 }, (_, i) => outbox.record(i % 2 ? "keel" : "mast", [{ kind: `act ${i}` }])),
    );
    shop.reachable = true;
    await outbox.send();
    expect(seqs()).toEqual(Array.from({ length: 30 }, (_, i) => i + 1));
  });
  it("two tabs number as one phone, and what is recorded while sending goes too", async () => {
    const [left, right] = [await held(), await opened()];
    await Promise.all([left.record("keel", [{ kind: "l1" }, { kind: "l2" }]), right.record("keel", [{ kind: "r1" }])]);
    await Promise.all([left.send(), right.send()]);
    await left.record("keel", [{ kind: "l3" }]);
    await left.send();
    expect(seqs().sort()).toEqual([1, 2, 3, 4]);
    expect(new Set([...shop.journal.values()].map((entry) => entry["device"])).size).toBe(1);
  });
});
