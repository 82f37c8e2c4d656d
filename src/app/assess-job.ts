/** Use cases that read one job file and ask the core about it. */
import { ask, assess, InputError, type Job, loadJob, type QuestionName, questionsOf } from "../core/index.ts";
import type { Verdict } from "../core/verdict/index.ts";
import { type JobFile, readJobFile } from "./job-files.ts";

export interface OpenJob {
  readonly file: JobFile;
  readonly job: Job;
}

/** @throws InputError naming the file, and the line where it is known */
export async function openJob(path: string): Promise<OpenJob> {
  const file = await readJobFile(path);
  return { file, job: inFile(file, () => loadJob(file.data, new Date().toISOString())) };
}

/** All questions of the job, answered. */
export async function assessJob(path: string): Promise<OpenJob & { readonly verdicts: readonly Verdict[] }> {
  const { file, job } = await openJob(path);
  return { file, job, verdicts: inFile(file, () => assess(job)) };
}

/** One question, answered. */
export async function askJob(path: string, questionId: string): Promise<Verdict> {
  const { file, job } = await openJob(path);
  const known = questionsOf(job);
  if (!known.some(({ id }) => id === questionId)) {
    const near = known.filter(({ id }) => id.includes(questionId)).map(({ id }) => id);
    const remedy = near.length ? `Did you mean ${near.slice(0, 3).join(" or ")}` : `List them with: fettle ask ${path}`;
    throw new InputError(questionId, `is not a question of ${file.name}`, remedy);
  }
  return inFile(file, () => ask(job, questionId));
}

export async function questionsOfJob(path: string): Promise<readonly QuestionName[]> {
  return questionsOf((await openJob(path)).job);
}

/** Says in which file, and on which line, a refused value stands. */
export function inFile<T>(file: JobFile, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const line = file.lineOf(error.where);
    const place = line === undefined ? file.name : `${file.name}, line ${line}`;
    throw new InputError(`${place}, ${error.where}`, error.problem, error.remedy);
  }
}
