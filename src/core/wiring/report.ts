/** What a wiring does in every state, what the meter is to read there, what is wrong with it, and what ohms cannot show. */
import {
  audiblePoints,
  type Curve,
  curveOf,
  type Facts,
  type Finding,
  factsOf,
  findingsOf,
  LEVEL_HZ,
  type Load,
  levelDb,
  readSound,
  type SoundNames,
  type StateFacts,
  soundInWords,
  stringEmf,
  transfersAt,
  type Wanted,
} from "../circuit/index.ts";
import { InputError } from "../errors.ts";
import type { TakenReading, WiredState, Wiring } from "../job/index.ts";
import { valueOr } from "../quantity/index.ts";
import { type BlindSpot, blindSpots } from "./blind-spots.ts";
import { circuitOf, type Guess, type WiredCircuit } from "./circuit-of.ts";
import { bandOf, type OhmsBand, readingAgrees } from "./ohms.ts";
import { type PeakBand, peakBand } from "./peak-band.ts";

/** A second temperature at which ohms are shown: a warm room, or a guitar off the stage. */
export const WARM_CELSIUS = 30;

export interface StringReport {
  /** Strings heard by the same coils; all of them on most instruments. */
  readonly strings: readonly number[];
  readonly phase: "one coil" | "in phase" | "out of phase" | "not known" | "not heard";
  /** dB re 1 V in one coil, at LEVEL_HZ, with cable and input: electrical only, equal coils unless loudness was read. */
  readonly levelDb: number;
  readonly peak?: { readonly frequencyHz: number; readonly dB: number };
  /** Where the peak may lie, as long as values are guesses. */
  readonly peakBand?: PeakBand;
}

/** What every question about a state needs. */
export interface StateCheck {
  readonly id: string;
  readonly title: string;
  readonly wanted: string;
  readonly sound: string;
  readonly coils: readonly {
    readonly id: string;
    readonly name: string;
    readonly stringSign?: 1 | -1 | 0;
    readonly humSign?: 1 | -1;
  }[];
  readonly phases: readonly StringReport["phase"][];
  readonly hum?: "quiet" | "partly quiet" | "hums";
  /** At 50, 60, 150 and 180 Hz, dB re the reference coil alone. */
  readonly humDb?: readonly number[];
  readonly ohms: OhmsBand;
}

export interface StateReport extends StateCheck {
  readonly strings: readonly StringReport[];
  readonly warmOhms: number;
  readonly reading?: { readonly ohms: number; readonly agrees: boolean };
}

export interface WiringCheck {
  readonly wired: WiredCircuit;
  readonly facts: Facts;
  readonly states: readonly StateCheck[];
  readonly findings: readonly Finding[];
  readonly celsius: number;
  /** Name of the coil against which hum is told. */
  readonly humAgainst: string;
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

/**
 * Signs, hum, ohms and findings of every state, without curves.
 *
 * @returns undefined where the job describes no coils
 */
export function wiringCheck(wiring: Wiring | undefined): WiringCheck | undefined {
  const wired = circuitOf(wiring);
  if (!wiring || !wired) return undefined;
  const facts = factsOf(wired.circuit, wiring.states, wiring.humAgainst === "" ? undefined : wiring.humAgainst);
  const celsius = valueOr(wiring.temperature, 20);
  const unread: InputError[] = [];
  const wanted = wantedOf(wiring, wired, unread);
  const titles = new Map(wiring.states.map(({ id, title }) => [id, title]));
  return {
    wired,
    facts,
    states: facts.states.map((one, index) => stateCheck(wired, wiring.states[index] as WiredState, one, celsius)),
    findings: [
      ...strayFindings(wiring),
      ...unread.map(unreadFinding),
      ...findingsOf({ facts, wanted, titleOf: (id) => titles.get(id) ?? id }),
    ],
    celsius,
    humAgainst: facts.reference?.name ?? "",
  };
}

function strayFindings({ strays }: Wiring): Finding[] {
  return strays.map(({ where, lug }) => ({
    kind: "not there",
    grade: "fault",
    states: [],
    lugs: [lug],
    what: `${where} names ${lug}, and there is no such device`,
    why: "What hung on it is left out of all that is said of this wiring",
    remedy: "Bring the device back, or take this line out",
  }));
}

function unreadFinding({ where, problem, remedy }: InputError): Finding {
  return {
    kind: "not there",
    grade: "fault",
    states: [],
    lugs: [],
    what: `${where}: ${problem}`,
    why: "Whether the state sounds as wanted cannot be said",
    remedy,
  };
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

export function soundNames({ circuit }: WiredCircuit): SoundNames {
  const pickups = new Map<string, string[]>();
  for (const { id, pickup } of circuit.coils) pickups.set(pickup, [...(pickups.get(pickup) ?? []), id]);
  return { pickups, coils: circuit.coils.map(({ id }) => id) };
}

/** What is wanted of each state; a sound that cannot be read is told of in `unread`. */
export function wantedOf(wiring: Wiring, wired: WiredCircuit, unread: InputError[] = []): ReadonlyMap<string, Wanted> {
  const names = soundNames(wired);
  return new Map(
    wiring.states.map(({ id, sound, hum }): [string, Wanted] => {
      const sounds =
        sound === undefined ? undefined : soundOrTrouble(sound, names, `wiring.states.${id}.sound`, unread);
      return [id, { state: id, ...(sounds ? { sounds } : {}), ...(hum === undefined ? {} : { hum }) }];
    }),
  );
}

function soundOrTrouble(
  text: string,
  names: SoundNames,
  where: string,
  unread: InputError[],
): ReturnType<typeof readSound> | undefined {
  try {
    return readSound(text, names, where);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    unread.push(error);
    return undefined;
  }
}

function stateCheck(wired: WiredCircuit, state: WiredState, one: StateFacts, celsius: number): StateCheck {
  const { inside, heard, sound, phases } = one;
  const nameOf = (id: string) => wired.circuit.coils.find((coil) => coil.id === id)?.name ?? id;
  return {
    id: state.id,
    title: state.title,
    wanted: state.sound ?? "",
    sound: sound
      ? soundInWords(sound, nameOf)
      : heard.length === 0
        ? "silence"
        : `${heard.map(({ coil }) => coil.name).join(", ")}, bridged`,
    coils: heard.map(({ coil, stringSign, humSign }) => ({
      id: coil.id,
      name: coil.name,
      ...(stringSign === undefined ? {} : { stringSign }),
      ...(humSign === undefined ? {} : { humSign }),
    })),
    phases: phases.map(phaseWord),
    ...(one.hum && one.humDb ? { hum: one.hum, humDb: one.humDb } : {}),
    ohms: bandOf(wired, inside, celsius, [inside.output, inside.ground]),
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

function phaseWord({ heard, inPhase }: StateFacts["phases"][number]): StringReport["phase"] {
  if (heard.length === 0) return "not heard";
  if (heard.length === 1) return "one coil";
  if (inPhase === undefined) return "not known";
  return inPhase ? "in phase" : "out of phase";
}

const POINTS = audiblePoints();

/** The response of a state to one string, 151 points from 20 Hz to 20 kHz. */
export function stateCurve({ inside }: Pick<StateFacts, "inside">, load: Load, string: number): Curve {
  return curveOf(inside, load, POINTS, string);
}
