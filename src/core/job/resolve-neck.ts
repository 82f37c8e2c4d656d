/** The neck that will be on, and the strings with their evidence. */
import { InputError } from "../errors.ts";
import { type Quantity, unknown } from "../quantity/index.ts";
import type { Neck, SetbackEvidence, StringData } from "./instrument.ts";
import type { PlaceReader } from "./resolve-body.ts";
import { resolveScale } from "./resolve-scale.ts";
import type { Amount, FilePart, JobFile } from "./schema.ts";
import { scaled, type Taker } from "./taker.ts";

type FileNeck = NonNullable<JobFile["instrument"]["neck"]>;
type StringsPart = Extract<FilePart, { kind: "strings" }>;
type FileSetup = NonNullable<NonNullable<JobFile["fit"]>["setup"]>;

/** Outer strings stand this far inside the nut's edges where only the nut's width is known (common practice). */
const NUT_EDGE_MM = 3.5;

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
    ...resolveScale(neck, strings, taker),
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
  return spreadAcross(spread, strings, bassSide, "neck.nutY", taker);
}

/**
 * Even spacing between the outer strings, string 1 on the treble side; a string whose own place was read stands there.
 * Where nothing is known, the spread is what is asked for: one reading gives every string.
 *
 * @throws InputError for a place read without its sign: it would put the string on the other side of the middle
 */
export function spreadAcross(
  spread: Quantity,
  strings: number,
  bassSide: 1 | -1,
  path: string,
  taker: Taker,
): Quantity[] {
  return Array.from({ length: strings }, (_, index) => {
    const own = taker.take(undefined, `${path}[${index}]`);
    if (!spread.known) return own.known ? own : spread;
    const even = scaled(spread, -bassSide * (0.5 - index / (strings - 1)), `${path}[${index}]`);
    if (!own.known || !even.known) return even;
    if (own.value * even.value < 0)
      throw new InputError(
        own.path,
        `was read as ${own.value} mm, but string ${index + 1} stands on the side of ${even.value < 0 ? "y < 0" : "y > 0"}`,
        "Write it with a minus on the side of y < 0, without one on the other",
      );
    return own;
  });
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
