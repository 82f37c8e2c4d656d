/** Each string's setback, by the best evidence there is. Shared by the bridge and the pickups. */
import type { StringData } from "../job/index.ts";
import { derive, type Known, type Quantity, unknown } from "../quantity/index.ts";
import { setbackFromCentsMm, setbackFromOldSaddleMm } from "../scale/index.ts";
import type { Source } from "../verdict/index.ts";

export interface Setback {
  readonly quantity: Quantity;
  /** In words, for the sum. */
  readonly how: string;
  readonly formula: string;
  readonly source: Source;
}

const DERIVED: Source = {
  text: "String length: the open string and the fretted part both grow by the setback",
  mark: "derived",
};
const RULE_OF_THUMB: Source = {
  text: "Fixed setbacks of 1.6 mm on the first string to 4.0 on the last, as one builder gives them for a six-string",
  mark: "common practice",
};

/** A fixed rule misses by about this much for strings it was not made for; a plain third needs far more. */
const RULE_U_MM = 1;
const RULE_FIRST_MM = 1.6;
const RULE_LAST_MM = 4;
const RULE_SCALE_MM = 648;

/**
 * Best evidence first: the old saddle as intonated, cents from a trial, a stated figure, and last a rule of thumb that
 * says so.
 *
 * @param strings how many the instrument has, for the rule of thumb
 */
export function setbackOf(string: StringData, scaleLength: Quantity, strings: number): Setback {
  const { setback } = string;
  // A spare string's is read under its own name.
  const { path } = setback.stated;
  if (setback.nutToFret12.known && setback.fret12ToContact.known) return fromOldSaddle(string, path);
  if (setback.cents.known && scaleLength.known) return fromCents(string, scaleLength, setback.cents, path);
  if (setback.stated.known)
    return {
      quantity: { ...setback.stated, path },
      how: "stated",
      formula: "s as stated",
      source: { text: "The owner's own figure", mark: "common practice" },
    };
  if (!scaleLength.known)
    return { quantity: unknown("neck.scaleLength", "length"), how: "not known", formula: "", source: DERIVED };
  const part = strings < 2 ? 0 : (string.number - 1) / (strings - 1);
  const value = ((RULE_FIRST_MM + (RULE_LAST_MM - RULE_FIRST_MM) * part) * scaleLength.value) / RULE_SCALE_MM;
  return {
    quantity: {
      known: true,
      path,
      kind: "length",
      value,
      origin: "assumed",
      said: "",
      doubt: [{ id: `${path}:rule`, u: RULE_U_MM, shape: "normal", what: "a fixed rule, not this string" }],
    },
    how: "a fixed rule, not this string",
    formula: "s = (1.6 + 2.4 (n − 1)/(N − 1)) L/648",
    source: RULE_OF_THUMB,
  };
}

function fromOldSaddle(string: StringData, path: string): Setback {
  const { nutToFret12, fret12ToContact, change } = string.setback as {
    nutToFret12: Known;
    fret12ToContact: Known;
    change: Quantity;
  };
  const changed = change.known ? change.value : 0;
  const value = setbackFromOldSaddleMm({
    nutToFret12Mm: nutToFret12.value,
    fret12ToContactMm: fret12ToContact.value,
    changeMm: changed,
  });
  const from = [
    { quantity: fret12ToContact, sensitivity: 1 },
    { quantity: nutToFret12, sensitivity: -1 },
    ...(change.known ? [{ quantity: change, sensitivity: 1 }] : []),
  ];
  const base = derive(path, "length", value, from);
  return {
    quantity: base,
    how: "the old saddle as intonated",
    formula: "s = (fret 12 to contact) − (nut to fret 12) + change",
    source: { ...DERIVED, text: "A difference of two readings with one rule: the rule's own error cancels" },
  };
}

function fromCents(string: StringData, scaleLength: Known, cents: Known, path: string): Setback {
  const { fret, trialSetback } = string.setback;
  const fretNumber = fret.known ? fret.value : 12;
  const trial = {
    scaleLengthMm: scaleLength.value,
    fret: fretNumber,
    trialSetbackMm: trialSetback.known ? trialSetback.value : 0,
  };
  const value = setbackFromCentsMm({ ...trial, cents: cents.value });
  const perCent = setbackFromCentsMm({ ...trial, cents: cents.value + 1 }) - value;
  // The scale length enters by a part in a thousand: its doubt is left out.
  const from = [
    { quantity: cents, sensitivity: perCent },
    ...(trialSetback.known ? [{ quantity: trialSetback, sensitivity: 1 }] : []),
  ];
  return {
    quantity: {
      ...derive(path, "length", value, from),
      origin: cents.origin,
      ...(cents.tool === undefined ? {} : { tool: cents.tool }),
      said: cents.said,
    },
    how: `cents at fret ${fretNumber} from a trial`,
    formula: "s = s_trial + c L/(1731.2 (2^(n/12) − 1))",
    source: DERIVED,
  };
}
