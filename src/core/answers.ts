/** A job read from plain data, its questions, and a verdict on each. */
import { InputError } from "./errors.ts";
import {
  type Instrument,
  type KeptSection,
  type ParsedJob,
  parseJob,
  type Resolved,
  resolveActual,
} from "./job/index.ts";
import { createLedger, type Ledger } from "./ledger/index.ts";
import { questionsAbout } from "./questions/index.ts";
import type { Verdict } from "./verdict/index.ts";

export interface Job {
  readonly title: string;
  readonly id: string;
  readonly parsed: ParsedJob;
  readonly resolved: Resolved;
  readonly instrument: Instrument;
  /** Sections kept unread because a newer program wrote them. */
  readonly kept: readonly KeptSection[];
}

export interface QuestionName {
  readonly id: string;
  readonly question: string;
}

/**
 * A job from a document already read as plain data.
 *
 * @param at the present as ISO time, for what takes its time (glue); the core has no clock: without it the latest act is now
 * @throws InputError naming the path of the first value that is wrong
 */
export function loadJob(data: unknown, at?: string): Job {
  const parsed = parseJob(data);
  const resolved = resolveActual(parsed.file, at === undefined ? {} : { at });
  const { instrument } = resolved;
  return { title: instrument.title, id: instrument.id, parsed, resolved, instrument, kept: parsed.kept };
}

export function questionsOf(job: Job): readonly QuestionName[] {
  return questionsAbout(job.instrument).map(({ id, question }) => ({ id, question }));
}

/**
 * Every question of the job, answered, in the order in which they are asked.
 *
 * @param ledger keep one and pass it again: a question none of whose values changed keeps its verdict
 */
export function assess(job: Job, ledger: Ledger<Instrument> = createLedger()): readonly Verdict[] {
  return ledger.ask(questionsAbout(job.instrument), job.instrument).verdicts;
}

/** One question, answered. @throws InputError if the job has no such question */
export function ask(job: Job, id: string): Verdict {
  const question = questionsAbout(job.instrument).find((item) => item.id === id);
  const verdict = question && createLedger<Instrument>().ask([question], job.instrument).verdicts[0];
  if (!verdict) throw new InputError(id, "is not a question of this job", "List the questions");
  return verdict;
}
