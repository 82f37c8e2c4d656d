/**
 * Contact maps of the trade's switches. Lugs: "p1-c" the common of pole 1, "p1-1" its first throw, and so on. Which way
 * the shaft points while it stands in position 1 differs from make to make: it is found with the meter, not stated here.
 *
 * Sources: docs/sources.md, switches (read on makers' and reference pages; type 1 and 2 common practice).
 */
import type { ContactMap } from "./contact-map.ts";

export type SwitchKind =
  | "one throw a position"
  | "neighbours bridged between"
  | "on-on"
  | "on-off-on"
  | "on-on-on type 1"
  | "on-on-on type 2"
  | "on-both-on";

/** Throws closed by pole `pole` in each position, in order; an empty list: open. */
type Throws = (pole: number, throws: number) => readonly (readonly number[])[];

const MIDDLE_FIRST = (pole: number): number => (pole % 2 === 1 ? 2 : 1);

const THROWS: Readonly<Record<SwitchKind, Throws>> = {
  "one throw a position": (_, throws) => range(throws).map((one) => [one]),
  // With three throws five detents: in between, two neighbours are touched at once.
  "neighbours bridged between": (_, throws) =>
    range(2 * throws - 1).map((detent) => (detent % 2 === 1 ? [(detent + 1) / 2] : [detent / 2, detent / 2 + 1])),
  "on-on": () => [[1], [2]],
  "on-off-on": () => [[1], [], [2]],
  "on-on-on type 1": (pole) => [[1], [MIDDLE_FIRST(pole)], [2]],
  "on-on-on type 2": (pole) => [[1], [3 - MIDDLE_FIRST(pole)], [2]],
  "on-both-on": () => [[1], [1, 2], [2]],
};

const TOGGLE_THROWS = 2;

/** @param throws of each pole; toggles have two, whatever is said */
export function switchOfKind(
  kind: SwitchKind,
  poles: number,
  throws = TOGGLE_THROWS,
  makeBeforeBreak?: boolean,
): ContactMap {
  const toggle = kind.startsWith("on-");
  const count = toggle ? TOGGLE_THROWS : throws;
  const positions = THROWS[kind](1, count).length;
  return {
    lugs: range(poles).flatMap((pole) => [common(pole), ...range(count).map((one) => throwLug(pole, one))]),
    positions: range(positions).map((position) => ({
      name: String(position),
      joined: range(poles).flatMap((pole) => {
        const closed = THROWS[kind](pole, count)[position - 1] ?? [];
        return closed.length === 0 ? [] : [[common(pole), ...closed.map((one) => throwLug(pole, one))]];
      }),
    })),
    timing: makeBeforeBreak === undefined ? "not known" : makeBeforeBreak ? "make before break" : "break before make",
  };
}

function common(pole: number): string {
  return `p${pole}-c`;
}

function throwLug(pole: number, one: number): string {
  return `p${pole}-${one}`;
}

function range(count: number): number[] {
  return Array.from({ length: count }, (_, index) => index + 1);
}
