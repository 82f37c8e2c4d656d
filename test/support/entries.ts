/** Entries and photographs made for tests. */
import { createHash } from "node:crypto";
import type { Json, LogEntry } from "../../src/core/log/index.ts";
import type { Photograph } from "../../src/store/index.ts";

/** Entries of one path, each over the one before. */
export function entriesInARow(count: number, device = "bench1", value: (index: number) => Json = String): LogEntry[] {
  const id = (index: number) => `${device}.${index.toString(36).padStart(8, "0")}`;
  return Array.from({ length: count }, (_, index) => ({
    id: id(index),
    job: "J-1",
    device,
    at: new Date(Date.UTC(2026, 10, 25) + index).toISOString(),
    act: id(index),
    path: "/job/notes",
    value: value(index),
    over: index === 0 ? [] : [id(index - 1)],
  }));
}

const SIGNATURES = {
  "image/jpeg": [0xff, 0xd8, 0xff, 0xe0],
  "image/png": [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a],
  "image/webp": [0x52, 0x49, 0x46, 0x46, 4, 0, 0, 0, 0x57, 0x45, 0x42, 0x50],
} as const satisfies Record<Photograph["type"], readonly number[]>;

/** Only its first bytes are those of a picture. */
export function photograph(type: Photograph["type"], rest = "x", length = 0): Photograph {
  const bytes = Buffer.concat([Buffer.from(SIGNATURES[type]), Buffer.from(rest), Buffer.alloc(length)]);
  return { type, bytes, hash: createHash("sha256").update(bytes).digest("hex") };
}
