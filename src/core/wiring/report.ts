/** What a wiring does in every state, what the meter is to read there, what is wrong with it, and what ohms cannot show. */
import {
  audiblePoints,
  type Curve,
  curveOf,
  LEVEL_HZ,
  type Load,
  levelDb,
  type StateFacts,
  stringEmf,
  transfersAt,
} from "../circuit/index.ts";
import type { TakenReading, Wiring } from "../job/index.ts";
import { valueOr } from "../quantity/index.ts";
import { type BlindSpot, blindSpots } from "./blind-spots.ts";
import { type PhaseWord, phaseWord, type StateCheck, type WiringCheck, wiringCheck } from "./check.ts";
import type { Guess, WiredCircuit } from "./circuit-of.ts";
import { bandOf, readingAgrees } from "./ohms.ts";
import { type PeakBand, peakBand } from "./peak-band.ts";

/** A second temperature at which ohms are shown: a warm room, or a guitar off the stage. */
export const WARM_CELSIUS = 30;

export interface StringReport {
  /** Strings heard by the same coils; all of them on most instruments. */
  readonly strings: readonly number[];
  readonly phase: PhaseWord;
  /** dB re 1 V in one coil, at LEVEL_HZ, with cable and input: electrical only, equal coils unless loudness was read. */
  readonly levelDb: number;
  readonly peak?: { readonly frequencyHz: number; readonly dB: number };
  /** Where the peak may lie, as long as values are guesses. */
  readonly peakBand?: PeakBand;
}

export interface StateReport extends StateCheck {
  readonly strings: readonly StringReport[];
  readonly warmOhms: number;
  readonly reading?: { readonly ohms: number; readonly agrees: boolean };
}

export interface WiringReport extends WiringCheck {
  readonly states: readonly StateReport[];
  readonly blindSpots: readonly BlindSpot[];
  readonly guesses: readonly Guess[];
  readonly load: Load;
}

export interface Taken {
  readonly readings: readonly TakenReading[];
}

/** The whole: the check, with levels, resonances, readings, and what ohms cannot show. */
export function wiringReport(wiring: Wiring | undefined, taken: Taken = { readings: [] }): WiringReport | undefined {
  const check = wiringCheck(wiring);
  if (!wiring || !check) return undefined;
  const load = loadOf(wiring);
  return {
    ...check,
    states: check.states.map((state, index) =>
      stateReport(check.wired, state, check.facts.states[index] as StateFacts, load, taken),
    ),
    blindSpots: blindSpots(check.wired, check.facts, check.celsius),
    guesses: check.wired.guesses,
    load,
  };
}

export function loadOf(wiring: Wiring): Load {
  return {
    cableFarads: valueOr(wiring.cable, 0),
    inputOhms: valueOr(wiring.input, Number.POSITIVE_INFINITY),
  };
}

function stateReport(
  wired: WiredCircuit,
  check: StateCheck,
  one: StateFacts,
  load: Load,
  { readings }: Taken,
): StateReport {
  const { inside, heard, phases } = one;
  const { ohms } = check;
  const read = readings.filter(({ subject }) => subject === `ohms.${check.id}`).at(-1)?.quantity.value;
  const transfers = transfersAt(inside, load, LEVEL_HZ);
  return {
    ...check,
    strings: phases.map((phase): StringReport => {
      const [string = 1] = phase.strings;
      const curve = heard.length === 0 ? undefined : stateCurve(one, load, string);
      return {
        strings: phase.strings,
        phase: phaseWord(phase),
        levelDb: levelDb(transfers, stringEmf(wired.circuit.coils, string)),
        ...(curve?.peak ? { peak: curve.peak } : {}),
        ...(curve?.peak && wired.guesses.length > 0 ? { peakBand: peakBand(wired, one, load, string) } : {}),
      };
    }),
    warmOhms: bandOf(wired, inside, WARM_CELSIUS, [inside.output, inside.ground]).ohms,
    ...(read === undefined ? {} : { reading: { ohms: read, agrees: readingAgrees(ohms, read) } }),
  };
}

const POINTS = audiblePoints();

/** The response of a state to one string, 151 points from 20 Hz to 20 kHz. */
export function stateCurve({ inside }: Pick<StateFacts, "inside">, load: Load, string: number): Curve {
  return curveOf(inside, load, POINTS, string);
}
