import { hexOf } from "./uuid7";

/** Compute SHA-256 (FIPS 180-4) in hexadecimal: by the browser, or here where a plain-http page may not ask it. */
export async function sha256(bytes: ArrayBuffer): Promise<string> {
  const subtle = (globalThis.crypto as Partial<Crypto>).subtle;
  if (!subtle) return sha256Here(new Uint8Array(bytes));
  return hexOf(new Uint8Array(await subtle.digest("SHA-256", bytes)));
}

/** Compute SHA-256 without the browser's help. */
export function sha256Here(bytes: Uint8Array): string {
  const padded = new Uint8Array((((bytes.length + 8) >> 6) + 1) * 64);
  padded.set(bytes);
  padded[bytes.length] = 0x80;
  const view = new DataView(padded.buffer);
  view.setUint32(padded.length - 8, Math.floor(bytes.length / 2 ** 29));
  view.setUint32(padded.length - 4, (bytes.length << 3) >>> 0);
  const state = Uint32Array.from(FIRST);
  const words = new Uint32Array(64);
  for (let start = 0; start < padded.length; start += 64) takeBlock(state, words, view, start);
  return Array.from(state, (word) => word.toString(16).padStart(8, "0")).join("");
}

function takeBlock(state: Uint32Array, words: Uint32Array, view: DataView, start: number): void {
  for (let i = 0; i < 16; i++) words[i] = view.getUint32(start + i * 4);
  for (let i = 16; i < 64; i++) {
    const [a, b] = [words[i - 15]!, words[i - 2]!];
    const s0 = turned(a, 7) ^ turned(a, 18) ^ (a >>> 3);
    const s1 = turned(b, 17) ^ turned(b, 19) ^ (b >>> 10);
    words[i] = words[i - 16]! + s0 + words[i - 7]! + s1;
  }
  let [a, b, c, d, e, f, g, h] = state as unknown as Eight;
  for (let i = 0; i < 64; i++) {
    const one = (h + (turned(e, 6) ^ turned(e, 11) ^ turned(e, 25)) + ((e & f) ^ (~e & g)) + ROUND[i]! + words[i]!) | 0;
    const two = ((turned(a, 2) ^ turned(a, 13) ^ turned(a, 22)) + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + one) | 0, c, b, a, (one + two) | 0];
  }
  [a, b, c, d, e, f, g, h].forEach((word, i) => (state[i] = state[i]! + word));
}

type Eight = [number, number, number, number, number, number, number, number];
const turned = (word: number, by: number): number => (word >>> by) | (word << (32 - by));

/** The fractional parts of roots of the first primes, 32 bits of each, as the standard defines its constants. */
function rootBits(prime: number, root: 2 | 3): number {
  const scaled = BigInt(prime) << BigInt(32 * root);
  let [low, high] = [0n, 1n << 40n];
  while (high - low > 1n) {
    const middle = (low + high) >> 1n;
    if (middle ** BigInt(root) <= scaled) low = middle;
    else high = middle;
  }
  return Number(low & 0xffffffffn);
}

function firstPrimes(n: number): number[] {
  const primes: number[] = [];
  for (let each = 2; primes.length < n; each++) if (primes.every((prime) => each % prime)) primes.push(each);
  return primes;
}

const PRIMES = firstPrimes(64);
const ROUND = PRIMES.map((prime) => rootBits(prime, 3));
const FIRST = PRIMES.slice(0, 8).map((prime) => rootBits(prime, 2));
