import { expect, it } from "vitest";

import { sendInParts, type Arriving, type PartWay } from "./upload";

const SIZE = 4;
const bytesOf = (n: number) => Uint8Array.from({ length: n }, (_, i) => i + 1).buffer;

/** A server that keeps parts as ours does, and may lose answers, change bytes or stop. */
class Server implements PartWay {
  kept = new Uint8Array(0);
  puts: number[] = [];
  lose = 0;
  spoil = false;
  whole: number[] | null = null;
  constructor(readonly wanted: ArrayBuffer) {}
  private now = (): { here: Arriving } => ({
    here: { here: this.whole !== null, parts: Math.floor(this.kept.length / SIZE), part_bytes: SIZE },
  });
  state = async () => this.now();
  put = async (number: number, part: ArrayBuffer) => {
    this.puts.push(number);
    const own = new Uint8Array(part);
    if (this.spoil) own[0] = 99;
    const grown = new Uint8Array(Math.max(this.kept.length, number * SIZE + own.length));
    grown.set(this.kept);
    grown.set(own, number * SIZE);
    this.kept = grown;
    return this.lose-- > 0 ? { unreached: "lost" } : this.now();
  };
  finish = async () => {
    if (String(this.kept) === String(new Uint8Array(this.wanted))) {
      this.whole = [...this.kept];
      return { here: { outcome: "kept" as const, sentence: "Kept.", forms: [] } };
    }
    this.kept = new Uint8Array(0);
    return { here: { outcome: "again" as const, sentence: "Changed.", forms: [] } };
  };
}

const way = { progress: () => undefined, mayPass: async () => false };

it.each([1, 3, 4, 5, 8, 9])("%i bytes go over in parts of four, each once", async (n) => {
  const server = new Server(bytesOf(n));
  expect(await sendInParts(bytesOf(n), server, way)).toEqual({ got: true });
  expect(server.puts).toEqual(Array.from({ length: Math.ceil(n / SIZE) }, (_, i) => i));
  expect(server.whole).toEqual([...new Uint8Array(bytesOf(n))]);
});

it("after a lost answer it goes on where the server is, and sends no part that is there", async () => {
  const server = new Server(bytesOf(10));
  server.lose = 1;
  expect(await sendInParts(bytesOf(10), server, way)).toEqual({ unreached: "lost" });
  expect(await sendInParts(bytesOf(10), server, way)).toEqual({ got: true });
  expect(server.puts).toEqual([0, 1, 2]);
  expect(await sendInParts(bytesOf(10), server, way)).toEqual({ got: true });
  expect(server.puts).toEqual([0, 1, 2]);
});

it("bytes changed on the way begin anew, and are given up after three times with a reason", async () => {
  const server = new Server(bytesOf(6));
  server.spoil = true;
  expect(await sendInParts(bytesOf(6), server, way)).toMatchObject({ refused: expect.stringContaining("three times") });
  expect(server.puts).toEqual([0, 1, 0, 1, 0, 1]);
  server.spoil = false;
  expect(await sendInParts(bytesOf(6), server, way)).toEqual({ got: true });
});

it("stops between two parts to let an entry pass, and tells how far it is", async () => {
  const server = new Server(bytesOf(12));
  const told: number[] = [];
  const after = { progress: (sent: number) => told.push(sent), mayPass: async () => server.puts.length === 2 };
  expect(await sendInParts(bytesOf(12), server, after)).toEqual({ paused: true });
  expect([server.puts, told]).toEqual([[0, 1], [0, 4]]);
  expect(await sendInParts(bytesOf(12), server, way)).toEqual({ got: true });
});

it("a server that keeps nothing is not asked for ever", async () => {
  const server = new Server(bytesOf(12));
  server.put = async () => ({ here: { here: false, parts: 0, part_bytes: SIZE } });
  expect(await sendInParts(bytesOf(12), server, way)).toMatchObject({ unreached: expect.stringContaining("disk") });
});
