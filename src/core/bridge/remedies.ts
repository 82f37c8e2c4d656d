/**
 * Ways out of an empty window, each with the window it gives; and what to look for in another bridge.
 *
 * Model: every remedy changes the inputs of `plateWindow` and is judged by it again. Required ranges for a wanted
 * stretch of places: from_i <= T_i - r - P_last and to_i >= T_i + r - P_first.
 * Left out: price and permanence, which belong to the verdict.
 * Source: derived.
 */
import { InputError } from "../errors.ts";
import { type PlateWindow, plateWindow, refuseSaddles, type SaddleSet } from "./window.ts";

export type WindowRemedy =
  | {
      readonly kind: "another string";
      readonly index: number;
      readonly targetMm: number;
      readonly window: PlateWindow;
      readonly opens: boolean;
    }
  | {
      readonly kind: "turned saddle";
      readonly indexes: readonly number[];
      readonly byMm: number;
      readonly window: PlateWindow;
      readonly opens: boolean;
    }
  | {
      readonly kind: "smaller reserve";
      readonly reserveMm: number;
      readonly window: PlateWindow;
      readonly opens: boolean;
    }
  | {
      readonly kind: "longer travel";
      readonly atFrontMm: number;
      readonly atRearMm: number;
      readonly window: PlateWindow;
      readonly opens: boolean;
    };

export interface RemedySearch extends SaddleSet {
  readonly reserveMm: number;
  /** What a saddle's contact moves by when the saddle is turned round; 0 or left out if it cannot be. */
  readonly turnedRoundMm?: number;
  /** Strings to hand: where the contact would be wanted with them. */
  readonly spares?: readonly {
    readonly index: number;
    readonly targetMm: number;
    /** Of all strings with it, where others move along: those on the same saddle. Left out: only its own changes. */
    readonly targetsMm?: readonly number[];
  }[];
  /** Smaller reserves that would still be accepted; 0 is always tried. */
  readonly reservesMm?: readonly number[];
}

/**
 * Remedies for a window, those that open it first and the widest of them first. Saddles are turned round singly, and
 * in pairs only where no single one helps.
 *
 * @throws InputError as `plateWindow`
 */
export function windowRemedies(input: RemedySearch): WindowRemedy[] {
  const { targetsMm, fromMm, toMm, reserveMm } = input;
  const found: WindowRemedy[] = [];
  for (const { index, targetMm, targetsMm: all = targetsMm.with(index, targetMm) } of input.spares ?? []) {
    refuseIndex(index, targetsMm.length);
    const window = plateWindow({ fromMm, toMm, reserveMm, targetsMm: all });
    found.push({ kind: "another string", index, targetMm, window, opens: window.widthMm >= 0 });
  }
  found.push(...turnedSaddles(input));
  for (const smaller of new Set([...(input.reservesMm ?? []), 0])) {
    if (smaller >= reserveMm) continue;
    const window = plateWindow({ targetsMm, fromMm, toMm, reserveMm: smaller });
    found.push({ kind: "smaller reserve", reserveMm: smaller, window, opens: window.widthMm >= 0 });
  }
  found.push(longerTravel(input));
  return found.sort((a, b) => Number(b.opens) - Number(a.opens) || b.window.widthMm - a.window.widthMm);
}

function turnedSaddles(input: RemedySearch): WindowRemedy[] {
  const by = input.turnedRoundMm ?? 0;
  if (by === 0) return [];
  const { targetsMm, reserveMm } = input;
  const before = plateWindow({ targetsMm, fromMm: input.fromMm, toMm: input.toMm, reserveMm }).widthMm;
  const turn = (indexes: readonly number[]): WindowRemedy => {
    const moved = (values: readonly number[]): number[] =>
      values.map((value, i) => (indexes.includes(i) ? value + by : value));
    const window = plateWindow({ targetsMm, fromMm: moved(input.fromMm), toMm: moved(input.toMm), reserveMm });
    return { kind: "turned saddle", indexes, byMm: by, window, opens: window.widthMm >= 0 };
  };
  const single = targetsMm.map((_, i) => turn([i])).filter((remedy) => remedy.window.widthMm > before);
  if (single.some((remedy) => remedy.opens)) return single;
  const paired = targetsMm.flatMap((_, i) => targetsMm.slice(i + 1).map((__, k) => turn([i, i + 1 + k])));
  return [...single, ...paired.filter((remedy) => remedy.opens)];
}

/** The binding saddles longer by what is missing, half at either end. */
function longerTravel(input: RemedySearch): WindowRemedy {
  const { targetsMm, fromMm, toMm, reserveMm } = input;
  const now = plateWindow({ targetsMm, fromMm, toMm, reserveMm });
  const missing = Math.max(0, -now.widthMm);
  const window = plateWindow({
    targetsMm,
    reserveMm,
    fromMm: fromMm.map((from) => from - missing / 2),
    toMm: toMm.map((to) => to + missing / 2),
  });
  return {
    kind: "longer travel",
    atFrontMm: missing / 2,
    atRearMm: missing / 2,
    window,
    opens: window.widthMm >= -1e-9,
  };
}

export interface RangeWanted {
  /** The contact must reach at least this far forward and back, counted as p from the front edge. */
  readonly fromMm: number;
  readonly toMm: number;
}

/**
 * What each saddle's range must cover for a plate that is to stand anywhere between two places: to buy by numbers.
 *
 * @returns one range a string, in the order of the targets
 * @throws InputError if the places are the wrong way round
 */
export function requiredRanges(want: {
  readonly targetsMm: readonly number[];
  readonly reserveMm: number;
  readonly placeFromMm: number;
  readonly placeToMm: number;
}): RangeWanted[] {
  const { targetsMm, reserveMm, placeFromMm, placeToMm } = want;
  refuseSaddles({ targetsMm, fromMm: targetsMm, toMm: targetsMm }, targetsMm);
  if (!(placeToMm >= placeFromMm))
    throw new InputError(
      "placeToMm",
      `must not be below placeFromMm, got ${placeToMm} below ${placeFromMm}`,
      "Swap the two",
    );
  return targetsMm.map((target) => ({
    fromMm: target - reserveMm - placeToMm,
    toMm: target + reserveMm - placeFromMm,
  }));
}

function refuseIndex(index: number, count: number): void {
  if (!(Number.isInteger(index) && index >= 0 && index < count)) {
    throw new InputError(
      "spares",
      `names string index ${index} of ${count} strings`,
      "Count from 0, the thinnest string first",
    );
  }
}
