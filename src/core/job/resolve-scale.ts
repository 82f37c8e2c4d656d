/**
 * The scale length of each string, from what was read on the neck and what is printed of it.
 *
 * What was measured comes before what is printed: frets read with one placing, then a length that was itself measured,
 * then twice the reading from nut to fret 12, then the printed figure. Two of them that lie further apart than twice
 * their joint doubt are a dispute, unless a second measurement bears out the one that is used.
 * Source of the test of agreement: as for readings, see readings.ts.
 */
import { InputError } from "../errors.ts";
import { derive, type Known, type Quantity, standardUncertainty } from "../quantity/index.ts";
import { fitScale, suspectReadings } from "../scale/index.ts";
import type { FretSlip, Neck, TwoScales } from "./instrument.ts";
import type { JobFile } from "./schema.ts";
import { scaled, type Taker } from "./taker.ts";

type FileNeck = NonNullable<JobFile["instrument"]["neck"]>;

/** A printed scale length is an assumption; makers' figures for one name differ by about this (common practice). */
const PRINTED_SCALE_U_MM = 0.5;
/** Two figures that differ by more than this many joint uncertainties contradict each other (k = 2). */
const COVERAGE = 2;
const TWICE = "twice nut to fret 12";
const NUT_TO_FRET_12 = "instrument.neck.nutToFret12";

/** One figure for the scale length, by one way. */
interface Evidence {
  readonly words: string;
  readonly quantity: Known;
}

/** One scale length for each string, and whether what was read and printed agrees. */
export function resolveScale(
  neck: FileNeck,
  strings: number,
  taker: Taker,
): Pick<Neck, "scaleLengths" | "scaleDispute"> {
  const from12 = scaled(taker.take(neck.nutToFret12, NUT_TO_FRET_12), 2, "neck.scaleLength");
  const written = writtenLengths(neck, strings, taker);
  const frets = written.spread ? undefined : fittedScale(neck, taker);
  const fitted = frets?.length;
  const lengths = written.spread ? written.lengths : written.lengths.map((one) => pick(fitted, one, from12));
  const whole = middle(written);
  const evidence = [
    ...told("the frets as read", fitted),
    ...told(written.spread ? "the middle of the strings' lengths" : "the scale length as written", whole),
    ...told(TWICE, from12),
  ];
  const relied = written.spread && whole ? pick(undefined, whole, from12) : lengths[0];
  const used = evidence.find(({ quantity }) => quantity === relied);
  const scaleDispute = frets?.slip ?? (used && dispute(used, evidence, taker));
  return { scaleLengths: lengths, ...(scaleDispute ? { scaleDispute } : {}) };
}

/** Twice the reading from nut to fret 12 is better than a figure nobody measured. */
function pick(fitted: Known | undefined, written: Quantity, from12: Quantity): Quantity {
  if (fitted) return fitted;
  if (written.known && written.origin === "measured") return written;
  return from12.known ? from12 : written;
}

function told(words: string, quantity: Quantity | undefined): Evidence[] {
  return quantity?.known ? [{ words, quantity }] : [];
}

function dispute(used: Evidence, all: readonly Evidence[], taker: Taker): TwoScales | undefined {
  const others = all.filter((one) => one !== used);
  const against = others.find((one) => !agree(used.quantity, one.quantity));
  if (!against) return undefined;
  const again = taker
    .asFound(NUT_TO_FRET_12)
    .map(({ quantity }) => scaled(quantity, 2, "neck.scaleLength"))
    .filter((quantity) => quantity.known);
  // The reading that is used counts among these itself; of another way one is enough.
  const wanted = used.words === TWICE ? 2 : 1;
  const borneOut =
    again.filter((quantity) => agree(used.quantity, quantity)).length >= wanted ||
    others.some(({ quantity }) => quantity.origin === "measured" && agree(used.quantity, quantity));
  if (borneOut) return undefined;
  return {
    about: "two figures",
    usedMm: used.quantity.value,
    usedWords: used.words,
    otherMm: against.quantity.value,
    otherWords: against.words,
  };
}

function agree(a: Known, b: Known): boolean {
  return Math.abs(a.value - b.value) <= COVERAGE * Math.hypot(trusted(a), trusted(b)) + 1e-12;
}

/** A data sheet's last digit says nothing about how true its figure is for this neck. */
function trusted(quantity: Known): number {
  const u = standardUncertainty(quantity);
  return quantity.origin === "measured" ? u : Math.max(u, PRINTED_SCALE_U_MM);
}

interface Written {
  readonly lengths: readonly Quantity[];
  /** Each string has its own. */
  readonly spread: boolean;
}

/** As the file says; a multi-scale neck given by its outer strings is spread evenly between them. */
function writtenLengths(neck: FileNeck, strings: number, taker: Taker): Written {
  const path = "instrument.neck.scaleLength";
  const options = { origin: "assumed" as const, assumedU: PRINTED_SCALE_U_MM };
  const written = neck.scaleLength;
  if (Array.isArray(written)) {
    if (written.length !== strings)
      throw new InputError(
        path,
        `lists ${written.length} lengths for ${strings} strings`,
        "Give one for each string, string 1 first, or only the two outer ones",
      );
    const lengths = written.map((raw, index) => taker.take(raw, `${path}[${index}]`, options));
    return { lengths, spread: true };
  }
  if (typeof written === "object") {
    const first = taker.take(written.string1, `${path}.string1`, options);
    const last = taker.take(written.lastString, `${path}.lastString`, options);
    const lengths = Array.from({ length: strings }, (_, index) =>
      between(first, last, index / (strings - 1), `neck.scaleLength.${index + 1}`),
    );
    return { lengths, spread: true };
  }
  const one = taker.take(written, path, options);
  return { lengths: Array.from({ length: strings }, () => one), spread: false };
}

/** What a string on the centre line would have. */
function middle({ lengths, spread }: Written): Quantity | undefined {
  if (!spread) return lengths[0];
  const known = lengths.filter((length): length is Known => length.known);
  if (known.length < lengths.length) return undefined;
  const value = known.reduce((sum, length) => sum + length.value, 0) / known.length;
  const from = known.map((quantity) => ({ quantity, sensitivity: 1 / known.length }));
  return derive("neck.scaleLength", "length", value, from);
}

interface Frets {
  readonly length: Known;
  readonly slip?: FretSlip;
}

/** Beats a printed figure and one doubled reading: the rule's start and a nut set forward drop out. */
function fittedScale(neck: FileNeck, taker: Taker): Frets | undefined {
  const rows = neck.fretReadings ?? [];
  if (rows.length === 0) return undefined;
  const path = "instrument.neck.fretReadings";
  const read = rows.map((row, index) => ({
    fret: row.fret,
    at: taker.take(row.at, `${path}[${index}].at`, { tool: "steel rule" }),
  }));
  const known = read.flatMap(({ fret, at }) =>
    at.known ? [{ fret, path: at.path, atMm: at.value, u: standardUncertainty(at) }] : [],
  );
  const ruleMm = Math.max(...known.map(({ u }) => u));
  try {
    const { residualsMm, scatterMm } = fitScale({ readings: known });
    const suspects = ruleMm > 0 ? suspectReadings({ readings: known, readingDoubtMm: ruleMm }) : [];
    const slip: FretSlip = {
      about: "frets",
      suspects: suspects.map((index) => {
        const { fret, path: of } = known[index] as (typeof known)[number];
        return { fret, path: of, offMm: Math.abs(residualsMm[index] ?? 0) };
      }),
      allOfThem: suspects.length === known.length,
    };
    // The frets may scatter more than the rule explains: worn crowns, a neck that bends. Then they are doubted as they scatter.
    return {
      length: fittedLength(known, Math.max(ruleMm, scatterMm)),
      ...(suspects.length > 0 ? { slip } : {}),
    };
  } catch (error) {
    throw error instanceof InputError ? new InputError(path, error.problem, error.remedy) : error;
  }
}

function fittedLength(readings: readonly { fret: number; atMm: number }[], readingDoubtMm: number): Known {
  const { scaleLengthMm, scaleLengthErrorMm } = fitScale({ readings, readingDoubtMm });
  return {
    known: true,
    path: "neck.scaleLength",
    kind: "length",
    value: scaleLengthMm,
    origin: "measured",
    tool: "steel rule",
    said: `${readings.length} frets, one placing`,
    doubt: [
      {
        id: "neck.scaleLength:frets",
        u: scaleLengthErrorMm,
        shape: "normal",
        what: "scale length by least squares over the frets",
      },
    ],
  };
}

function between(first: Quantity, last: Quantity, part: number, path: string): Quantity {
  if (!first.known) return first;
  if (!last.known) return last;
  const value = first.value + (last.value - first.value) * part;
  const mixed = derive(path, "length", value, [
    { quantity: first, sensitivity: 1 - part },
    { quantity: last, sensitivity: part },
  ]);
  return {
    ...mixed,
    origin:
      first.origin === "measured" && last.origin === "measured"
        ? "measured"
        : first.origin === "assumed" || last.origin === "assumed"
          ? "assumed"
          : "data sheet",
  };
}
