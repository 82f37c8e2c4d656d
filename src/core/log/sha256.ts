/**
 * SHA-256 of bytes. A page that is opened over plain http in the workshop has no digest of its own to ask.
 * Source: FIPS 180-4, sections 4.1.2, 4.2.2, 5.1.1, 5.3.3 and 6.2 (from memory; checked against its examples in the tests).
 */

const BLOCK = 64;
const LENGTH_BYTES = 8;

/** First 32 bits of the fractional parts of a root of the first primes: square roots to start from, cube roots per round. */
const START = rootsOfPrimes(8, 1 / 2);
const ROUNDS = rootsOfPrimes(64, 1 / 3);

/**
 * @returns 64 hexadecimal digits in small letters
 * @example
 * sha256(new Uint8Array(0)); // "e3b0c442…"
 */
export function sha256(bytes: Uint8Array): string {
  const state = Uint32Array.from(START);
  const schedule = new Uint32Array(ROUNDS.length);
  const whole = bytes.length - (bytes.length % BLOCK);
  for (let offset = 0; offset < whole; offset += BLOCK) mix(state, schedule, bytes, offset);
  const tail = padded(bytes.subarray(whole), bytes.length);
  for (let offset = 0; offset < tail.length; offset += BLOCK) mix(state, schedule, tail, offset);
  return [...state].map((word) => word.toString(16).padStart(8, "0")).join("");
}

/** What is left after the last whole block: a one bit, noughts, and the length in bits. */
function padded(rest: Uint8Array, length: number): Uint8Array {
  const tail = new Uint8Array(rest.length + 1 + LENGTH_BYTES > BLOCK ? 2 * BLOCK : BLOCK);
  tail.set(rest);
  tail[rest.length] = 0x80;
  const view = new DataView(tail.buffer);
  view.setUint32(tail.length - 8, Math.floor(length / 2 ** 29));
  view.setUint32(tail.length - 4, (length * 8) >>> 0);
  return tail;
}

function mix(state: Uint32Array, w: Uint32Array, bytes: Uint8Array, offset: number): void {
  const at = (words: Uint32Array, index: number): number => words[index] as number;
  for (let t = 0, byte = offset; t < 16; t += 1, byte += 4) {
    const [b0, b1, b2, b3] = [bytes[byte], bytes[byte + 1], bytes[byte + 2], bytes[byte + 3]] as number[];
    w[t] = ((b0 as number) << 24) | ((b1 as number) << 16) | ((b2 as number) << 8) | (b3 as number);
  }
  for (let t = 16; t < w.length; t += 1) {
    const [back2, back15] = [at(w, t - 2), at(w, t - 15)];
    const s1 = turned(back2, 17) ^ turned(back2, 19) ^ (back2 >>> 10);
    const s0 = turned(back15, 7) ^ turned(back15, 18) ^ (back15 >>> 3);
    w[t] = s1 + at(w, t - 7) + s0 + at(w, t - 16);
  }
  let [a, b, c, d, e, f, g, h] = state as unknown as [number, number, number, number, number, number, number, number];
  for (let t = 0; t < w.length; t += 1) {
    const s1 = turned(e, 6) ^ turned(e, 11) ^ turned(e, 25);
    const t1 = (h + s1 + ((e & f) ^ (~e & g)) + at(ROUNDS, t) + at(w, t)) | 0;
    const s0 = turned(a, 2) ^ turned(a, 13) ^ turned(a, 22);
    const t2 = (s0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + t1) | 0, c, b, a, (t1 + t2) | 0];
  }
  [a, b, c, d, e, f, g, h].forEach((word, index) => {
    state[index] = at(state, index) + word;
  });
}

function turned(word: number, by: number): number {
  return (word >>> by) | (word << (32 - by));
}

function rootsOfPrimes(count: number, power: number): Uint32Array {
  const primes: number[] = [];
  for (let number = 2; primes.length < count; number += 1)
    if (primes.every((prime) => number % prime !== 0)) primes.push(number);
  return Uint32Array.from(primes, (prime) => Math.floor((prime ** power % 1) * 2 ** 32));
}
