/** How many holes a job may have: the walls between all of them are worked out, so the work grows with their square. */
import { InputError } from "../errors.ts";
import type { Instrument } from "./instrument.ts";
import type { JobFile } from "./schema.ts";

/** Several times what any instrument has, and answered in a few seconds. */
const MOST_HOLES = 400;

/** @throws InputError at the place that has the most of them */
export function requireFewHoles({ body, bridge }: Instrument, file: JobFile): void {
  const pieces = [...(bridge?.pieces ?? []), ...(bridge?.tailpiece ? [bridge.tailpiece] : [])];
  const drilled = (file.operations ?? []).map((entry) =>
    "work" in entry && entry.work.act === "drill" ? entry.work.holes.length : 0,
  );
  const counts: readonly (readonly [string, number])[] = [
    ["instrument.body.holes", body.holes.length],
    ["instrument.body.neckScrews", body.neckScrews.length],
    [`parts.${bridge?.partId ?? "bridge"}`, sum(pieces.map((piece) => piece.screws.length + piece.stringHoles.length))],
    ["operations", sum(drilled)],
  ];
  const all = sum(counts.map(([, count]) => count));
  if (all <= MOST_HOLES) return;
  const [where, most] = counts.reduce((worst, one) => (one[1] > worst[1] ? one : worst));
  throw new InputError(
    where,
    `the job has ${all} holes, ${most} of them here; ${MOST_HOLES} are the most that are worked with`,
    "Leave out holes that stand far from the work",
  );
}

function sum(counts: readonly number[]): number {
  return counts.reduce((total, count) => total + count, 0);
}
