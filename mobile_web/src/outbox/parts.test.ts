import { afterEach, describe, expect, it, vi } from "vitest";

import { clockText } from "./clock";
import { sha256, sha256Here } from "./sha256";
import { uuid7 } from "./uuid7";

const bytesOf = (text: string) => new TextEncoder().encode(text);

describe("ids", () => {
  it("carry version 7, the variant of RFC 9562 and the milliseconds of the clock", () => {
    // The time of RFC 9562, appendix A.6: 0x017F22E279B0, Tuesday, 22 February 2022 14:22:22 GMT-05:00.
    expect(uuid7(0x017f22e279b0)).toMatch(/^017f22e2-79b0-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  });
  it("differ within one millisecond, and sort by time", () => {
    expect(new Set(Array.from({ length: 500 }, () => uuid7(1))).size).toBe(500);
    expect(uuid7(1_000_000) < uuid7(1_000_001)).toBe(true);
  });
});

describe("the clock", () => {
  const instant = new Date("2026-03-09T08:05:07.089Z");
  it.each([
    [0, "2026-03-09T08:05:07.089+00:00"],
    [60, "2026-03-09T09:05:07.089+01:00"],
    [-210, "2026-03-09T04:35:07.089-03:30"],
    [765, "2026-03-09T20:50:07.089+12:45"],
  ])("is written with its offset of %i minutes, and names the same instant", (offset, text) => {
    expect(clockText(instant, offset)).toBe(text);
    expect(new Date(text).getTime()).toBe(instant.getTime());
  });
});

describe("SHA-256", () => {
  afterEach(() => vi.unstubAllGlobals());
  it("gives the examples of FIPS 180-4 (NIST, SHA256.pdf: one block, two blocks)", () => {
    expect(sha256Here(bytesOf("abc"))).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    expect(sha256Here(bytesOf("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"))).toBe(
      "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
    );
  });
  it("agrees with the runtime's own at every length around the block's edges", async () => {
    for (const length of [0, 1, 54, 55, 56, 57, 63, 64, 65, 119, 120, 1000]) {
      const bytes = Uint8Array.from({ length }, (_, i) => (i * 31) % 256);
      expect(sha256Here(bytes)).toBe(await sha256(bytes.buffer));
    }
  });
  it("is the same whether the browser may be asked or not", async () => {
    const asked = await sha256(bytesOf("six bolts").buffer as ArrayBuffer);
    vi.stubGlobal("crypto", {});
    expect(await sha256(bytesOf("six bolts").buffer as ArrayBuffer)).toBe(asked);
  });
});
