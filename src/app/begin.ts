/** A job begun from one question: grown from a few readings, and that question answered. */
import { type Answers, type GrownJob, growJob, STARTERS, type Starter } from "../core/begin/index.ts";
import { ask, InputError, loadJob, questionsOf } from "../core/index.ts";
import type { Phrase } from "../core/quantity/index.ts";
import type { Verdict } from "../core/verdict/index.ts";

export interface BegunJob extends GrownJob {
  /** The deciding one first. */
  readonly verdicts: readonly Verdict[];
}

/** By its id or by its number in the list. @throws InputError if there is no such beginning */
export function starterNamed(name: string, where: string): Starter {
  const wanted = name.trim().toLowerCase();
  const starter = STARTERS.find(({ id }, index) => id === wanted || String(index + 1) === wanted);
  if (starter) return starter;
  throw new InputError(
    where,
    `there is no question "${name.slice(0, 60)}" to begin with`,
    `Use a number from 1 to ${STARTERS.length}, or one of ${STARTERS.map(({ id }) => id).join(", ")}`,
  );
}

/** @throws InputError whose `where` is the entry that cannot be read */
export function beginJob(starter: Starter, answers: Answers): BegunJob {
  const grown = growJob(starter.id, answers);
  const job = loadJob(grown.data);
  const known = new Set(questionsOf(job).map(({ id }) => id));
  return { ...grown, verdicts: starter.questions.filter((id) => known.has(id)).map((id) => ask(job, id)) };
}

/** How one entry is read, given those before it. @throws InputError if it cannot be */
export function readBack(starter: Starter, entry: string, answers: Answers): Phrase | undefined {
  return growJob(starter.id, answers).reads[entry];
}
