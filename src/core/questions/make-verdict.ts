/** What every question file needs to answer in the same manner. */
import type { Instrument } from "../job/index.ts";
import { chanceFigure, inWords, type Question } from "../ledger/index.ts";
import { type Phrase, type Quantity, say } from "../quantity/index.ts";
import type { Verdict } from "../verdict/index.ts";
import { missingReading } from "./how-to-measure.ts";

export type InstrumentQuestion = Question<Instrument>;

type Needed = Pick<Verdict, "id" | "question" | "status" | "headline">;

/** A verdict with the parts left out filled with nothing. */
export function makeVerdict(given: Needed & Partial<Verdict>): Verdict {
  return { detail: [], stake: 1, remedies: [], work: [], sums: [], shares: [], missing: [], figures: {}, ...given };
}

/**
 * The answer when values are missing: which, and how to get each. Never a guess. Values that one look at one thing gives
 * (every saddle's travel, every hole of a row) are one reading, asked for once.
 */
export function measureVerdict(
  question: { readonly id: string; readonly question: string; readonly stake: Verdict["stake"] },
  missing: readonly Quantity[],
  settles: string,
): Verdict {
  const all = missing.map((quantity) => missingReading(quantity, settles));
  const readings = [
    ...new Map([...all].reverse().map((reading) => [`${reading.what}, ${reading.how}`, reading])).values(),
  ].reverse();
  const first = readings[0];
  const whats = [...new Set(readings.map((reading) => reading.what))];
  return makeVerdict({
    ...question,
    status: "measure",
    headline: say`Not known yet: ${listed(whats)}. Measure before deciding.`,
    missing: readings,
    ...(first === undefined ? {} : { next: first }),
  });
}

/** "P 0.63, about 2 in 3". */
export function chance(probability: number): Phrase {
  return say`P ${chanceFigure(probability)}, ${inWords(probability)}`;
}

/** "a, b and c"; long lists end in a count. */
export function listed(items: readonly string[], most = 3): string {
  const shown = items.length > most + 1 ? [...items.slice(0, most), `${items.length - most} more`] : [...items];
  const last = shown.pop() ?? "";
  return shown.length === 0 ? last : `${shown.join(", ")} and ${last}`;
}
