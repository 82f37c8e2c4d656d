/** Brings a file into the log: a job written as YAML or JSON, or the bundle of a job. Twice is once. */
import { open, readFile, stat } from "node:fs/promises";
import { basename } from "node:path";
import { InputError } from "../core/errors.ts";
import { checkedEntry, entriesFor, isJobId, type Json, sameJson } from "../core/log/index.ts";
import type { Keeper } from "../store/index.ts";
import { openJob } from "./assess-job.ts";
import { BUNDLE_REMEDY, beginsLikeBundle, MOST_BUNDLE_BYTES, readBundle } from "./job-bundle.ts";
import { allJobs, foldOfJob, titleOf } from "./job-in-log.ts";
import { randomLetters, writingName } from "./log-names.ts";

export interface Imported {
  readonly id: string;
  readonly title: string;
  /** Entries that the log did not have. */
  readonly added: number;
  /** The log did not know the job before. */
  readonly fresh: boolean;
  /** The file does not say an id that can be used, so a changed file will come in as another job. */
  readonly unnamed: boolean;
}

/** @throws InputError naming the file and what is wrong with it; then the log has not changed */
export async function importFile(keeper: Keeper, path: string, now: Date): Promise<Imported> {
  if (await isBundle(path)) return importBundle(keeper, path);
  const { file } = await openJob(path);
  const data = plainJson(file.data, file.name) as Readonly<Record<string, Json>>;
  const stated = statedId(data);
  const id = stated ?? (await sameInLog(keeper, data)) ?? newId(titleOf(data, "job"));
  return { ...(await writeDocument(keeper, id, data, file.name, now)), unnamed: stated === undefined };
}

async function writeDocument(
  keeper: Keeper,
  id: string,
  data: Readonly<Record<string, Json>>,
  fileName: string,
  now: Date,
): Promise<Omit<Imported, "unnamed">> {
  const fold = await foldOfJob(keeper, id);
  const stamp = {
    job: id,
    device: await writingName(keeper),
    from: 1,
    // What is known of is never later than what is written in knowledge of it.
    at: [now.toISOString(), fold.latest].sort().at(-1) ?? "",
  };
  const words = `imported ${fileName.slice(0, 200)}`;
  const entries = entriesFor(fold, stamp, words, [{ path: "", value: data }]);
  // Our own entries have to pass where others' do, or no other device would take them.
  for (const entry of entries) checkedEntry(entry, `${fileName}, ${entry.path}`);
  if (entries.length > 0) await keeper.append(entries);
  return { id, title: titleOf(data, id), added: entries.length, fresh: fold.entries.size === 0 };
}

async function importBundle(keeper: Keeper, path: string): Promise<Imported> {
  const { size } = await stat(path);
  const name = basename(path);
  if (size > MOST_BUNDLE_BYTES) throw new InputError(name, `is larger than ${MOST_BUNDLE_BYTES} bytes`, BUNDLE_REMEDY);
  const { job, title, entries, photographs } = readBundle(await readFile(path, "utf8"), name);
  const fresh = (await foldOfJob(keeper, job)).entries.size === 0;
  for (const photograph of photographs) await keeper.keepPhotograph(photograph);
  const { added } = await keeper.append(entries);
  return { id: job, title, added, fresh, unnamed: false };
}

/** By its name, or by how it begins. A file that cannot be opened is left to the reader of job files to speak of. */
async function isBundle(path: string): Promise<boolean> {
  const file = await open(path, "r").catch(() => undefined);
  if (!file) return false;
  try {
    if (!(await file.stat()).isFile()) return false;
    if (path.toLowerCase().endsWith(".fettle.json")) return true;
    const { bytesRead, buffer } = await file.read(Buffer.alloc(200), 0, 200, 0);
    return beginsLikeBundle(buffer.subarray(0, bytesRead).toString("utf8"));
  } finally {
    await file.close();
  }
}

function statedId(data: Readonly<Record<string, Json>>): string | undefined {
  const { job } = data;
  const id = typeof job === "object" && job !== null && "id" in job ? job.id : undefined;
  return typeof id === "string" && isJobId(id) ? id : undefined;
}

/** A file without an id, imported before and not changed since, is the same job. */
async function sameInLog(keeper: Keeper, data: Readonly<Record<string, Json>>): Promise<string | undefined> {
  const title = titleOf(data, "");
  for (const { id, title: listed } of await allJobs(keeper, title)) {
    // A list may show less of a long title.
    if (title === "" ? listed !== "" : listed === "" || !title.startsWith(listed)) continue;
    const { data: kept } = (await foldOfJob(keeper, id)).read();
    if (sameJson(kept, data)) return id;
  }
  return undefined;
}

/** Letters of the title, and some drawn, so that two jobs of one title stay two. */
function newId(title: string): string {
  const plain = title
    .normalize("NFKD")
    .replace(/[^A-Za-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "");
  return `${plain.slice(0, 40) || "job"}-${randomLetters(6)}`;
}

/** YAML has values that a log cannot keep: numbers without end, and none. */
function plainJson(value: unknown, where: string): Json {
  if (typeof value === "number" && !Number.isFinite(value))
    throw new InputError(where, `holds ${value}, which is not a number`, "Write the figure, or leave it out");
  if (value === null || typeof value === "string" || typeof value === "number" || typeof value === "boolean")
    return value;
  if (Array.isArray(value)) return value.map((item) => plainJson(item, where));
  if (typeof value === "object")
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, plainJson(inner, where)]));
  throw new InputError(where, "holds a value that is neither text nor figure", "Write it as a text or a figure");
}
