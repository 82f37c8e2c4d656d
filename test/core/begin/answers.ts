/** A beginning taken to its answers, for tests of the numbers. */
import { type Answers, growJob } from "../../../src/core/begin/index.ts";
import { ask, type Job, loadJob } from "../../../src/core/index.ts";
import { type Phrase, showPhrase } from "../../../src/core/quantity/index.ts";
import type { Verdict } from "../../../src/core/verdict/index.ts";

export interface Answered {
  readonly job: Job;
  readonly verdict: Verdict;
  readonly headline: string;
  readonly detail: readonly string[];
  readonly notes: readonly string[];
}

export function answered(starter: string, answers: Answers, question: string): Answered {
  const { data, notes } = growJob(starter, answers);
  const job = loadJob(data);
  const verdict = ask(job, question);
  const plain = (phrases: readonly Phrase[]) => phrases.map((phrase) => showPhrase(phrase));
  return { job, verdict, headline: showPhrase(verdict.headline), detail: plain(verdict.detail), notes: plain(notes) };
}
