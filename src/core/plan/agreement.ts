/**
 * Whether a value has been read well enough: independent readings that agree.
 *
 * Two readings are independent if they were taken with different tools, from different placings, or with time between
 * (the tool was laid anew). They agree if they differ by no more than twice the standard uncertainty of their
 * difference (JCGM 100:2008, 5.1.2, k = 2; published).
 */
import { minutesOf } from "../job/index.ts";
import type { TakenReading } from "./types.ts";

const COVERAGE = 2;
/** Readings this far apart in time count as laid anew (common practice, no source). */
const LAID_ANEW_MINUTES = 10;
const NOISE = 1e-9;

export interface Agreement {
  readonly count: number;
  /** Largest group of readings that agree with one another, and whether two of it are independent. */
  readonly agreeing: readonly TakenReading[];
  readonly independent: boolean;
  /** Readings outside that group. */
  readonly apart: readonly TakenReading[];
  /** More than half of the readings are in the group. */
  readonly majority: boolean;
}

export function agree(a: TakenReading, b: TakenReading): boolean {
  return Math.abs(a.value - b.value) <= COVERAGE * Math.hypot(a.u, b.u) + NOISE;
}

export function independent(a: TakenReading, b: TakenReading): boolean {
  if (a.id === b.id) return false;
  if (a.placing !== undefined && b.placing !== undefined) return a.placing !== b.placing;
  if (a.tool !== b.tool) return true;
  if (a.at === undefined || b.at === undefined) return false;
  return Math.abs(minutesOf(a.at, `readings.${a.id}.at`) - minutesOf(b.at, `readings.${b.id}.at`)) >= LAID_ANEW_MINUTES;
}

/** Readings of one subject, weighed against each other. */
export function agreementOf(readings: readonly TakenReading[]): Agreement {
  let best: readonly TakenReading[] = [];
  for (const centre of readings) {
    const group = growGroup(centre, readings);
    if (group.length > best.length || (group.length === best.length && hasIndependent(group) && !hasIndependent(best)))
      best = group;
  }
  return {
    count: readings.length,
    agreeing: best,
    independent: hasIndependent(best),
    apart: readings.filter((reading) => !best.includes(reading)),
    majority: best.length * 2 > readings.length,
  };
}

/** The readings nearest to `centre` first, as long as each agrees with all taken before. */
function growGroup(centre: TakenReading, readings: readonly TakenReading[]): readonly TakenReading[] {
  const nearest = [...readings].sort((a, b) => Math.abs(a.value - centre.value) - Math.abs(b.value - centre.value));
  const group: TakenReading[] = [centre];
  for (const reading of nearest)
    if (reading !== centre && group.every((other) => agree(other, reading))) group.push(reading);
  return group;
}

function hasIndependent(group: readonly TakenReading[]): boolean {
  return group.some((a, index) => group.slice(index + 1).some((b) => independent(a, b)));
}
