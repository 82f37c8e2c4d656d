/** What every check and every table asks of a state, found once. */
import { aloneIn } from "./alone.ts";
import { ohmsBetween } from "./dc.ts";
import { type Heard, heardFrom, humDb, humFrom, humWord, LEVEL_HZ, stringGroups, transferReader } from "./hearing.ts";
import { type Circuit, type Coil, OPEN_JACK, type State } from "./physical.ts";
import { soundOf } from "./sound-of-state.ts";
import type { Sound } from "./sounds.ts";
import { type InState, inState, resistorsOf } from "./state.ts";

/** Mains and its third harmonic, where fluorescent lamps and rectifiers hum (common practice, no source). */
export const HUM_HZ = [50, 60, 150, 180] as const;

export interface Phase {
  /** Strings heard by the same coils. */
  readonly strings: readonly number[];
  readonly heard: readonly Heard[];
  /** Undefined: a kick that matters is not known. */
  readonly inPhase?: boolean;
}

export interface StateFacts {
  readonly inside: InState;
  readonly heard: readonly Heard[];
  readonly sound?: Sound;
  /** Tip to sleeve, Ω at 20 °C; Infinity: open. */
  readonly ohms: number;
  /** ∂R/∂R of each resistor, by name. */
  readonly weights: ReadonlyMap<string, number>;
  readonly phases: readonly Phase[];
  /** dB re the reference coil alone, at HUM_HZ; undefined where a winding that matters is not known. */
  readonly humDb?: readonly number[];
  readonly hum?: "quiet" | "partly quiet" | "hums";
}

export interface Facts {
  readonly circuit: Circuit;
  readonly states: readonly StateFacts[];
  /** Against which hum is told. */
  readonly reference?: Coil;
}

/** @param humAgainst id of a coil; left out: the one whose turns times area are nearest 1 */
export function factsOf(circuit: Circuit, states: readonly State[], humAgainst?: string): Facts {
  const reference = referenceCoil(circuit, humAgainst);
  const bare = states.map((state) => {
    const inside = inState(circuit, state);
    const read = transferReader(inside, OPEN_JACK);
    return { inside, read, heard: heardFrom(circuit.coils, read(LEVEL_HZ)) };
  });
  const base = reference && aloneDb(reference, bare);
  return {
    circuit,
    states: bare.map((one) => stateFacts(one, base)),
    ...(reference ? { reference } : {}),
  };
}

function referenceCoil({ coils }: Circuit, named?: string): Coil | undefined {
  const byName = coils.find(({ id }) => id === named);
  if (byName) return byName;
  return [...coils].sort((first, second) => Math.abs(first.turnArea - 1) - Math.abs(second.turnArea - 1))[0];
}

/** Hum of one coil alone, in the first state that has it. */
function aloneDb(
  reference: Coil,
  states: readonly { readonly inside: InState; readonly heard: readonly Heard[] }[],
): number[] | undefined {
  const where = states.find(({ heard }) => heard.some(({ coil }) => coil.id === reference.id));
  const alone = where && aloneIn(where.inside, reference.id);
  return alone && humDb(alone, HUM_HZ);
}

interface Bare {
  readonly inside: InState;
  readonly heard: readonly Heard[];
  readonly read: ReturnType<typeof transferReader>;
}

function stateFacts({ inside, heard, read }: Bare, base: readonly number[] | undefined): StateFacts {
  const sound = soundOf(inside, heard);
  const { ohms, weights } = ohmsBetween(resistorsOf(inside), inside.output, inside.ground);
  const known = heard.length < 2 || heard.every(({ humSign }) => humSign !== undefined);
  const dB =
    base && known && heard.length > 0 ? relative(humFrom(inside.circuit.coils, read, HUM_HZ), base) : undefined;
  return {
    inside,
    heard,
    ...(sound ? { sound } : {}),
    ohms,
    weights,
    phases: phasesOf(inside.circuit, heard),
    ...(dB ? { humDb: dB, hum: humWord(dB) } : {}),
  };
}

function relative(dB: readonly number[], base: readonly number[]): number[] {
  return dB.map((value, index) => value - (base[index] ?? 0));
}

function phasesOf({ coils }: Circuit, heard: readonly Heard[]): Phase[] {
  return stringGroups(coils).map((strings): Phase => {
    const here = heard.filter(({ coil, stringSign }) => coil.strings.includes(strings[0] ?? 0) && stringSign !== 0);
    const signs = new Set(here.map(({ stringSign }) => stringSign));
    if (here.length > 1 && signs.has(undefined)) return { strings, heard: here };
    return { strings, heard: here, inPhase: signs.size < 2 };
  });
}
