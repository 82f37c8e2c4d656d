/**
 * Numbers and letters of wires. Numbers follow the order of soldering; letters are those of IEC 60757 (from memory), a
 * colour that it does not have by its first two letters. A colour is always told in letters as well.
 */
import type { SolderGroup } from "./soldering.ts";

const LETTERS: Readonly<Record<string, string>> = {
  black: "BK",
  brown: "BN",
  red: "RD",
  orange: "OG",
  yellow: "YE",
  green: "GN",
  blue: "BU",
  violet: "VT",
  grey: "GY",
  gray: "GY",
  white: "WH",
  pink: "PK",
  gold: "GD",
  turquoise: "TQ",
  silver: "SR",
};

/** Dark enough to be seen on paper; what is not here is drawn in ink. */
const INKS: Readonly<Record<string, string>> = {
  BN: "#6b4423",
  RD: "#b3001b",
  OG: "#b35900",
  YE: "#7d6608",
  GN: "#006b3c",
  BU: "#0047ab",
  VT: "#6a0dad",
  GY: "#5f6368",
  PK: "#b8336a",
  TQ: "#006d6f",
};

export interface WireName {
  readonly number: number;
  /** Empty where no colour is said. */
  readonly letters: string;
  /** "7 BU". */
  readonly label: string;
  readonly ink?: string;
}

export function wireNames(groups: readonly SolderGroup[]): ReadonlyMap<string, WireName> {
  const names = new Map<string, WireName>();
  for (const { id, colour } of groups.flatMap(({ wires }) => wires)) {
    const number = names.size + 1;
    const letters = lettersOf(colour);
    const ink = INKS[letters];
    names.set(id, {
      number,
      letters,
      label: letters === "" ? `${number}` : `${number} ${letters}`,
      ...(ink ? { ink } : {}),
    });
  }
  return names;
}

function lettersOf(colour: string | undefined): string {
  if (colour === undefined || colour === "own lead") return "";
  return LETTERS[colour] ?? colour.slice(0, 2).toUpperCase();
}
