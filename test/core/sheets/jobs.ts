/** Jobs of the fixtures, changed in one place, and their traveller in plain words. */
import { readFileSync } from "node:fs";
import { parse } from "yaml";
import type { Words } from "../../../src/core/drawing/index.ts";
import { ask, type Job, loadJob, travellerOf } from "../../../src/core/index.ts";
import type { Step, Traveller } from "../../../src/core/plan/index.ts";
import { showPhrase } from "../../../src/core/quantity/index.ts";
import type { PaperSet } from "../../../src/core/sheets/index.ts";

/** @param change text of the file to text; each pair has to be found, so that a test cannot pass by missing it */
export function fixtureJob(name: string, ...change: readonly (readonly [string, string])[]): Job {
  const file = /^(lowtide|ferry)$/.test(name) ? `examples/${name}.yaml` : `test/fixtures/jobs/${name}.yaml`;
  const text = change.reduce(
    (before, [from, to]) => {
      if (!before.includes(from)) throw new Error(`${name} has no “${from}”`);
      return before.replace(from, to);
    },
    readFileSync(file, "utf8"),
  );
  return loadJob(parse(text));
}

/** The traveller on these answers alone: the others say nothing about what the tests look at. */
export function travellerOn(job: Job, ...questions: readonly string[]): Traveller {
  return travellerOf(
    job,
    questions.map((id) => ask(job, id)),
  );
}

export function stepIn({ steps }: Traveller, id: string): Step {
  const found = steps.find((step) => step.id === id);
  if (!found) throw new Error(`no step ${id} among ${steps.map((step) => step.id).join(", ")}`);
  return found;
}

/** All that a step tells the person at the bench, line by line. */
export function linesOf(step: Step): readonly string[] {
  return [
    step.title,
    ...step.tools.map(({ text }) => text),
    ...step.instructions,
    ...(step.rehearsal ? [step.rehearsal] : []),
  ].map((words) => showPhrase(words));
}

/** Every word of the marking-out list; table rows as "a | b | c". */
export function listOf(sets: readonly PaperSet[]): string {
  const document = sets.find(({ id }) => id === "marking-out")?.documents[0];
  if (document?.kind !== "text") throw new Error("no marking-out list");
  const shown = (words: Words | undefined) =>
    words === undefined ? "" : typeof words === "string" ? words : showPhrase(words);
  return document.blocks
    .flatMap((block) => {
      if (block.kind === "table")
        return block.table.rows.map((row) =>
          row
            .map((cell) => (typeof cell === "object" && "value" in cell ? showPhrase([cell]) : shown(cell)))
            .join(" | "),
        );
      return "words" in block ? [shown(block.words)] : [];
    })
    .join("\n");
}
