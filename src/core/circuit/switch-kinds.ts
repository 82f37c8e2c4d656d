/**
 * Contact maps of the kinds of switches and jacks that the trade knows.
 *
 * Lugs: "p1-c" is the common of pole 1, "p1-1", "p1-2" its throws. Jacks: "tip", "ring", "sleeve".
 * Left out: where a lug sits on the part; switches of one maker only. Read the part in the hand before soldering.
 * Source: pages on guitar switches (alexplorer.net: in-between detents of the lever, middle of on-both-on, halves of
 * on-on-on at the middle; a page on switch types: on-off-on); common practice, no source, where said so.
 */
import { InputError } from "../errors.ts";
import type { ContactMap, SwitchPosition } from "./contact-map.ts";

type Timing = ContactMap["timing"];

export interface PolesAndThrows {
  readonly poles: number;
  readonly throws: number;
}

/** The common of a pole, counted from 1. */
export function commonLug(pole: number): string {
  return `p${pole}-c`;
}

/** A throw of a pole, both counted from 1. */
export function throwLug(pole: number, throwNumber: number): string {
  return `p${pole}-${throwNumber}`;
}

/**
 * A lever that joins each common to one throw in each position; positions "1", "2" and on.
 *
 * @param lever.timing unless given not known; levers of two poles and three throws usually make before they break
 * @throws InputError unless both counts are whole numbers, poles from 1 and throws from 2
 */
export function lever(lever: PolesAndThrows & { readonly timing?: Timing }): ContactMap {
  requireCounts(lever);
  return {
    lugs: lugsOf(lever),
    positions: upTo(lever.throws).map((at) => ({ name: `${at}`, joined: perPole(lever.poles, () => [at]) })),
    timing: lever.timing ?? "not known",
  };
}

/**
 * The lever of three throws with five detents: "2" and "4" join the common to both neighbours.
 *
 * @param poles 2 unless given
 */
export function fiveDetentLever(poles = 2): ContactMap {
  requireCounts({ poles, throws: 3 });
  const detents = [[1], [1, 2], [2], [2, 3], [3]];
  return {
    lugs: lugsOf({ poles, throws: 3 }),
    positions: detents.map((throws, index) => ({ name: `${index + 1}`, joined: perPole(poles, () => throws) })),
    timing: "make before break",
  };
}

/**
 * A rotary switch; positions "1", "2" and on.
 *
 * @param rotary.shorting true if the new contact closes before the old one opens
 * @throws InputError unless both counts are whole numbers, poles from 1 and throws from 2
 */
export function rotary(rotary: PolesAndThrows & { readonly shorting: boolean }): ContactMap {
  return lever({ ...rotary, timing: rotary.shorting ? "make before break" : "break before make" });
}

/** Throws that each pole has in each position, pole by pole. */
type ToggleThrows = Readonly<Record<string, (pole: number) => readonly number[]>>;

export type ToggleKind = "on-on" | "on-off-on" | "on-on-on type 1" | "on-on-on type 2" | "on-both-on";

/**
 * What each toggle joins. Its contacts close opposite to the lever, so that "up" is throw 3 of lugs counted downwards
 * 1, common, 3: here throw 2. Types 1 and 2 differ in which pole moves first: common practice, no source.
 */
const TOGGLES: Readonly<Record<ToggleKind, ToggleThrows>> = {
  "on-on": { up: () => [2], down: () => [1] },
  "on-off-on": { up: () => [2], middle: () => [], down: () => [1] },
  "on-on-on type 1": { up: () => [2], middle: (pole) => (pole === 1 ? [2] : [1]), down: () => [1] },
  "on-on-on type 2": { up: () => [2], middle: (pole) => (pole === 1 ? [1] : [2]), down: () => [1] },
  "on-both-on": { up: () => [2], middle: () => [1, 2], down: () => [1] },
};

/**
 * A toggle of two throws; positions "up", "middle" where it has one, and "down".
 *
 * @param toggle.poles of type 1 and 2 the first pole goes one way at the middle and all others the other
 * @throws InputError unless poles is a whole number from 1, and from 2 for on-on-on
 */
export function toggle(toggle: { readonly kind: ToggleKind; readonly poles: number }): ContactMap {
  const { kind, poles } = toggle;
  requireCounts({ poles, throws: 2 });
  if (kind.startsWith("on-on-on") && poles < 2) {
    throw new InputError("poles", `must be 2 or more for ${kind}, got ${poles}`, "Take on-both-on for one pole");
  }
  return {
    lugs: lugsOf({ poles, throws: 2 }),
    positions: Object.entries(TOGGLES[kind]).map(([name, throws]) => ({ name, joined: perPole(poles, throws) })),
    timing: kind === "on-both-on" ? "make before break" : "break before make",
  };
}

/**
 * The leaf toggle for two pickups: "first" and "second" join one of them to the common, "both" joins the two.
 *
 * A position is named for the throw that it joins; the lever points away from it.
 */
export function leafToggle(): ContactMap {
  const names = { first: [1], both: [1, 2], second: [2] };
  return {
    lugs: lugsOf({ poles: 1, throws: 2 }),
    positions: Object.entries(names).map(([name, throws]) => ({ name, joined: perPole(1, () => throws) })),
    timing: "make before break",
  };
}

/**
 * The double-pole switch below a pot that is pushed and pulled; positions "down" and "up".
 *
 * @param downJoins the throw that each common is joined to with the knob down: it differs from part to part, so it is
 * read with the meter
 */
export function pushPull(downJoins: 1 | 2): ContactMap {
  const other = downJoins === 1 ? 2 : 1;
  return {
    lugs: lugsOf({ poles: 2, throws: 2 }),
    positions: [
      { name: "down", joined: perPole(2, () => [downJoins]) },
      { name: "up", joined: perPole(2, () => [other]) },
    ],
    timing: "break before make",
  };
}

export type JackKind = "mono" | "stereo" | "switched mono";

/**
 * A jack's own contacts, "empty" and with a mono plug in it ("plugged in").
 *
 * "stereo": the plug's sleeve joins ring to sleeve, which switches a battery on. "switched mono": the tip rests on its
 * switch contact ("tip switch") while the jack is empty. The plug itself is no lug. Common practice, no source.
 */
export function jack(kind: JackKind): ContactMap {
  const lugs = {
    mono: ["tip", "sleeve"],
    stereo: ["tip", "ring", "sleeve"],
    "switched mono": ["tip", "tip switch", "sleeve"],
  };
  const empty = kind === "switched mono" ? [["tip", "tip switch"]] : [];
  const plugged = kind === "stereo" ? [["ring", "sleeve"]] : [];
  const positions: SwitchPosition[] = [
    { name: "empty", joined: empty },
    { name: "plugged in", joined: plugged },
  ];
  return { lugs: lugs[kind], positions, timing: "not known" };
}

function lugsOf({ poles, throws }: PolesAndThrows): string[] {
  return upTo(poles).flatMap((pole) => [commonLug(pole), ...upTo(throws).map((one) => throwLug(pole, one))]);
}

/** One group for each pole that is joined to any throw. */
function perPole(poles: number, throwsOf: (pole: number) => readonly number[]): string[][] {
  return upTo(poles).flatMap((pole) => {
    const throws = throwsOf(pole);
    return throws.length === 0 ? [] : [[commonLug(pole), ...throws.map((one) => throwLug(pole, one))]];
  });
}

function upTo(count: number): number[] {
  return Array.from({ length: count }, (_, index) => index + 1);
}

function requireCounts({ poles, throws }: PolesAndThrows): void {
  const whole = (value: number, least: number) => Number.isInteger(value) && value >= least;
  if (!whole(poles, 1)) {
    throw new InputError("poles", `must be a whole number from 1, got ${poles}`, "Count the commons");
  }
  if (!whole(throws, 2)) {
    throw new InputError("throws", `must be a whole number from 2, got ${throws}`, "Count the lugs beside one common");
  }
}
