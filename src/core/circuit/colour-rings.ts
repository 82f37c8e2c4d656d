/**
 * Value of a resistor by its coloured rings.
 *
 * Model: two figures (four rings) or three (five rings), the number of zeros, the tolerance. Where the rings also read
 * from the other end, both readings are told.
 * Left out: three and six rings; grey, orange and yellow as tolerance, which have changed from issue to issue.
 * Source: IEC 60062, from memory.
 */
import { InputError } from "../errors.ts";
import { isPreferred } from "./preferred-values.ts";

const FIGURES = ["black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "grey", "white"] as const;

export type RingColour = (typeof FIGURES)[number] | "gold" | "silver";

export const RING_COLOURS: readonly RingColour[] = [...FIGURES, "gold", "silver"];

const TOLERANCE_PERCENT: Partial<Readonly<Record<RingColour, number>>> = {
  brown: 1,
  red: 2,
  green: 0.5,
  blue: 0.25,
  violet: 0.1,
  gold: 5,
  silver: 10,
};

export interface RingReading {
  readonly nominalOhms: number;
  readonly tolerancePercent: number;
  readonly leastOhms: number;
  readonly mostOhms: number;
}

export interface RingReadings {
  /** Read in the order given. */
  readonly asGiven: RingReading;
  /** Read from the other end, where that gives a resistor too. */
  readonly fromOtherEnd?: RingReading;
  readonly doubt?: string;
}

/**
 * Reads four or five rings.
 *
 * @param rings in order, the tolerance last
 * @throws InputError if there are not four or five, or a colour cannot stand in its place
 * @example
 * readColourRings(["yellow", "violet", "orange", "gold"]).asGiven; // 47000 ohm, 5 %
 */
export function readColourRings(rings: readonly RingColour[]): RingReadings {
  if (rings.length !== 4 && rings.length !== 5) {
    throw new InputError("rings", `must be four or five, got ${rings.length}`, "Use a meter for any other number");
  }
  const asGiven = readOneWay(rings);
  if ("place" in asGiven) {
    const problem = `${rings[asGiven.place]} cannot stand here`;
    throw new InputError(`rings[${asGiven.place}]`, problem, "Turn the resistor round, or read it with a meter");
  }
  const back = readOneWay([...rings].reverse());
  const twoFigures = rings.length === 4;
  if ("place" in back || sameRings(rings) || (twoFigures && !isPreferred(back.nominalOhms, "E24"))) return { asGiven };
  const doubt = `the rings read ${asGiven.nominalOhms} ohm from one end and ${back.nominalOhms} ohm from the other: use a meter`;
  return { asGiven, fromOtherEnd: back, doubt };
}

function readOneWay(rings: readonly RingColour[]): RingReading | { readonly place: number } {
  const figureCount = rings.length - 2;
  const figures = rings.slice(0, figureCount).map(figureOf);
  const wrong = figures.findIndex((figure, index) => figure < 0 || (index === 0 && figure === 0));
  if (wrong >= 0) return { place: wrong };
  const zeros = zerosOf(rings[figureCount]);
  if (zeros === undefined) return { place: figureCount };
  const last = rings[figureCount + 1];
  const tolerancePercent = last && TOLERANCE_PERCENT[last];
  if (tolerancePercent === undefined) return { place: figureCount + 1 };
  const nominalOhms = Number(`${figures.join("")}e${zeros}`);
  return {
    nominalOhms,
    tolerancePercent,
    leastOhms: nominalOhms * (1 - tolerancePercent / 100),
    mostOhms: nominalOhms * (1 + tolerancePercent / 100),
  };
}

function figureOf(colour: RingColour): number {
  const place = RING_COLOURS.indexOf(colour);
  return place < FIGURES.length ? place : -1;
}

function zerosOf(colour: RingColour | undefined): number | undefined {
  if (colour === "gold") return -1;
  if (colour === "silver") return -2;
  const zeros = colour === undefined ? -1 : figureOf(colour);
  return zeros < 0 ? undefined : zeros;
}

function sameRings(rings: readonly RingColour[]): boolean {
  return rings.every((colour, index) => colour === rings.at(-1 - index));
}
