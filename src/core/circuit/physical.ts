/**
 * The one description of a wiring: devices with their lugs, and what is soldered to what. Every analysis, check and
 * drawing is a pass over it, so that none can disagree with another.
 *
 * A lug is named "device.lug": "volume.2", "lever.p1-c", "bridge.orange" (the end of a pickup's conductor).
 *
 * Signs of a coil. Winding w = +1 where a mains field makes its finish positive against its start; kick = w m, +1 where
 * steel brought to its poles makes its finish positive (red probe on the finish, black on the start, the meter goes up);
 * 0 where the coil hears no string. Hum is a level: the emf of a field goes with w times turns and area.
 */
import type { ContactMap } from "./contact-map.ts";
import type { Taper } from "./taper.ts";

export interface Coil {
  readonly id: string;
  /** The pickup it belongs to. */
  readonly pickup: string;
  /** In a person's words, e.g. "Reef A". */
  readonly name: string;
  /** Strings that it hears, 1 = thinnest. */
  readonly strings: readonly number[];
  readonly start: string;
  readonly finish: string;
  /** Copper at 20 °C. */
  readonly ohms: number;
  readonly henries: number;
  readonly farads: number;
  /** Loss by eddy currents, as a resistance across the coil; left out: none known. */
  readonly eddyOhms?: number;
  /** Turns times area against the other coils of the job. */
  readonly turnArea: number;
  /** Left out where nobody knows. */
  readonly winding?: 1 | -1;
  readonly kick?: 1 | -1 | 0;
  /** How loud a string makes it against the other coils, where somebody has read that; 1: equal coils. */
  readonly loudness: number;
}

/** Two coils that share a field. */
export interface Pairing {
  readonly coils: readonly [string, string];
  /** Size of the mutual inductance. */
  readonly henries: number;
  readonly arrangement: "side by side" | "stacked";
}

/** A resistance, a capacitance, or the stray capacitance of a pickup's lead. */
export interface Fixed {
  readonly id: string;
  readonly kind: "resistor" | "capacitor";
  readonly a: string;
  readonly b: string;
  /** Ω or F. */
  readonly value: number;
}

/** One track of a pot; a stacked pot has two. */
export interface Track {
  readonly id: string;
  /** The control it belongs to. */
  readonly control: string;
  /** Where the wiper arrives fully anticlockwise, seen from the shaft's end; the wiper; fully clockwise. */
  readonly low: string;
  readonly wiper: string;
  readonly high: string;
  readonly ohms: number;
  readonly taper: Taper;
  /** The wiper leaves the track at the clockwise stop. */
  readonly noLoad: boolean;
  /** Which way it is meant to rise. */
  readonly rises: "clockwise" | "anticlockwise";
}

export interface Switch {
  readonly id: string;
  readonly map: ContactMap;
}

/** A wire, or a part's own lead, soldered at both ends. */
export interface Wire {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly colour?: string;
  readonly lengthMm?: number;
}

/** Metal that is neither lug nor wire: covers, base plates, pot cases, strings, foil. */
export interface Metal {
  readonly lug: string;
  readonly what: "string ground" | "shield" | "cover" | "base plate" | "case" | "bare lead";
  readonly name: string;
}

export interface Jack {
  readonly tip: string;
  readonly sleeve: string;
  readonly ring?: string;
}

export interface Battery {
  readonly id: string;
  readonly plus: string;
  readonly minus: string;
}

export interface Circuit {
  readonly lugs: readonly string[];
  readonly coils: readonly Coil[];
  readonly pairings: readonly Pairing[];
  readonly fixed: readonly Fixed[];
  readonly tracks: readonly Track[];
  readonly switches: readonly Switch[];
  readonly wires: readonly Wire[];
  /** Joined inside a device for good: a base plate and its coil's start. */
  readonly inside: readonly (readonly [string, string])[];
  readonly metal: readonly Metal[];
  readonly jack: Jack;
  readonly batteries: readonly Battery[];
}

/** Where the switches stand and how far the shafts are turned. */
export interface State {
  readonly id: string;
  /** Position of each switch, by its name. */
  readonly switches: Readonly<Record<string, string>>;
  /** Travel of each track in the direction in which it is meant to rise, 0 to 1; 1 where nothing is said. */
  readonly travel: Readonly<Record<string, number>>;
}

/** What hangs on the jack. */
export interface Load {
  readonly cableFarads: number;
  /** Infinity: nothing is plugged in at the other end. */
  readonly inputOhms: number;
}

export const OPEN_JACK: Load = { cableFarads: 0, inputOhms: Number.POSITIVE_INFINITY };

/** How far a track is turned clockwise, 0 to 1. */
export function turnOf(track: Track, state: State): number {
  const travel = Math.min(1, Math.max(0, state.travel[track.id] ?? 1));
  return track.rises === "clockwise" ? travel : 1 - travel;
}
