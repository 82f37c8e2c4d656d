/** A job as the log has it: its entries, the document that they fold to, and what the core makes of it. */
import { InputError, type Job, loadJob } from "../core/index.ts";
import { createFold, type Fold, type Json } from "../core/log/index.ts";
import type { JobLine, Keeper } from "../store/index.ts";

/** Jobs asked of a keeper at a time. */
const PAGE_OF_JOBS = 200;

export interface JobInLog {
  readonly id: string;
  readonly fold: Fold;
  /** The document. */
  readonly data: Readonly<Record<string, Json>>;
}

/** The job's fold, without an entry in it if the log does not know the job. */
export async function foldOfJob(keeper: Keeper, id: string): Promise<Fold> {
  return createFold(await keeper.entriesOf(id));
}

/** @throws InputError naming jobs that there are, unless the log has this one */
export async function jobInLog(keeper: Keeper, id: string): Promise<JobInLog> {
  const fold = await foldOfJob(keeper, id);
  if (fold.entries.size > 0) return { id, fold, data: fold.read().data };
  const { total, jobs } = await keeper.jobs({ limit: 5 });
  const some = jobs.map((job) => job.id).join(", ");
  const remedy = total === 0 ? "Bring one in: fettle import FILE" : `Use one of ${some}${total > 5 ? ", …" : ""}`;
  throw new InputError(id.slice(0, 60), "is not a job of this log", remedy);
}

/** @throws InputError if the document is not whole enough to ask anything about */
export async function loadedJob(keeper: Keeper, id: string): Promise<Job> {
  return loadJob((await jobInLog(keeper, id)).data, new Date().toISOString());
}

/** Every job, last changed first. */
export async function allJobs(keeper: Keeper, search = ""): Promise<JobLine[]> {
  const all: JobLine[] = [];
  for (;;) {
    const { total, jobs } = await keeper.jobs({ search, offset: all.length, limit: PAGE_OF_JOBS });
    all.push(...jobs);
    if (jobs.length === 0 || all.length >= total) return all;
  }
}

/** The document's title, or its id where it has none. */
export function titleOf(data: Readonly<Record<string, Json>>, id: string): string {
  const { job } = data;
  const title = typeof job === "object" && job !== null && "title" in job ? job.title : undefined;
  return typeof title === "string" && title !== "" ? title : id;
}
