/** A reading that a step asks for, as the page may show it: what was expected stays hidden until it has been read. */
import { figure, mm, type Phrase, say } from "../quantity/index.ts";
import { agreementOf } from "./agreement.ts";
import type { AskedReading, TakenReading } from "./types.ts";

export interface ReadingView {
  readonly asked: Omit<AskedReading, "expected">;
  readonly taken: readonly TakenReading[];
  /** All readings that were asked for are in, and those asked for twice agree. */
  readonly complete: boolean;
  /** Only once it is complete: a person who knows the answer reads the answer. */
  readonly expected?: { readonly value: number; readonly tolerance: number };
  /** Against what was expected; left out where nothing was, or while hidden. */
  readonly within?: boolean;
  /** Why it is not complete, or not as expected. */
  readonly problem?: Phrase;
}

export function viewReading(asked: AskedReading, readings: readonly TakenReading[]): ReadingView {
  const { expected, ...shown } = asked;
  const taken = readings.filter((reading) => reading.subject === asked.subject);
  const missing = incomplete(asked, taken);
  if (missing) return { asked: shown, taken, complete: false, problem: missing };
  if (expected === undefined) return { asked: shown, taken, complete: true };
  const { agreeing } = agreementOf(taken);
  const mean = agreeing.reduce((sum, reading) => sum + reading.value, 0) / agreeing.length;
  const within = Math.abs(mean - expected.value) <= expected.tolerance + 1e-9;
  const view: ReadingView = { asked: shown, taken, complete: true, expected, within };
  if (within) return view;
  return {
    ...view,
    problem: say`${asked.what}: you read ${shownValue(mean, asked.unit)}, the plan was made with ${shownValue(expected.value, asked.unit)} ± ${shownValue(expected.tolerance, asked.unit)}`,
  };
}

function incomplete(asked: AskedReading, taken: readonly TakenReading[]): Phrase | undefined {
  if (taken.length === 0)
    return asked.answer === "confirm" ? say`${asked.what}: not confirmed` : say`${asked.what}: not read`;
  if (!asked.twice) return undefined;
  const { agreeing, independent, majority } = agreementOf(taken);
  if (taken.length < 2) return say`${asked.what}: read once, two readings wanted`;
  if (agreeing.length < 2 || !majority) return say`${asked.what}: the readings do not agree`;
  return independent ? undefined : say`${asked.what}: the readings are not independent`;
}

function shownValue(value: number, unit: string): Phrase {
  if (unit === "mm") return say`${mm(value)}`;
  // Ohms run from parts of one to thousands: three digits are what a meter is good for.
  const digits = Math.abs(value) >= 100 ? 0 : Math.abs(value) >= 10 ? 1 : 2;
  return say`${figure(value, unit, digits)}`;
}
