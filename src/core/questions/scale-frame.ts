/**
 * Where each string's own scale ends on the body: the datum of everything about the bridge.
 *
 * Several ways may have been read; the surest is used and all are kept, so that a question can say what another way of
 * measuring would be worth.
 */
import type { Instrument } from "../job/index.ts";
import type { Asking } from "../ledger/index.ts";
import { derive, type Known, type Quantity, standardUncertainty, unknown } from "../quantity/index.ts";
import { fretShare, scaleLineFromHeelChainMm, scaleLineFromScaleLengthMm, stringRuns } from "../scale/index.ts";

export type ScaleLineWay = "carried over" | "heel chain" | "from fret 12" | "printed figures";

export interface ScaleLineCandidate {
  readonly way: ScaleLineWay;
  readonly words: string;
  readonly formula: string;
  readonly quantity: Known;
  /** What went in, for the sum. */
  readonly from: readonly Known[];
}

export type ScaleFrame =
  | {
      readonly known: true;
      readonly best: ScaleLineCandidate;
      readonly candidates: readonly ScaleLineCandidate[];
      /** u of the end of each string's scale, string 1 first; they share the line's error terms. */
      readonly ends: readonly Known[];
      /** u = x + offset, x counted from the nut's face on the centre line. */
      readonly offsetMm: number;
      /** Each string's x at the nut; 0 unless multi-scale. */
      readonly nutX: readonly number[];
      readonly scaleLengths: readonly Known[];
      readonly multiScale: boolean;
      /** Places u count from the nut's face: nobody has measured the pocket, or there is none. */
      readonly fromNut: boolean;
    }
  | { readonly known: false; readonly missing: readonly Quantity[] };

/** Laying a rule from fret 12 to the bridge and marking there costs one more reading (steel rule). */
const MARKING_U_MM = 0.25;

export function scaleFrame(asking: Asking<Instrument>): ScaleFrame {
  return asking.derive("scale frame", ({ subject }) => computeFrame(subject));
}

function computeFrame(instrument: Instrument): ScaleFrame {
  const { neck } = instrument;
  const lengths: Known[] = [];
  for (const length of neck.scaleLengths) {
    if (!length.known) return { known: false, missing: [neck.nutToFret12] };
    lengths.push(length);
  }
  const candidates = lineCandidates(instrument, lengths);
  const best = [...candidates].sort((a, b) => standardUncertainty(a.quantity) - standardUncertainty(b.quantity))[0];
  if (!best)
    return {
      known: false,
      missing: neck.boltOn ? [neck.fret12ToHeelEnd, neck.nutToFret12].filter((quantity) => !quantity.known) : [LINE],
    };
  const values = lengths.map((length) => length.value);
  const multiScale = Math.max(...values) - Math.min(...values) > 1e-9;
  const offsetMm = best.quantity.value - 2 * halfScale(neck.nutToFret12, lengths).valueMm;
  const { endWallX } = instrument.scaleLine;
  const fromNut = endWallX?.known ? endWallX.value === 0 : best.way === "from fret 12";
  if (!multiScale) {
    return {
      known: true,
      best,
      candidates,
      ends: lengths.map(() => best.quantity),
      offsetMm,
      nutX: values.map(() => 0),
      scaleLengths: lengths,
      multiScale,
      fromNut,
    };
  }
  if (!neck.squareFret.known) return { known: false, missing: [neck.squareFret] };
  const nutY = placesOf(neck.nutY);
  const bridgeY = bridgePlaces(instrument);
  if (!nutY) return { known: false, missing: neck.nutY.filter((quantity) => !quantity.known).slice(0, 1) };
  const runs = stringRuns({
    scaleLengthsMm: values,
    nutYMm: nutY,
    bridgeYMm: bridgeY ?? nutY,
    squareFret: neck.squareFret.value,
    measured: "along the string",
  });
  const middle = mean(values);
  // The line is where a string of the mean length would end. A string's own end lies behind the square fret, which all
  // share, by its own share of its own length: what it differs from the mean by counts that much, however the line was found.
  const behind = 1 - fretShare(neck.squareFret.value);
  const ends = runs.map((run, index) =>
    derive(`scaleLine.${index + 1}`, "length", best.quantity.value + run.scaleEndXMm - middle, [
      { quantity: best.quantity, sensitivity: 1 },
      { quantity: lengths[index] as Known, sensitivity: behind },
      ...shared(lengths, -behind),
    ]),
  );
  return {
    known: true,
    best,
    candidates,
    ends,
    offsetMm,
    nutX: runs.map((run) => run.nutXMm),
    scaleLengths: lengths,
    multiScale,
    fromNut,
  };
}

function lineCandidates(instrument: Instrument, lengths: readonly Known[]): ScaleLineCandidate[] {
  const { neck, scaleLine } = instrument;
  const { nutToFret12, fret12ToHeelEnd, heelGap, nutToHeelEnd } = neck;
  const out: ScaleLineCandidate[] = scaleLine.read
    .filter((quantity): quantity is Known => quantity.known)
    .map((quantity) => ({
      way: "carried over",
      words: `carried over to the body (${quantity.tool ?? quantity.origin})`,
      formula: "S as read",
      quantity,
      from: [quantity],
    }));
  // Places that count from the nut know nothing of the heel; with the end wall's x written down they would.
  const heel = !(scaleLine.endWallX?.known && scaleLine.endWallX.value === 0);
  if (heel && nutToFret12.known && fret12ToHeelEnd.known && heelGap.known) {
    const value = scaleLineFromHeelChainMm({
      nutToFret12Mm: nutToFret12.value,
      fret12ToHeelEndMm: fret12ToHeelEnd.value,
      heelGapMm: heelGap.value,
    });
    out.push({
      way: "heel chain",
      words: `from nut, fret 12 and heel by the rule${heelGap.origin === "assumed" ? ", the heel taken as pushed home" : ""}`,
      formula: "S = (nut to fret 12) − (fret 12 to heel end) − heel gap",
      quantity: {
        ...derive("scaleLine.u", "length", value, [
          { quantity: nutToFret12, sensitivity: 1 },
          { quantity: fret12ToHeelEnd, sensitivity: -1 },
          { quantity: heelGap, sensitivity: -1 },
        ]),
        origin: weaker(nutToFret12, fret12ToHeelEnd),
      },
      from: [nutToFret12, fret12ToHeelEnd, heelGap],
    });
  }
  if (heel && nutToHeelEnd.known && heelGap.known && !out.some((candidate) => candidate.way === "heel chain"))
    out.push(fromWholeScale(halfScale(nutToFret12, lengths), lengths, nutToHeelEnd, heelGap));
  if (out.length === 0) out.push(...fromFret12(instrument, lengths));
  return out;
}

/** From the scale length and the neck's own length, the heel taken as it stands. */
function fromWholeScale(
  half: HalfScale,
  lengths: readonly Known[],
  nutToHeelEnd: Known,
  heelGap: Known,
): ScaleLineCandidate {
  const value = scaleLineFromScaleLengthMm({
    scaleLengthMm: 2 * half.valueMm,
    nutToHeelEndMm: nutToHeelEnd.value,
    heelGapMm: heelGap.value,
  });
  const printed = lengths.some((length) => length.origin !== "measured");
  // A reading of fret 12 stands for the middle of lengths that are only printed.
  const whole =
    printed && half.read
      ? half.inputs.map((input) => ({ ...input, sensitivity: 2 * input.sensitivity }))
      : shared(lengths, 1);
  const from = [...whole.map(({ quantity }) => quantity), nutToHeelEnd, heelGap];
  const measured = from.slice(0, -1).every((quantity) => quantity.origin === "measured");
  return {
    way: measured ? "heel chain" : "printed figures",
    words: measured
      ? "from the scale and the neck's length as measured"
      : "from the printed scale length and the neck's length",
    formula:
      printed && half.read
        ? "S = 2 (nut to fret 12) − (nut to heel end) − heel gap"
        : "S = L − (nut to heel end) − heel gap",
    quantity: {
      ...derive("scaleLine.u", "length", value, [
        ...whole,
        { quantity: nutToHeelEnd, sensitivity: -1 },
        { quantity: heelGap, sensitivity: -1 },
      ]),
      origin: measured ? "measured" : "assumed",
    },
    from,
  };
}

/** Not known, and no reading of the neck alone would tell. */
const LINE: Quantity = unknown("scaleLine.u", "length");

/** The gap at the heel has its doubt, but what the line rests on is the two readings. */
function weaker(a: Known, b: Known): Known["origin"] {
  const origins = [a.origin, b.origin];
  return origins.includes("assumed") ? "assumed" : origins.includes("data sheet") ? "data sheet" : "measured";
}

/** Has anything on the body been placed by u, so that u cannot count from the nut? */
function placedFromEndWall({ body, bridge, neck }: Instrument): boolean {
  const places = [
    ...body.holes.map((hole) => hole.at.u),
    ...body.cavities.map((cavity) => cavity.centre.u),
    ...body.channels.map((channel) => channel.from.u),
    ...neck.plane.straightedge.map((row) => row.u),
  ];
  return [...places, body.tailEdge, bridge?.chosenPlace, body.groundWire?.u].some((place) => place?.known);
}

/**
 * With the neck left on and nothing known of the heel, places are told from fret 12: half the scale beyond it. The
 * reading and the marking are the doubt. It needs the body's places counted from the nut too: as x with the end wall's
 * x, or none at all, and then u counts from the nut. Places from an end wall that nobody tied to the nut would be
 * taken as if they were from the nut.
 */
function fromFret12(instrument: Instrument, lengths: readonly Known[]): ScaleLineCandidate[] {
  const { endWallX } = instrument.scaleLine;
  if (!endWallX?.known && placedFromEndWall(instrument)) return [];
  const half = halfScale(instrument.neck.nutToFret12, lengths);
  const value = 2 * half.valueMm - (endWallX?.known ? endWallX.value : 0);
  const base = derive("scaleLine.u", "length", value, half.inputs);
  const from = half.inputs.map(({ quantity }) => quantity);
  const doubt = [
    ...base.doubt,
    {
      id: "scaleLine.marking",
      u: MARKING_U_MM,
      shape: "normal" as const,
      what: "laying the rule from fret 12 and marking",
    },
  ];
  return [
    {
      way: "from fret 12",
      words: "half the scale beyond fret 12",
      formula: "S = 2 (nut to fret 12), marked from fret 12",
      quantity: { ...base, doubt, origin: from.every((read) => read.origin === "measured") ? "measured" : "assumed" },
      from,
    },
  ];
}

interface HalfScale {
  /** From the nut to fret 12 on the centre line. */
  readonly valueMm: number;
  readonly inputs: readonly { readonly quantity: Known; readonly sensitivity: number }[];
  /** It is the reading itself. */
  readonly read: boolean;
}

/** Where fret 12 is: as read, or half of lengths that were themselves measured; a printed length only for want of both. */
function halfScale(nutToFret12: Quantity, lengths: readonly Known[]): HalfScale {
  const valueMm = mean(lengths.map((length) => length.value)) / 2;
  const read = nutToFret12.known ? nutToFret12 : undefined;
  const measured = lengths.every((length) => length.origin === "measured");
  if (read && (!measured || Math.abs(valueMm - read.value) < 1e-9))
    return { valueMm: read.value, inputs: [{ quantity: read, sensitivity: 1 }], read: true };
  return { valueMm, inputs: shared(lengths, 0.5), read: false };
}

/** The mean of the lengths, each value once: strings of one scale length share it. */
function shared(lengths: readonly Known[], sensitivity: number): { quantity: Known; sensitivity: number }[] {
  const different = [...new Map(lengths.map((quantity) => [quantity.path, quantity])).values()];
  return different.map((quantity) => ({ quantity, sensitivity: sensitivity / different.length }));
}

/** What places u of this instrument are counted from, in words. */
export function countedFrom(frame: Extract<ScaleFrame, { known: true }>): string {
  return frame.fromNut ? "from the nut" : "behind the pocket's end wall";
}

/** y of each string at the bridge, string 1 first, with the bridge on the centre line. */
export function bridgePlaces(instrument: Instrument): number[] | undefined {
  const pieces = instrument.bridge?.pieces ?? [];
  const places: number[] = [];
  for (const piece of pieces) {
    for (const saddle of piece.saddles) {
      if (!saddle.q.known || !piece.side.known) return undefined;
      places[saddle.string - 1] = piece.side.value + saddle.q.value;
    }
  }
  return places.length === instrument.stringCount ? places : undefined;
}

export function placesOf(quantities: readonly Quantity[]): number[] | undefined {
  const values: number[] = [];
  for (const quantity of quantities) {
    if (!quantity.known) return undefined;
    values.push(quantity.value);
  }
  return values;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
