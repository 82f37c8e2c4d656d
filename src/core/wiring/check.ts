/** Signs, hum, ohms and findings of every state of a wiring, without curves: what its questions ask. */
import {
  type Facts,
  type Finding,
  factsOf,
  findingsOf,
  readSound,
  type SoundNames,
  type StateFacts,
  soundInWords,
  type Wanted,
} from "../circuit/index.ts";
import { InputError } from "../errors.ts";
import type { WiredState, Wiring } from "../job/index.ts";
import { valueOr } from "../quantity/index.ts";
import { circuitOf, type WiredCircuit } from "./circuit-of.ts";
import { bandOf, type OhmsBand } from "./ohms.ts";

/** How the coils that a string is heard by stand to one another. */
export type PhaseWord = "one coil" | "in phase" | "out of phase" | "not known" | "not heard";

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
  readonly phases: readonly PhaseWord[];
  readonly hum?: "quiet" | "partly quiet" | "hums";
  /** At 50, 60, 150 and 180 Hz, dB re the reference coil alone. */
  readonly humDb?: readonly number[];
  readonly ohms: OhmsBand;
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

export function phaseWord({ heard, inPhase }: StateFacts["phases"][number]): PhaseWord {
  if (heard.length === 0) return "not heard";
  if (heard.length === 1) return "one coil";
  if (inPhase === undefined) return "not known";
  return inPhase ? "in phase" : "out of phase";
}
