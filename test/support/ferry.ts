/** The demo job in a log of its own. */
import { mkdtemp, readFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { importFile } from "../../src/app/import-job.ts";
import { parseJobText } from "../../src/app/job-files.ts";
import type { Json } from "../../src/core/log/index.ts";
import type { Keeper } from "../../src/store/index.ts";
import { memoryKeeper } from "./memory-keeper.ts";

export const FERRY = "examples/ferry.yaml";
export const FERRY_ID = "B-112";
export const NOW = new Date("2026-11-25T12:00:00.000Z");

export async function ferryData(): Promise<Record<string, Json>> {
  return parseJobText(await readFile(FERRY, "utf8"), FERRY).data as Record<string, Json>;
}

export async function keeperWithFerry(): Promise<Keeper> {
  const keeper = memoryKeeper();
  await importFile(keeper, FERRY, NOW);
  return keeper;
}

export function newFolder(): Promise<string> {
  return mkdtemp(join(tmpdir(), "fettle-log-"));
}

/** Everything that a keeper holds, in an order of its own. */
export async function allOf(keeper: Keeper) {
  const { entries } = await keeper.since(0, 100_000);
  return {
    entries: [...entries].sort((a, b) => (a.id < b.id ? -1 : 1)),
    photographs: (await keeper.photographs()).sort(),
  };
}
