/**
 * The wiring of a job as a circuit of plain numbers, and what each number rests on.
 *
 * What nobody has given gets a stated prior: the inductance of a coil goes with its resistance, 0.45 H a kΩ within a
 * factor of 1.6 either way, its capacitance is 100 pF within a factor of 2 (from readings of coils in docs/sources.md:
 * 2.4 H with 6.2 k, 3 H with 4 k, 1.7 to 3.5 H a humbucker coil; 80 to 200 pF). Every response that rests on one is shown
 * as a band.
 */
import { type Circuit, type Coil, type Fixed, groupsOf, type Pairing, type Track } from "../circuit/index.ts";
import type { WiredCoil, WiredPair, Wiring } from "../job/index.ts";
import { type Known, type Quantity, valueOr } from "../quantity/index.ts";

export const PRIOR = {
  henriesPerOhm: 0.45e-3,
  henriesFactor: 1.6,
  farads: 100e-12,
  faradsFactor: 2,
  /** A coil whose ohms nobody has read. */
  ohms: 7000,
  ohmsFactor: 2,
  potOhms: 250e3,
  potFactor: 2,
  /** Of the inductances of two coils side by side. */
  coupling: 0.15,
} as const;

/** Largest factor by which a value may be off either way; 1: known. */
export interface Guess {
  readonly path: string;
  readonly kind: "ohms" | "henries" | "farads" | "pot";
  readonly factor: number;
  /** Coils, tracks or parts that rest on it. */
  readonly part: string;
}

export interface WiredCircuit {
  readonly circuit: Circuit;
  readonly guesses: readonly Guess[];
  /** The quantity behind the ohms of a coil, track or part. */
  readonly ohmsOf: ReadonlyMap<string, Quantity>;
}

/** @returns undefined where the job describes no wiring, or no coil */
export function circuitOf(wiring: Wiring | undefined): WiredCircuit | undefined {
  if (!wiring || wiring.coils.length === 0) return undefined;
  const guesses: Guess[] = [];
  const coils = wiring.coils.map((coil) => coilOf(coil, guesses));
  const solderedTo = groupsOf(
    [],
    wiring.wires.map(({ from, to }) => [from, to] as const),
  );
  const pairings: Pairing[] = [];
  const strays: Fixed[] = [];
  for (const pair of wiring.pairs) {
    const [first, second] = pair.coils.map((id) => coils.find((coil) => coil.id === id));
    if (!first || !second) continue;
    pairings.push({ coils: pair.coils, henries: mutualOf(pair, first, second), arrangement: pair.arrangement });
    const stray = strayOf(pair, first, second, solderedTo);
    if (stray) strays.push(stray);
  }
  const tracks = wiring.tracks.map((track): Track => {
    if (!track.ohms.known)
      guesses.push({ path: track.ohms.path, kind: "pot", factor: PRIOR.potFactor, part: track.id });
    return { ...track, ohms: valueOr(track.ohms, PRIOR.potOhms) };
  });
  const circuit: Circuit = {
    lugs: wiring.devices.flatMap(({ id, lugs }) => lugs.map((lug) => `${id}.${lug}`)),
    coils,
    pairings,
    fixed: [
      ...strays,
      ...wiring.components
        .filter(({ value }) => value.known && value.value > 0)
        .map(({ id, kind, value }) => ({ id, kind, a: `${id}.a`, b: `${id}.b`, value: valueOr(value, 0) })),
    ],
    tracks,
    switches: wiring.switches,
    wires: wiring.wires.map(({ id, from, to, colour, length }) => ({
      id,
      from,
      to,
      ...(colour === "" ? {} : { colour }),
      ...(length.known ? { lengthMm: length.value } : {}),
    })),
    inside: wiring.inside,
    metal: wiring.metal,
    jack: {
      tip: "jack.tip",
      sleeve: "jack.sleeve",
      ...(wiring.jack === "stereo" ? { ring: "jack.ring" } : {}),
    },
    batteries: wiring.devices
      .filter(({ kind }) => kind === "battery")
      .map(({ id }) => ({ id, plus: `${id}.plus`, minus: `${id}.minus` })),
  };
  const ohmsOf = new Map<string, Quantity>([
    ...wiring.coils.map(({ id, ohms }) => [id, ohms] as const),
    ...wiring.tracks.map(({ id, ohms }) => [id, ohms] as const),
    ...wiring.components.filter(({ kind }) => kind === "resistor").map(({ id, value }) => [id, value] as const),
  ]);
  return { circuit, guesses, ohmsOf };
}

function coilOf(coil: WiredCoil, guesses: Guess[]): Coil {
  const {
    id,
    pickup,
    name,
    strings,
    start,
    finish,
    ohms,
    henries,
    farads,
    eddyOhms,
    turnArea,
    loudness,
    winding,
    kick,
  } = coil;
  if (!ohms.known) guesses.push({ path: ohms.path, kind: "ohms", factor: PRIOR.ohmsFactor, part: id });
  if (!henries.known) guesses.push({ path: henries.path, kind: "henries", factor: PRIOR.henriesFactor, part: id });
  if (!farads.known) guesses.push({ path: farads.path, kind: "farads", factor: PRIOR.faradsFactor, part: id });
  const value = valueOr(ohms, PRIOR.ohms);
  return {
    id,
    pickup,
    name,
    strings,
    start,
    finish,
    ohms: value,
    henries: valueOr(henries, value * PRIOR.henriesPerOhm),
    farads: valueOr(farads, PRIOR.farads),
    ...(known(eddyOhms) ? { eddyOhms: eddyOhms.value } : {}),
    turnArea: valueOr(turnArea, 1),
    loudness: valueOr(loudness, 1),
    ...(winding === undefined ? {} : { winding }),
    ...(kick === undefined ? {} : { kick }),
  };
}

function known(quantity: Quantity): quantity is Known {
  return quantity.known;
}

/** M = (series - first - second) / 2; a pair whose series inductance nobody has given is taken as coupled by k = 0.15. */
function mutualOf({ henries }: WiredPair, first: Coil, second: Coil): number {
  if (!henries.known) return PRIOR.coupling * Math.sqrt(first.henries * second.henries);
  const mutual = (henries.value - first.henries - second.henries) / 2;
  const most = 0.9 * Math.sqrt(first.henries * second.henries);
  return Math.max(0, Math.min(most, mutual));
}

/**
 * What the whole pickup has beyond its coils in series: between the two ends that are left free. Which two are joined the
 * wiring says; else, aiding for strings, alike kicks run start to finish twice and unlike ones meet at their finishes.
 */
function strayOf(
  { farads, pickup }: WiredPair,
  first: Coil,
  second: Coil,
  solderedTo: (lug: string) => string,
): Fixed | undefined {
  if (!farads.known || first.farads <= 0 || second.farads <= 0) return undefined;
  const inSeries = (first.farads * second.farads) / (first.farads + second.farads);
  const value = farads.value - inSeries;
  if (value <= 0) return undefined;
  const [a, b] = freeEnds(first, second, solderedTo);
  return { id: `${pickup}:stray`, kind: "capacitor", a, b, value };
}

function freeEnds(first: Coil, second: Coil, solderedTo: (lug: string) => string): readonly [string, string] {
  const ends = (coil: Coil) => [coil.start, coil.finish] as const;
  for (const mine of ends(first))
    for (const theirs of ends(second))
      if (solderedTo(mine) === solderedTo(theirs))
        return [
          mine === first.start ? first.finish : first.start,
          theirs === second.start ? second.finish : second.start,
        ];
  return [first.start, first.kick === second.kick ? second.finish : second.start];
}

/** The same circuit with its guesses moved: `towards` +1 takes each to its largest value, -1 to its least. */
export function movedBy(circuit: Circuit, guesses: readonly Guess[], towards: ReadonlyMap<Guess, number>): Circuit {
  const factorOf = (part: string, kind: Guess["kind"]): number =>
    guesses.reduce(
      (product, guess) =>
        guess.part === part && guess.kind === kind ? product * guess.factor ** (towards.get(guess) ?? 0) : product,
      1,
    );
  return {
    ...circuit,
    coils: circuit.coils.map((coil) => ({
      ...coil,
      ohms: coil.ohms * factorOf(coil.id, "ohms"),
      henries: coil.henries * factorOf(coil.id, "henries"),
      farads: coil.farads * factorOf(coil.id, "farads"),
    })),
    tracks: circuit.tracks.map((track) => ({ ...track, ohms: track.ohms * factorOf(track.id, "pot") })),
  };
}
