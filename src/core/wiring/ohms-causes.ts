/**
 * Why a meter at the jack shows something else than the circuit says: the circuit is changed by one usual mistake after
 * the other, and those whose reading is the one that was taken are told, the likeliest first.
 *
 * Model: direct current, so a capacitor is open; copper by temperature. The order is common practice, no source.
 * Left out: two mistakes at once, a meter's own error beyond the limits of the parts.
 */
import { type Circuit, copperFactor, type State } from "../circuit/index.ts";
import type { WiredCircuit } from "./circuit-of.ts";
import { type OhmsBand, OPEN_FROM_OHMS, ohmsBand, readingAgrees } from "./ohms.ts";

export interface OhmsCause {
  readonly kind:
    | "pot not across"
    | "pot forgotten"
    | "coil open"
    | "coil shorted"
    | "temperature"
    | "knob not full"
    | "direct current blocked"
    | "capacitor bypassed";
  /** What would make the meter show it: half a sentence. */
  readonly what: string;
  readonly remedy: string;
  /** What the meter would show then, by the circuit. */
  readonly ohms: number;
}

export interface OhmsRead {
  readonly wired: WiredCircuit;
  readonly state: State;
  readonly celsius: number;
  readonly readOhms: number;
  /** What the circuit as described reads. */
  readonly band: OhmsBand;
}

/** Track resistances that pots are sold with. Common practice, no source. */
const USUAL_POTS_OHMS = [250e3, 500e3, 1e6] as const;
/** Coils outside of this are not at rest in a room. */
const [COLDEST, WARMEST] = [-10, 50] as const;
const KNOB_STEPS = 40;

/** @returns those that explain the reading, likeliest first; none if no single usual mistake does */
export function ohmsCauses(read: OhmsRead): OhmsCause[] {
  const open = read.readOhms >= OPEN_FROM_OHMS;
  if (open && Number.isFinite(read.band.ohms)) return [blocked(read.band.ohms)];
  if (open) return [];
  if (!Number.isFinite(read.band.ohms)) return capacitorBypassed(read);
  const nearest = (first: OhmsCause, second: OhmsCause) =>
    Math.abs(first.ohms - read.readOhms) - Math.abs(second.ohms - read.readOhms);
  return [
    ...potNotAcross(read),
    ...potForgotten(read),
    ...coilsOpen(read).sort(nearest),
    ...otherTemperature(read),
    ...coilsShorted(read).sort(nearest),
    ...knobNotFull(read),
  ];
}

/** The same circuit with every capacitor bridged: what stands behind one that blocks. Infinity: nothing does. */
export function ohmsBehindCapacitors({ wired, state, celsius }: Omit<OhmsRead, "readOhms" | "band">): OhmsBand {
  const { fixed } = wired.circuit;
  const bridged = fixed.flatMap(({ id, kind, a, b }) => (kind === "capacitor" ? [{ id, from: a, to: b }] : []));
  return bandWith(wired, { ...wired.circuit, wires: [...wired.circuit.wires, ...bridged] }, state, celsius);
}

/** Coils without the pots beside them: lug 1 of every pot taken off. */
export function ohmsOfCoilsAlone({ wired, state, celsius }: Omit<OhmsRead, "readOhms" | "band">): OhmsBand {
  return bandWith(
    wired,
    withoutPots(
      wired.circuit,
      wired.circuit.tracks.map(({ low }) => low),
    ),
    state,
    celsius,
  );
}

function bandWith(wired: WiredCircuit, circuit: Circuit, state: State, celsius: number): OhmsBand {
  return ohmsBand({ ...wired, circuit }, state, celsius);
}

function withoutPots(circuit: Circuit, lows: readonly string[]): Circuit {
  return { ...circuit, wires: circuit.wires.filter(({ from, to }) => !lows.includes(from) && !lows.includes(to)) };
}

function blocked(ohms: number): OhmsCause {
  return {
    kind: "direct current blocked",
    what: "a capacitor in series with the output, or a buffer, blocks direct current; else a wire on the way to the tip is off",
    remedy:
      "Look for a capacitor or a circuit board between volume and jack; there is none: read from the tip back, lug by lug, to where the ohms appear",
    ohms,
  };
}

function capacitorBypassed(read: OhmsRead): OhmsCause[] {
  const behind = ohmsBehindCapacitors(read);
  if (!readingAgrees(behind, read.readOhms)) return [];
  return [
    {
      kind: "capacitor bypassed",
      what: "the capacitor in series is bridged, or there is none",
      remedy: "Read across the capacitor's own leads: next to nothing means that it is bridged or broken down",
      ohms: behind.ohms,
    },
  ];
}

function potNotAcross({ wired, state, celsius, readOhms }: OhmsRead): OhmsCause[] {
  const { tracks } = wired.circuit;
  const sets = [...tracks.map((track) => [track]), ...(tracks.length > 1 ? [tracks] : [])];
  return sets.flatMap((some): OhmsCause[] => {
    const lows = some.map(({ low }) => low);
    const band = bandWith(wired, withoutPots(wired.circuit, lows), state, celsius);
    if (!readingAgrees(band, readOhms)) return [];
    const names = some.map(({ id }) => id).join(" and ");
    return [
      {
        kind: "pot not across",
        what: `the coils are read without ${names} beside them: ${lows.join(" and ")} has no way to ground, or there is no such pot`,
        remedy: `Read from ${lows.join(" and ")} to the sleeve: next to nothing is right`,
        ohms: band.ohms,
      },
    ];
  });
}

function potForgotten({ readOhms, band }: OhmsRead): OhmsCause[] {
  if (readOhms >= band.low) return [];
  const beside = (ohms: number, pot: number) => 1 / (1 / ohms + 1 / pot);
  return USUAL_POTS_OHMS.filter(
    (pot) => readOhms >= beside(band.low, 0.8 * pot) && readOhms <= beside(band.high, 1.2 * pot),
  )
    .slice(0, 1)
    .map((pot) => ({
      kind: "pot forgotten",
      what: `one more pot of ${pot / 1000} kΩ or so lies across the output`,
      remedy: "Count the volume pots between coils and jack, and enter each",
      ohms: beside(band.ohms, pot),
    }));
}

function coilsOpen({ wired, state, celsius, readOhms, band }: OhmsRead): OhmsCause[] {
  return coilsThatCount(wired, band).flatMap((coil): OhmsCause[] => {
    const circuit = { ...wired.circuit, coils: wired.circuit.coils.filter(({ id }) => id !== coil.id) };
    const without = bandWith(wired, circuit, state, celsius);
    if (!readingAgrees(without, readOhms)) return [];
    return [
      {
        kind: "coil open",
        what: `${coil.name} is open: its wire or one of its joints is broken, or it is not joined to the output`,
        remedy: `Read ${coil.name} by itself, ${coil.start} to ${coil.finish}: open means a broken coil, else a joint or a switch`,
        ohms: without.ohms,
      },
    ];
  });
}

function coilsShorted({ wired, state, celsius, readOhms, band }: OhmsRead): OhmsCause[] {
  return coilsThatCount(wired, band).flatMap((coil): OhmsCause[] => {
    const bridge = { id: `${coil.id}-bridge`, from: coil.start, to: coil.finish };
    const shorted = bandWith(wired, { ...wired.circuit, wires: [...wired.circuit.wires, bridge] }, state, celsius);
    if (!readingAgrees(shorted, readOhms) && !(shorted.ohms === 0 && readOhms < 10)) return [];
    return [
      {
        kind: "coil shorted",
        what: `${coil.name} is shorted, or a split takes it out`,
        remedy: `Look for a bridge between ${coil.start} and ${coil.finish}, and for bare wire at a case or foil`,
        ohms: shorted.ohms,
      },
    ];
  });
}

function coilsThatCount({ circuit }: WiredCircuit, { shares }: OhmsBand): Circuit["coils"] {
  return circuit.coils.filter(({ id }) => shares.some(({ part }) => part === id));
}

/** Copper alone: pots hardly change. */
function otherTemperature({ wired, state, celsius, readOhms, band }: OhmsRead): OhmsCause[] {
  if (coilsThatCount(wired, band).length === 0) return [];
  const at = (degrees: number) => ohmsBand(wired, state, degrees).ohms;
  if (readOhms < at(COLDEST) || readOhms > at(WARMEST)) return [];
  let [cold, warm] = [COLDEST as number, WARMEST as number];
  for (let round = 0; round < 40; round += 1) {
    const middle = (cold + warm) / 2;
    if (at(middle) < readOhms) cold = middle;
    else warm = middle;
  }
  const factor = copperFactor(warm) / copperFactor(celsius);
  return [
    {
      kind: "temperature",
      what: `the coils are at ${warm.toFixed(0)} °C and not at ${celsius.toFixed(0)} °C: copper then has ${factor.toFixed(3)} times the ohms`,
      remedy: "Let the guitar lie in the room for an hour, keep fingers off the metal, and read again",
      ohms: readOhms,
    },
  ];
}

/** A volume turned back puts a part of its track in series with the coils. */
function knobNotFull({ wired, state, celsius, readOhms, band }: OhmsRead): OhmsCause[] {
  if (readOhms <= band.high) return [];
  return wired.circuit.tracks.flatMap(({ id }): OhmsCause[] => {
    const most = Math.max(
      ...Array.from({ length: KNOB_STEPS }, (_, step) => {
        const travel = { ...state.travel, [id]: (step + 1) / (KNOB_STEPS + 1) };
        return ohmsBand(wired, { ...state, travel }, celsius).high;
      }).filter(Number.isFinite),
    );
    if (!(readOhms <= most)) return [];
    return [
      {
        kind: "knob not full",
        what: `${id} does not stand where it was said to: turned back, it reads up to ${(most / 1000).toFixed(0)} kΩ`,
        remedy: `Turn ${id} to its stop and read again`,
        ohms: readOhms,
      },
    ];
  });
}
