/**
 * The whole log in one file, a line to everything: what it is, each entry, each photograph, and at the end how many there
 * are and a sum over all lines before, so that a file that was cut off or damaged is noticed.
 */
import { createHash } from "node:crypto";
import type { Keeper } from "../store/index.ts";
import { photographAsJson } from "./job-bundle.ts";
import { logNameOf } from "./log-names.ts";

export const ARCHIVE_VERSION = 1;

/** Entries held at a time. */
const PAGE = 500;

export interface Archived {
  readonly entries: number;
  readonly photographs: number;
}

/** The archive's text, piece by piece; counts once it has come to its end. */
export async function* archiveText(keeper: Keeper, now: Date): AsyncGenerator<string, Archived> {
  const sum = createHash("sha256");
  const line = (value: unknown): string => {
    const text = `${JSON.stringify(value)}\n`;
    sum.update(text);
    return text;
  };
  yield line({ fettleArchive: ARCHIVE_VERSION, log: await logNameOf(keeper), made: now.toISOString() });
  let [entries, place, more] = [0, 0, true];
  while (more) {
    const page = await keeper.since(place, PAGE);
    ({ place, more } = page);
    entries += page.entries.length;
    yield page.entries.map((entry) => line({ entry })).join("");
  }
  let photographs = 0;
  // Asked for after the entries: what an entry speaks of is kept before the entry is.
  for (const hash of (await keeper.photographs()).sort()) {
    const photograph = await keeper.photograph(hash);
    if (!photograph) continue;
    photographs += 1;
    yield line({ photograph: photographAsJson(photograph) });
  }
  yield `${JSON.stringify({ end: { entries, photographs, sha256: sum.digest("hex") } })}\n`;
  return { entries, photographs };
}
