/**
 * Probability that every saddle keeps its reserve, and the travel a bridge needs for a wanted probability.
 *
 * Model: one normal shift of the plate against the scale line, shared by all strings (doubt of the scale line and of
 * drilling together), and an independent normal error of every string's setback:
 *   P = ∫ φ(z) Π_i [Φ((rear_i + z U)/u_i) - Φ((-front_i + z U)/u_i)] dz,
 * with front_i and rear_i the travel left beyond the reserve. Trapezium rule over ±6.6 standard deviations, beyond which
 * lies less than 1e-10. For a smooth function that dies away the rule is as good as exact once its step is well under
 * the width of the narrowest feature: its error falls as exp(-2 (π width/step)²), and the step is two fifths of the
 * shared error's width and a third of one string's.
 * Left out: walls between holes (the ledger samples both together).
 * Source: derived; normal distribution function by its power series and continued fraction (Abramowitz and Stegun,
 * chapter 26; from memory).
 */
import { requireFinite } from "../checks.ts";
import { InputError } from "../errors.ts";
import { refuseSaddles, type SaddleSet } from "./window.ts";

export interface SaddleDoubt {
  /** Standard uncertainty that all strings share: scale line on the body and place of the plate. */
  readonly sharedMm: number;
  /** Standard uncertainty of each setback. */
  readonly stringMm: number;
}

/**
 * Probability that a square plate at `placeMm` leaves every saddle its reserve.
 *
 * @throws InputError as `plateWindow`, or for a doubt below 0
 */
export function reserveProbability(
  input: SaddleSet & { readonly placeMm: number; readonly reserveMm: number; readonly doubt: SaddleDoubt },
): number {
  refuseSaddles(input, input.targetsMm);
  const { targetsMm, fromMm, toMm, placeMm, reserveMm, doubt } = input;
  refuseDoubt(doubt);
  const front = targetsMm.map((target, i) => target - placeMm - (fromMm[i] ?? 0) - reserveMm);
  const rear = targetsMm.map((target, i) => (toMm[i] ?? 0) - (target - placeMm) - reserveMm);
  return chance(front, rear, doubt);
}

const REACH = 6.6;
/** Far below a micrometre: the probability rises by about 1 per mm. */
const NEAR_ENOUGH = 1e-10;
const NEAR_MM = 1e-8;
const MOST_TRIES = 60;
const LEAST_STEPS = 33;
const MOST_STEPS = 6000;
const STEPS_PER_STRING_DOUBT = 3;

/** Front and rear: travel left beyond the reserve, per string. A plate that stands further back eats the front. */
function chance(front: readonly number[], rear: readonly number[], { sharedMm, stringMm }: SaddleDoubt): number {
  const inside = (shift: number): number => {
    let p = 1;
    for (let i = 0; i < front.length && p > 0; i++)
      p *= between(-(front[i] as number) + shift, (rear[i] as number) + shift, stringMm);
    return p;
  };
  if (sharedMm === 0) return inside(0);
  if (stringMm === 0) {
    const latest = Math.min(...front);
    const earliest = -Math.min(...rear);
    return latest < earliest ? 0 : normalCdf(latest / sharedMm) - normalCdf(earliest / sharedMm);
  }
  const wanted = (2 * REACH * STEPS_PER_STRING_DOUBT * sharedMm) / stringMm;
  const steps = Math.ceil(Math.min(MOST_STEPS, Math.max(LEAST_STEPS, wanted)));
  const h = (2 * REACH) / steps;
  let sum = 0;
  for (let n = 1; n < steps; n++) {
    const z = -REACH + n * h;
    sum += Math.exp((-z * z) / 2) * inside(z * sharedMm);
  }
  return Math.min(1, (sum * h) / Math.sqrt(2 * Math.PI));
}

/** Probability that a normal error with standard deviation u lies between two bounds. */
function between(low: number, high: number, u: number): number {
  if (high <= low) return 0;
  if (u === 0) return low <= 0 && high >= 0 ? 1 : 0;
  return capped(high / u) - capped(low / u);
}

/** Beyond this the distribution function is 0 or 1 to the last bit of a sum. */
const CERTAIN = 8.3;

function capped(x: number): number {
  return x < -CERTAIN ? 0 : x > CERTAIN ? 1 : normalCdf(x);
}

/** Standard normal distribution function. */
export function normalCdf(x: number): number {
  if (x === 0) return 0.5;
  const size = Math.abs(x);
  if (size > 38) return x > 0 ? 1 : 0;
  const density = Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
  let tail: number;
  if (size < 3) {
    // Φ(x) = 1/2 + φ(x) (x + x³/3 + x⁵/(3·5) + …)
    let term = size;
    let sum = size;
    for (let n = 3; term > sum * 1e-17; n += 2) {
      term *= (size * size) / n;
      sum += term;
    }
    tail = 0.5 - density * sum;
  } else {
    // 1 - Φ(x) = φ(x) / (x + 1/(x + 2/(x + 3/(x + …))))
    let fraction = size;
    for (let n = 60; n >= 1; n--) fraction = size + n / fraction;
    tail = density / fraction;
  }
  return x > 0 ? 1 - tail : tail;
}

export interface TravelWanted {
  /** Difference between the furthest and the nearest wanted contact. */
  readonly spreadMm: number;
  /** Travel that would just do with every value exact: spread + 2 reserves. */
  readonly exactMm: number;
  /** Travel that keeps the reserves with the probability asked for, the plate in the middle. */
  readonly travelMm: number;
  /** What doubt adds at each end. */
  readonly forDoubtMm: number;
}

/**
 * Travel that one range, the same for every saddle, needs so that all strings keep their reserve with a probability.
 *
 * With the shared doubt alone this is spread + 2 (reserve + k U) with k = 1.96 for 0.95; independent string errors add
 * to it.
 *
 * @throws InputError for a probability outside 0 to 1
 */
export function neededTravelMm(input: {
  readonly targetsMm: readonly number[];
  readonly reserveMm: number;
  readonly doubt: SaddleDoubt;
  readonly probability?: number;
}): TravelWanted {
  const { targetsMm, reserveMm, doubt } = input;
  const wanted = input.probability ?? 0.95;
  targetsMm.forEach((target, i) => {
    requireFinite(target, `targetsMm[${i}]`, "mm", "Work out scale line and setback first");
  });
  refuseDoubt(doubt);
  if (!(wanted > 0 && wanted < 1))
    throw new InputError(
      "probability",
      `must lie between 0 and 1, got ${wanted}`,
      "Give 0.95 for a step that cannot be undone",
    );
  const first = Math.min(...targetsMm);
  const last = Math.max(...targetsMm);
  const spreadMm = last - first;
  const with_ = (extra: number): number =>
    chance(
      targetsMm.map((target) => target - first + extra),
      targetsMm.map((target) => last - target + extra),
      doubt,
    );
  const none = doubt.sharedMm === 0 && doubt.stringMm === 0;
  const forDoubtMm = none ? 0 : firstAbove((extra) => with_(extra) - wanted);
  const exactMm = spreadMm + 2 * reserveMm;
  return { spreadMm, exactMm, travelMm: exactMm + 2 * forDoubtMm, forDoubtMm };
}

/** Where a rising function reaches 0, from 0 up: false position, the weight of an end that stays halved (Illinois). */
function firstAbove(rising: (at: number) => number): number {
  let [low, below] = [0, rising(0)];
  if (below >= 0) return 0;
  let [high, above] = [1, rising(1)];
  while (above < 0 && high < 1e3) {
    [low, below] = [high, above];
    high *= 2;
    above = rising(high);
  }
  for (let n = 0; n < MOST_TRIES && high - low > NEAR_MM; n++) {
    const at = (low * above - high * below) / (above - below);
    const there = rising(at);
    if (Math.abs(there) < NEAR_ENOUGH) return at;
    if (there >= 0) {
      [high, above] = [at, there];
      below /= 2;
    } else {
      [low, below] = [at, there];
      above /= 2;
    }
  }
  return high;
}

function refuseDoubt(doubt: SaddleDoubt): void {
  for (const [name, u] of Object.entries(doubt)) {
    if (!(u >= 0 && Number.isFinite(u)))
      throw new InputError(
        `doubt.${name}`,
        `must be a number from 0 mm up, got ${u}`,
        "Give the standard uncertainty of that value",
      );
  }
}
