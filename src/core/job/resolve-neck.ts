/** The neck that will be on, and the strings with their evidence. */
import { InputError } from "../errors.ts";
import { derive, type Quantity, standardUncertainty, unknown } from "../quantity/index.ts";
import { fitScale } from "../scale/index.ts";
import type { Neck, SetbackEvidence, StringData } from "./instrument.ts";
import type { PlaceReader } from "./resolve-body.ts";
import type { Amount, FilePart, JobFile } from "./schema.ts";
import { scaled, type Taker } from "./taker.ts";

type FileNeck = NonNullable<JobFile["instrument"]["neck"]>;
type StringsPart = Extract<FilePart, { kind: "strings" }>;
type FileSetup = NonNullable<NonNullable<JobFile["fit"]>["setup"]>;

/** Outer strings stand this far inside the nut's edges where only the nut's width is known (common practice). */
const NUT_EDGE_MM = 3.5;
/** A printed scale length is an assumption; makers' figures for one name differ by about this (common practice). */
const PRINTED_SCALE_U_MM = 0.5;

export function resolveNeck(
  file: FileNeck | undefined,
  strings: number,
  bassSide: 1 | -1,
  taker: Taker,
  places: PlaceReader,
): Neck {
  const path = "instrument.neck";
  const neck = file ?? {};
  const take = (raw: Amount | undefined, key: string) => taker.take(raw, `${path}.${key}`);
  const radius = neck.radius;
  const oneRadius = radius === undefined || typeof radius !== "object" ? take(radius, "radius") : undefined;
  return {
    name: neck.name ?? "neck",
    boltOn: neck.boltOn ?? true,
    frets: taker.take(neck.frets, `${path}.frets`, { kind: "count", decided: true }),
    scaleLengths: scaleLengths(neck, strings, taker),
    squareFret: taker.take(neck.squareFret, `${path}.squareFret`, { kind: "count", decided: true }),
    nutToHeelEnd: take(neck.nutToHeelEnd, "nutToHeelEnd"),
    nutToFret12: take(neck.nutToFret12, "nutToFret12"),
    fret12ToHeelEnd: take(neck.fret12ToHeelEnd, "fret12ToHeelEnd"),
    heelGap: taker.take(neck.heelGap, `${path}.heelGap`, {
      assume: { value: 0, u: 0.3, why: "heel pushed home against the end wall, common practice" },
    }),
    nutWidth: take(neck.nutWidth, "nutWidth"),
    nutY: nutY(neck, strings, bassSide, taker),
    nutSlots: Array.from({ length: strings }, (_, index) => take(neck.nutSlots?.[index], `nutSlots[${index}]`)),
    radiusAtNut: oneRadius ?? take((radius as { atNut: Amount }).atNut, "radius.atNut"),
    radiusAtEnd: oneRadius ?? take((radius as { atEnd: Amount }).atEnd, "radius.atEnd"),
    radiusEndX: oneRadius
      ? unknown("neck.radius.endX", "length")
      : take((radius as { endX: Amount }).endX, "radius.endX"),
    plane: {
      heelThickness: take(neck.heelThickness, "heelThickness"),
      fretHeight: take(neck.fretHeight, "fretHeight"),
      straightedge: (neck.straightedge ?? []).map((row, index) => ({
        u: places.along(row, `${path}.straightedge[${index}]`),
        z: take(row.z, `straightedge[${index}].z`),
      })),
    },
    relief: taker.take(neck.relief, `${path}.relief`, {
      assume: { value: 0.2, u: 0.1, why: "usual relief, common practice" },
    }),
    freeLength: take(neck.freeLength, "freeLength"),
    boardWidthAtLastFret: take(neck.boardWidthAtLastFret, "boardWidthAtLastFret"),
    pocketPlay: take(neck.pocketPlay, "pocketPlay"),
  };
}

/** One scale length for each string; a multi-scale neck given by its outer strings is spread evenly between them. */
function scaleLengths(neck: FileNeck, strings: number, taker: Taker): Quantity[] {
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
    return written.map((raw, index) => taker.take(raw, `${path}[${index}]`, options));
  }
  if (typeof written === "object") {
    const first = taker.take(written.string1, `${path}.string1`, options);
    const last = taker.take(written.lastString, `${path}.lastString`, options);
    return Array.from({ length: strings }, (_, index) =>
      between(first, last, index / (strings - 1), `neck.scaleLength.${index + 1}`),
    );
  }
  const fitted = fittedScale(neck, taker);
  if (fitted) return Array.from({ length: strings }, () => fitted);
  const one = taker.take(written, path, options);
  const from12 = scaled(taker.take(neck.nutToFret12, "instrument.neck.nutToFret12"), 2, "neck.scaleLength");
  // Twice the reading from nut to fret 12 is better than a figure nobody measured.
  const used = one.known && one.origin !== "assumed" ? one : from12.known ? from12 : one;
  return Array.from({ length: strings }, () => used);
}

/** Beats a printed figure and one doubled reading: the rule's start and a nut set forward drop out. */
function fittedScale(neck: FileNeck, taker: Taker): Quantity | undefined {
  const rows = neck.fretReadings ?? [];
  if (rows.length === 0) return undefined;
  const path = "instrument.neck.fretReadings";
  const read = rows.map((row, index) => ({
    fret: row.fret,
    at: taker.take(row.at, `${path}[${index}].at`, { tool: "steel rule" }),
  }));
  const known = read.flatMap(({ fret, at }) =>
    at.known ? [{ fret, atMm: at.value, u: standardUncertainty(at) }] : [],
  );
  try {
    const { scaleLengthMm, scaleLengthErrorMm } = fitScale({
      readings: known,
      readingDoubtMm: Math.max(...known.map(({ u }) => u)),
    });
    return {
      known: true,
      path: "neck.scaleLength",
      kind: "length",
      value: scaleLengthMm,
      origin: "measured",
      tool: "steel rule",
      said: `${known.length} frets, one placing`,
      doubt: [
        {
          id: "neck.scaleLength:frets",
          u: scaleLengthErrorMm,
          shape: "normal",
          what: "scale length by least squares over the frets",
        },
      ],
    };
  } catch (error) {
    throw error instanceof InputError ? new InputError(path, error.problem, error.remedy) : error;
  }
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

function nutY(neck: FileNeck, strings: number, bassSide: 1 | -1, taker: Taker): Quantity[] {
  if (neck.nutY) {
    if (neck.nutY.length !== strings)
      throw new InputError(
        "instrument.neck.nutY",
        `lists ${neck.nutY.length} places for ${strings} strings`,
        "Give one for each string, string 1 first",
      );
    return neck.nutY.map((raw, index) => taker.take(raw, `instrument.neck.nutY[${index}]`));
  }
  let spread = taker.take(neck.nutSpread, "instrument.neck.nutSpread");
  if (!spread.known) {
    const width = taker.take(neck.nutWidth, "instrument.neck.nutWidth");
    if (width.known)
      spread = {
        ...width,
        path: "neck.nutSpread",
        value: width.value - 2 * NUT_EDGE_MM,
        origin: "assumed",
        said: "",
        doubt: [
          {
            id: "neck.nutSpread:assumed",
            u: 0.7,
            shape: "normal",
            what: "outer strings 3.5 mm inside the nut's edges, common practice",
          },
        ],
      };
  }
  return spreadAcross(spread, strings, bassSide, "neck.nutY");
}

/** Even spacing between the outer strings, string 1 on the treble side. */
export function spreadAcross(spread: Quantity, strings: number, bassSide: 1 | -1, path: string): Quantity[] {
  return Array.from({ length: strings }, (_, index) =>
    scaled(spread, -bassSide * (0.5 - index / (strings - 1)), `${path}[${index}]`),
  );
}

/** The strings of a set, or of its spares, with what is known of their place on this instrument. */
export function resolveStrings(
  part: StringsPart | undefined,
  partId: string,
  setup: FileSetup | undefined,
  which: "strings" | "spares",
  count: number,
  taker: Taker,
): StringData[] {
  const items = part?.[which] ?? {};
  const numbers =
    which === "strings" ? Array.from({ length: count }, (_, index) => index + 1) : Object.keys(items).map(Number);
  return numbers.map((number): StringData => {
    const path = `parts.${partId}.${which}.${number}`;
    const item = items[String(number)] ?? {};
    const set =
      setup?.[which]?.[String(number)] ??
      (which === "spares"
        ? { ...setup?.strings?.[String(number)], cents: undefined, setback: undefined, oldSaddle: undefined }
        : {});
    const here = `fit.setup.${which}.${number}`;
    return {
      number,
      name: item.name ?? "",
      note: item.note ?? "",
      frequency: taker.take(item.frequency, `${path}.frequency`, { kind: "frequency", decided: true }),
      gauge: taker.take(item.gauge, `${path}.gauge`),
      wound: item.wound ?? false,
      core: taker.take(item.core, `${path}.core`),
      unitMass: taker.take(item.unitMass, `${path}.unitMass`, { kind: "mass per length" }),
      action: taker.take(set.action, `${here}.action`, { decided: true }),
      nutHeight: taker.take(set.nutHeight, `${here}.nutHeight`, { decided: true }),
      setback: setbackEvidence(set, here, taker),
    };
  });
}

type FileStringSetup = NonNullable<FileSetup["strings"]>[string];

function setbackEvidence(set: FileStringSetup, path: string, taker: Taker): SetbackEvidence {
  const old = set.oldSaddle ?? {};
  return {
    nutToFret12: taker.take(old.nutToFret12, `${path}.oldSaddle.nutToFret12`),
    fret12ToContact: taker.take(old.fret12ToContact, `${path}.oldSaddle.fret12ToContact`),
    change: taker.take(old.change, `${path}.oldSaddle.change`, { origin: "assumed", assumedU: 0.3 }),
    cents: taker.take(set.cents, `${path}.cents`, { kind: "cents", tool: "trial" }),
    fret: taker.take(set.fret, `${path}.fret`, { kind: "count", decided: true }),
    trialSetback: taker.take(set.trialSetback, `${path}.trialSetback`),
    stated: taker.take(set.setback, `${path}.setback`, { origin: "assumed", assumedU: 0.4 }),
  };
}
