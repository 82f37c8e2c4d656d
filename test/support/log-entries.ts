/** Entries and photographs for tests of what keeps and exchanges them. */
import { createHash } from "node:crypto";
import type { Json, LogEntry } from "../../src/core/log/index.ts";
import type { Photograph } from "../../src/store/index.ts";

const START = Date.UTC(2026, 2, 1, 8);

/** ISO time so many minutes into the morning of the tests. */
export function timeAt(minutes: number): string {
  return new Date(START + minutes * 60_000).toISOString();
}

/** One entry; without a value, a taking away. */
export function entryAt(
  number: number,
  path: string,
  value?: Json,
  { device = "bench", job = "lowtide", at = timeAt(number) } = {},
): LogEntry {
  const id = `${device}.${number.toString(36).padStart(8, "0")}`;
  return { id, job, device, at, act: id, path, over: [], ...(value === undefined ? {} : { value }) };
}

export function titleAt(number: number, title: string | undefined, job: string, more = {}): LogEntry {
  return entryAt(number, "/job/title", title, { job, ...more });
}

/** First bytes as the picture formats have them, then as many as wanted. */
const HEADS: Readonly<Record<Photograph["type"], readonly number[]>> = {
  "image/jpeg": [0xff, 0xd8, 0xff, 0xe0],
  "image/png": [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a],
  "image/webp": [0x52, 0x49, 0x46, 0x46, 1, 0, 0, 0, 0x57, 0x45, 0x42, 0x50],
};

export function pictureOf(type: Photograph["type"], seed: number, size = 40): Photograph {
  const bytes = new Uint8Array(size);
  for (let index = 0; index < size; index += 1) bytes[index] = index * 7 + seed;
  bytes.set(HEADS[type]);
  return { hash: hashOf(bytes), type, bytes };
}

export function hashOf(bytes: Uint8Array): string {
  return createHash("sha256").update(bytes).digest("hex");
}

/** Numbers from 0 to below 1, the same for the same seed (a linear congruence, enough to vary a test). */
export function numbersFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}
