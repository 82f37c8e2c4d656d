/**
 * What a state sounds like, from one solution a frequency: which coils are heard and which way round, level, response
 * with its resonance, and hum.
 *
 * String signal of a coil = kick x response, hum = winding x turn-area x response: both are sums of one set of transfers.
 */

import { type Coil, type Load, OPEN_JACK } from "./physical.ts";
import { outputSolver } from "./response.ts";
import { type InState, netlistOf } from "./state.ts";

/** Where signs and levels are read: above hum, below every resonance. */
export const LEVEL_HZ = 500;
/** Below this against the loudest coil, a coil is not heard: what a shorted one takes over from its neighbour is less. */
const NOT_HEARD = 10 ** (-20 / 20);
/** Below this of its own emf nothing is heard at all: rounding is, where no way leads from the coil to the tip. */
const NOTHING = 1e-6;
/** What counts as quiet and as partly quiet, dB re one coil. */
export const QUIET_DB = -20;
export const PARTLY_QUIET_DB = -6;
/** Nothing at all, in dB. */
export const SILENCE_DB = -200;

export interface Heard {
  readonly coil: Coil;
  /** Which way round it runs between ground and output: +1 start to finish. */
  readonly way: 1 | -1;
  /** Size of its part at LEVEL_HZ, for 1 V in the coil. */
  readonly part: number;
  /** kick x way; undefined where the kick is not known. */
  readonly stringSign?: 1 | -1 | 0;
  /** winding x way. */
  readonly humSign?: 1 | -1;
}

/** Transfers of all coils, as [re, im] by coil, at each frequency asked for. */
export function transferReader(
  inside: InState,
  load: Load,
): (frequencyHz: number) => readonly (readonly [number, number])[] {
  const solver = outputSolver(netlistOf(inside, load), inside.output);
  const count = inside.circuit.coils.length;
  const [re, im] = [new Float64Array(count), new Float64Array(count)];
  return (frequencyHz) => {
    solver.at(frequencyHz, re, im);
    return Array.from(re, (real, index) => [real, im[index] ?? 0] as const);
  };
}

/** Transfers at one frequency. */
export function transfersAt(inside: InState, load: Load, frequencyHz: number): readonly (readonly [number, number])[] {
  return transferReader(inside, load)(frequencyHz);
}

/** The coils that are heard, loudest first. */
export function heardIn(inside: InState, load: Load): Heard[] {
  return heardFrom(inside.circuit.coils, transfersAt(inside, load, LEVEL_HZ));
}

/** The same from transfers at LEVEL_HZ. */
export function heardFrom(coils: readonly Coil[], parts: readonly (readonly [number, number])[]): Heard[] {
  const sizes = parts.map(([re, im]) => Math.hypot(re, im));
  const most = Math.max(0, ...sizes);
  return coils
    .flatMap((coil, index): Heard[] => {
      const part = sizes[index] ?? 0;
      if (part < Math.max(NOTHING, NOT_HEARD * most)) return [];
      const way = (parts[index]?.[0] ?? 0) >= 0 ? 1 : -1;
      return [
        {
          coil,
          way,
          part,
          ...(coil.kick === undefined ? {} : { stringSign: signed(coil.kick * way) }),
          ...(coil.winding === undefined ? {} : { humSign: coil.winding === way ? 1 : -1 }),
        },
      ];
    })
    .sort((first, second) => second.part - first.part);
}

function signed(product: number): 1 | -1 | 0 {
  return product > 0 ? 1 : product < 0 ? -1 : 0;
}

/** Emf of each coil for one string, in the order of the coils; kicks that are not known count as +1. */
export function stringEmf(coils: readonly Coil[], string: number): number[] {
  return coils.map(({ kick, loudness, strings }) => (strings.includes(string) ? (kick ?? 1) * loudness : 0));
}

/** Strings that the same coils hear, e.g. those of one half of a split pickup; each group thinnest first. */
export function stringGroups(coils: readonly Coil[]): number[][] {
  const groups = new Map<string, number[]>();
  const all = [...new Set(coils.flatMap(({ strings }) => strings))].sort((first, second) => first - second);
  for (const string of all) {
    const key = coils.map(({ strings }) => (strings.includes(string) ? 1 : 0)).join("");
    groups.set(key, [...(groups.get(key) ?? []), string]);
  }
  return [...groups.values()];
}

/** Emf of each coil for a field that is the same everywhere. Windings that are not known count as +1. */
export function humEmf(coils: readonly Coil[]): number[] {
  return coils.map(({ winding, turnArea }) => (winding ?? 1) * turnArea);
}

export function decibels(ratio: number): number {
  return ratio > 0 ? Math.max(SILENCE_DB, 20 * Math.log10(ratio)) : SILENCE_DB;
}

/** |Σ emf x transfer|, in dB. */
export function levelDb(transfers: readonly (readonly [number, number])[], emf: readonly number[]): number {
  let [sr, si] = [0, 0];
  transfers.forEach(([re, im], index) => {
    sr += re * (emf[index] ?? 0);
    si += im * (emf[index] ?? 0);
  });
  return decibels(Math.hypot(sr, si));
}

/** Hum in dB re 1 V in one coil of turn-area 1, jack open, at each frequency. */
export function humDb(inside: InState, frequenciesHz: readonly number[], load: Load = OPEN_JACK): number[] {
  return humFrom(inside.circuit.coils, transferReader(inside, load), frequenciesHz);
}

/** The same from transfers. */
export function humFrom(
  coils: readonly Coil[],
  read: (frequencyHz: number) => readonly (readonly [number, number])[],
  frequenciesHz: readonly number[],
): number[] {
  const emf = humEmf(coils);
  return frequenciesHz.map((frequencyHz) => levelDb(read(frequencyHz), emf));
}

export function humWord(dB: readonly number[]): "quiet" | "partly quiet" | "hums" {
  const worst = Math.max(...dB);
  return worst < QUIET_DB ? "quiet" : worst < PARTLY_QUIET_DB ? "partly quiet" : "hums";
}
