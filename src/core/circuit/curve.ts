/** The response of a state to one string, with its resonance. */
import { decibels, SILENCE_DB, stringEmf } from "./hearing.ts";
import type { Load } from "./physical.ts";
import { type OutputSolver, outputSolver } from "./response.ts";
import { type InState, netlistOf } from "./state.ts";

export interface Curve {
  readonly frequenciesHz: readonly number[];
  /** String level, dB re 1 V in each coil. */
  readonly dB: Float64Array;
  /** Highest point inside the band, if the curve has one. */
  readonly peak?: { readonly frequencyHz: number; readonly dB: number };
}

/** The response to one string, with its resonance. */
export function curveOf(inside: InState, load: Load, frequenciesHz: readonly number[], string: number): Curve {
  const solver = outputSolver(netlistOf(inside, load), inside.output);
  const emf = stringEmf(inside.circuit.coils, string);
  const read = powerReader(solver, emf);
  const dB = Float64Array.from(frequenciesHz, (frequencyHz) => decibels(Math.sqrt(read(frequencyHz))));
  const peak = peakOf(frequenciesHz, dB, (frequencyHz) => decibels(Math.sqrt(read(frequencyHz))));
  return { frequenciesHz, dB, ...(peak ? { peak } : {}) };
}

function powerReader(solver: OutputSolver, emf: readonly number[]): (frequencyHz: number) => number {
  const [re, im] = [new Float64Array(emf.length), new Float64Array(emf.length)];
  return (frequencyHz) => {
    solver.at(frequencyHz, re, im);
    let [sr, si] = [0, 0];
    for (let index = 0; index < emf.length; index += 1) {
      sr += (re[index] as number) * (emf[index] as number);
      si += (im[index] as number) * (emf[index] as number);
    }
    return sr * sr + si * si;
  };
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** Each takes 0.618 of what is left of two steps of the grid: 26 leave 4e-7 of the frequency. */
const ROUNDS = 26;
/** A bump lower than this above both of its sides is none that anybody hears. */
const LEAST_BUMP_DB = 0.01;

function peakOf(
  frequenciesHz: readonly number[],
  dB: Float64Array,
  at: (frequencyHz: number) => number,
): Curve["peak"] {
  let best = 0;
  dB.forEach((value, index) => {
    if (value > (dB[best] ?? 0)) best = index;
  });
  const [left, right] = [frequenciesHz[best - 1], frequenciesHz[best + 1]];
  const top = dB[best] ?? 0;
  if (left === undefined || right === undefined || top <= SILENCE_DB) return undefined;
  if (top - (dB[0] ?? 0) < LEAST_BUMP_DB) return undefined;
  let [from, to] = [Math.log(left), Math.log(right)];
  let [low, high] = [to - GOLDEN * (to - from), from + GOLDEN * (to - from)];
  let [atLow, atHigh] = [at(Math.exp(low)), at(Math.exp(high))];
  for (let round = 0; round < ROUNDS; round += 1) {
    if (atLow > atHigh) {
      [to, high, atHigh] = [high, low, atLow];
      low = to - GOLDEN * (to - from);
      atLow = at(Math.exp(low));
    } else {
      [from, low, atLow] = [low, high, atHigh];
      high = from + GOLDEN * (to - from);
      atHigh = at(Math.exp(high));
    }
  }
  const frequencyHz = Math.exp((from + to) / 2);
  return { frequencyHz, dB: at(frequencyHz) };
}
