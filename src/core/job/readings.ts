/**
 * Readings: the only home of measured values. Append-only; each says what it belongs to, which state it was taken in,
 * the tool, and where the rule was laid.
 *
 * The value used is the best consistent reading that is valid in the state asked about, else the data sheet, else the
 * assumed default. Two readings that disagree by more than twice their common uncertainty are a conflict: the best one
 * is used with its doubt widened to half the difference, and the conflict is told.
 * Source of the test of agreement: JCGM 100:2008, 5.1.2 for the difference; the factor 2 is k = 2, about 95 %.
 */
import { type Known, type Quantity, standardUncertainty } from "../quantity/index.ts";

export interface TakenReading {
  readonly id: string;
  /** Path of the value, e.g. "neck.nutToFret12". */
  readonly subject: string;
  readonly quantity: Known;
  readonly placing?: string;
  /** Operation after which it was read; undefined: as found. */
  readonly after?: string;
  readonly at?: string;
}

export interface Conflict {
  readonly subject: string;
  readonly readings: readonly string[];
  readonly differenceMm: number;
  readonly allowedMm: number;
}

const COVERAGE = 2;

/** Whether two readings of one thing agree within k = 2 of their difference. */
export function readingsAgree(a: Known, b: Known): boolean {
  return Math.abs(a.value - b.value) <= COVERAGE * Math.hypot(standardUncertainty(a), standardUncertainty(b)) + 1e-12;
}

/**
 * The value to use for one subject.
 *
 * @param readings valid readings of the subject, in the order taken
 * @param fallback what the file says without a reading
 */
export function bestValue(
  readings: readonly TakenReading[],
  fallback: Quantity,
): { readonly quantity: Quantity; readonly conflict?: Conflict } {
  const first = readings[0];
  if (!first) return { quantity: fallback };
  let best = first;
  for (const reading of readings) {
    // Of equally sharp readings the later one is used: the owner went back to it for a reason.
    if (standardUncertainty(reading.quantity) <= standardUncertainty(best.quantity)) best = reading;
  }
  for (const other of readings) {
    if (other === best || readingsAgree(best.quantity, other.quantity)) continue;
    const difference = Math.abs(other.quantity.value - best.quantity.value);
    const allowed = COVERAGE * Math.hypot(standardUncertainty(other.quantity), standardUncertainty(best.quantity));
    const widened: Known = {
      ...best.quantity,
      doubt: [
        ...best.quantity.doubt,
        {
          id: `${best.subject}:conflict`,
          u: difference / 2,
          shape: "normal",
          what: `readings ${other.id} and ${best.id} disagree`,
        },
      ],
    };
    return {
      quantity: widened,
      conflict: { subject: best.subject, readings: [best.id, other.id], differenceMm: difference, allowedMm: allowed },
    };
  }
  return { quantity: best.quantity };
}
