/**
 * One job in one file: the document as it stands, the entries that it is the fold of, and the photographs that they
 * speak of. The entries are what counts when it is read; the document is there for people and other programs, and has to
 * agree with them.
 */
import { InputError } from "../core/errors.ts";
import { checkedEntry, createFold, isJobId, type Json, type LogEntry, sameJson } from "../core/log/index.ts";
import type { Keeper, Photograph } from "../store/index.ts";
import { boundedJson, shown } from "./bounded-json.ts";
import { checkedPhotograph } from "./checked-photograph.ts";
import { jobInLog, titleOf } from "./job-in-log.ts";

const VERSION = 1;

/** One text has to hold it while it is read. */
export const MOST_BUNDLE_BYTES = 256_000_000;

export const BUNDLE_REMEDY = "Export the job again and use that file";

export interface Bundle {
  readonly job: string;
  readonly title: string;
  readonly entries: readonly LogEntry[];
  readonly photographs: readonly Photograph[];
}

/**
 * The bundle's text, piece by piece: a photograph at a time is held.
 *
 * @throws InputError if the log does not have the job, or it has grown too large for one file
 */
export async function* bundleText(keeper: Keeper, job: string): AsyncGenerator<string> {
  const { fold, data } = await jobInLog(keeper, job);
  let length = 0;
  const counted = (piece: string): string => {
    length += piece.length;
    if (length <= MOST_BUNDLE_BYTES) return piece;
    throw new InputError(job, "is too large for one file", "Keep it with an archive: fettle archive --out FILE");
  };
  const entries = [...fold.entries.values()];
  const head = { fettleBundle: VERSION, job, title: titleOf(data, job), document: data };
  yield counted(`${JSON.stringify(head).slice(0, -1)},\n"entries":[`);
  for (const [index, entry] of entries.entries()) yield counted(`${index > 0 ? "," : ""}\n${JSON.stringify(entry)}`);
  yield counted('],\n"photographs":[');
  let first = true;
  for (const hash of await photographsOf(keeper, entries)) {
    const photograph = await keeper.photograph(hash);
    if (!photograph) continue;
    yield counted(`${first ? "" : ","}\n${JSON.stringify(photographAsJson(photograph))}`);
    first = false;
  }
  yield "]}\n";
}

/** Photographs that some entry names, in its value or its path, whatever it says of them. */
async function photographsOf(keeper: Keeper, entries: readonly LogEntry[]): Promise<string[]> {
  const text = entries.map(({ path, value }) => `${path} ${JSON.stringify(value) ?? ""}`).join("\n");
  const named = new Set(text.match(/(?<![0-9a-f])[0-9a-f]{64}(?![0-9a-f])/g));
  return (await keeper.photographs()).filter((hash) => named.has(hash)).sort();
}

export function photographAsJson({ hash, type, bytes }: Photograph): Record<string, string> {
  return { hash, type, base64: Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString("base64") };
}

/** @throws InputError unless it is a whole photograph of its name */
export function photographFromJson(given: unknown, where: string): Photograph {
  const { hash, base64 } = isMapping(given) ? given : {};
  if (typeof hash !== "string" || typeof base64 !== "string" || !/^[A-Za-z0-9+/]*={0,2}$/.test(base64))
    throw new InputError(where, "is not a photograph", "Use another copy of the file");
  return checkedPhotograph(hash, Buffer.from(base64, "base64"), where);
}

/** Whether the beginning of a text is that of a bundle as this program writes it. */
export function beginsLikeBundle(text: string): boolean {
  return /^\s*\{\s*"fettleBundle"\s*:/.test(text);
}

/** @throws InputError naming the first thing that is wrong; nothing of a damaged bundle is used */
export function readBundle(text: string, name: string): Bundle {
  const refuse = (problem: string, remedy = BUNDLE_REMEDY): never => {
    throw new InputError(name, problem, remedy);
  };
  const data = boundedJson(text, name, BUNDLE_REMEDY);
  if (!isMapping(data) || !("fettleBundle" in data)) return refuse("is not a bundle of a job");
  if (data.fettleBundle !== VERSION)
    refuse(`is a bundle of version ${shown(data.fettleBundle)}`, "Open it with a newer Fettle");
  const { job, document } = data;
  if (typeof job !== "string" || !isJobId(job)) return refuse("does not name its job");
  if (!Array.isArray(data.entries) || data.entries.length === 0) return refuse("has no entries");
  if (!Array.isArray(data.photographs)) return refuse("has no list of photographs");
  const entries = data.entries.map((given: unknown, index) => {
    const entry = checkedEntry(given, `${name}, entries[${index}]`);
    return entry.job === job ? entry : refuse(`entries[${index}] belongs to another job, ${entry.job}`);
  });
  const photographs = data.photographs.map((given: unknown, index) =>
    photographFromJson(given, `${name}, photographs[${index}]`),
  );
  const folded = createFold(entries).read().data;
  if (!sameJson(document as Json | undefined, folded))
    refuse(
      "was changed by hand: its document is not what its entries say",
      "Export the job as .yaml, change that, and import it",
    );
  return { job, title: titleOf(folded, job), entries, photographs };
}

function isMapping(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
