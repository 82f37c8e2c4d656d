/**
 * Puts an archive into a log. What the log has already stays as it is, so twice is once, and a log that went on meanwhile
 * loses nothing. The archive is read through once before anything of it is written.
 */
import { createHash } from "node:crypto";
import { basename } from "node:path";
import { InputError } from "../core/errors.ts";
import { checkedEntry, type LogEntry } from "../core/log/index.ts";
import { type Keeper, MOST_PHOTOGRAPH_BYTES, type Photograph } from "../store/index.ts";
import { ARCHIVE_VERSION } from "./archive.ts";
import { boundedJson, shown } from "./bounded-json.ts";
import { photographFromJson } from "./job-bundle.ts";
import { linesOf } from "./lines-of-file.ts";

/** The longest photograph as base64, and what stands around it. */
const LONGEST_LINE = Math.ceil(MOST_PHOTOGRAPH_BYTES / 3) * 4 + 1000;

const BATCH = 500;

const REMEDY = "Use another copy of the archive; nothing was changed";

export interface BroughtBack {
  readonly entries: number;
  /** Of these the log did not have. */
  readonly added: number;
  readonly photographs: number;
}

/** @throws InputError naming the line at which the archive is damaged or cut off; then the log has not changed */
export async function bringBack(keeper: Keeper, path: string): Promise<BroughtBack> {
  let photographs = 0;
  // Read to its end first, in which it is compared with its own sum.
  for await (const item of itemsOf(path)) if ("photograph" in item) photographs += 1;

  let [entries, added] = [0, 0];
  let waiting: LogEntry[] = [];
  const write = async (): Promise<void> => {
    const kept = await keeper.append(waiting);
    added += kept.added;
    entries += waiting.length;
    waiting = [];
  };
  for await (const item of itemsOf(path)) {
    if ("photograph" in item) await keeper.keepPhotograph(item.photograph);
    else if (waiting.push(item.entry) >= BATCH) await write();
  }
  if (waiting.length > 0) await write();
  return { entries, added, photographs };
}

type Item = { readonly entry: LogEntry } | { readonly photograph: Photograph };

/** Everything in the archive, checked; ends only if the archive's own last line agrees with what came before. */
async function* itemsOf(path: string): AsyncGenerator<Item> {
  const name = basename(path);
  const sum = createHash("sha256");
  const counts = { entries: 0, photographs: 0 };
  let last = 0;
  let ended = false;
  for await (const { number, text, bytes, cutOff } of linesOf(path, name, LONGEST_LINE)) {
    const where = `${name}, line ${number}`;
    last = number;
    if (ended) throw new InputError(where, "stands after the archive's end", REMEDY);
    if (number === 1) {
      requireHead(text, where);
      sum.update(bytes);
      continue;
    }
    if (cutOff) throw cutOffAfter(name, number - 1);
    const line = oneField(boundedJson(text, where, REMEDY), where);
    if (line.key === "end") {
      requireEnd(line.value, { ...counts, sha256: sum.digest("hex") }, where);
      ended = true;
      continue;
    }
    sum.update(bytes);
    if (line.key === "entry") {
      counts.entries += 1;
      yield { entry: checkedEntry(line.value, where) };
    } else if (line.key === "photograph") {
      counts.photographs += 1;
      yield { photograph: photographFromJson(line.value, where) };
    } else throw new InputError(where, "is not a line of an archive", REMEDY);
  }
  if (!ended) throw cutOffAfter(name, last);
}

function cutOffAfter(name: string, line: number): InputError {
  return new InputError(name, `is cut off after line ${line}`, REMEDY);
}

function requireHead(text: string, where: string): void {
  const remedy = "Give a file that `fettle archive` wrote";
  // What is no archive may be a whole picture on one line.
  const head = text.length > 1000 ? undefined : boundedJson(text, where, remedy);
  if (typeof head !== "object" || head === null || !("fettleArchive" in head))
    throw new InputError(where, "does not say that this is an archive", remedy);
  const version = head.fettleArchive;
  if (version === ARCHIVE_VERSION) return;
  throw new InputError(where, `says version ${shown(version)} of an archive`, "Bring it back with a newer Fettle");
}

function oneField(line: unknown, where: string): { key: string; value: unknown } {
  const fields = typeof line === "object" && line !== null ? Object.entries(line) : [];
  const [field] = fields;
  if (!field || fields.length > 1) throw new InputError(where, "is not a line of an archive", REMEDY);
  return { key: field[0], value: field[1] };
}

interface Counted {
  readonly entries: number;
  readonly photographs: number;
  readonly sha256: string;
}

function requireEnd(said: unknown, seen: Counted, where: string): void {
  const { entries, photographs, sha256 } = typeof said === "object" && said !== null ? (said as Partial<Counted>) : {};
  if (entries !== seen.entries || photographs !== seen.photographs)
    throw new InputError(
      where,
      `speaks of ${shown(entries)} entries and ${shown(photographs)} photographs, but ${seen.entries} and ${seen.photographs} stand before it`,
      REMEDY,
    );
  if (sha256 !== seen.sha256)
    throw new InputError(where, "does not agree with the lines before it: one of them was changed", REMEDY);
}
