/**
 * The values that resistors and capacitors are made in.
 *
 * Source: IEC 60063:2015, E3 to E24, as listed in an encyclopaedia article and a component table. Left out: E48 and up.
 */
import { requirePositive } from "../checks.ts";

export type PreferredSeries = "E3" | "E6" | "E12" | "E24";

const E24 = [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91];

/** One decade, 10 to 91. Each shorter series leaves out every second value of the next. */
const DECADES: Readonly<Record<PreferredSeries, readonly number[]>> = {
  E3: E24.filter((_, index) => index % 8 === 0),
  E6: E24.filter((_, index) => index % 4 === 0),
  E12: E24.filter((_, index) => index % 2 === 0),
  E24,
};

/** The values of one decade, 10 up to below 100, ascending. */
export function preferredDecade(series: PreferredSeries): readonly number[] {
  return DECADES[series];
}

export interface NearestPreferred {
  readonly value: number;
  /** Preferred value over the wanted one, less 1. */
  readonly off: number;
  /** The neighbours of the wanted value; both are the value itself if it is preferred. */
  readonly below: number;
  readonly above: number;
}

/**
 * The preferred value nearest to a wanted one, by ratio; of two equally near, the lower.
 *
 * @param wanted any unit; the answer is in the same
 * @throws InputError if the value is not above zero
 * @example
 * nearestPreferred(2.3e-8, "E6"); // value 2.2e-8, off -0.043, below 2.2e-8, above 3.3e-8
 */
export function nearestPreferred(wanted: number, series: PreferredSeries): NearestPreferred {
  requirePositive(wanted, "wanted", "of its unit", "Give the value you would like to have");
  const exponent = Math.floor(Math.log10(wanted)) - 1;
  // Written out as text, so that 22e-9 comes out as the very number 22e-9.
  const near = [exponent - 1, exponent, exponent + 1].flatMap((power) =>
    DECADES[series].map((value) => Number(`${value}e${power}`)),
  );
  const equal = near.find((value) => isSame(value, wanted));
  if (equal !== undefined) return { value: equal, off: 0, below: equal, above: equal };
  const below = Math.max(...near.filter((value) => value < wanted));
  const above = Math.min(...near.filter((value) => value > wanted));
  const value = wanted / below <= above / wanted ? below : above;
  return { value, off: value / wanted - 1, below, above };
}

/** Whether a value is one of the series, but for rounding of the computer. @throws InputError if not above zero */
export function isPreferred(value: number, series: PreferredSeries): boolean {
  return nearestPreferred(value, series).off === 0;
}

function isSame(a: number, b: number): boolean {
  return Math.abs(a / b - 1) < 1e-9;
}
