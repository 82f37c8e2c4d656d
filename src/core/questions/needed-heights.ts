/** How high each saddle's contact must stand: shared by the questions of height, winding and pickups, and by the sheets. */
import type { Instrument } from "../job/index.ts";
import type { Asking } from "../ledger/index.ts";
import type { Known, Quantity } from "../quantity/index.ts";
import {
  countPlaneFrom,
  type FretPlane,
  fretPlaneFromHeel,
  fretPlaneFromStraightedge,
  type StringLine,
  saddleHeightMm,
} from "../setup/index.ts";
import { type SaddleCase, xOf } from "./bridge-model.ts";
import { contactAt, type PlacedPiece, type Placement, placement } from "./placement.ts";

export interface NeededHeights {
  readonly known: true;
  /** Contact heights above the top, string 1 first, without a shim. */
  readonly neededMm: readonly number[];
  /** x of each contact from the nut. */
  readonly contactsMm: readonly number[];
  readonly lines: readonly StringLine[];
  readonly leaves: Readonly<Record<string, Quantity>>;
  /** Heights from leaf values, string 1 first. */
  readonly heightsOf: (x: Readonly<Record<string, number>>) => number[];
  /** x of the pocket's mouth and end wall; undefined if the pocket was not measured. */
  readonly pocket: { readonly mouthMm: number; readonly heelEndMm: number } | undefined;
  readonly planeWords: string;
}

/** Needed heights, shared by the height question, the winding question and the sheets. */
export function neededHeights(
  asking: Asking<Instrument>,
): NeededHeights | { readonly known: false; readonly missing: readonly Quantity[] } {
  return asking.derive("needed heights", (inner) => compute(inner));
}

function compute(asking: Asking<Instrument>): NeededHeights | { known: false; missing: readonly Quantity[] } {
  const placed = placement(asking);
  if (!placed.known) return placed;
  const { subject } = asking;
  const { neck } = subject;
  const { frame } = placed.model;
  const plane = planeOf(subject, placed);
  const saddles = placed.pieces.flatMap((piece) => piece.saddles.map((saddle) => ({ saddle, piece })));
  const wanted = saddles.flatMap(({ saddle }) => wantedOf(subject, saddle.string));
  const missing = [
    ...plane.missing,
    ...pocketForShim(subject),
    ...[neck.relief, neck.freeLength, neck.radiusAtNut, ...wanted].filter((one) => !one.known),
  ];
  if (missing.length > 0) return { known: false, missing };
  const setbacks = saddles.map(({ saddle }) => [`setback${saddle.string}`, saddle.setback] as const);
  const leaves: Record<string, Quantity> = { ...plane.leaves, relief: neck.relief, ...Object.fromEntries(setbacks) };
  const start = plane.of(valuesOf(plane.leaves));
  const lines = saddles.map(({ saddle, piece }) => lineOf(subject, placed, piece, saddle, start));
  const heightsOf = (x: Readonly<Record<string, number>>): number[] => {
    const at = plane.of(x);
    return lines.map((line, index) => {
      const { string } = saddles[index]?.saddle ?? { string: 0 };
      const own = fromItsNut(at, frame.nutX[string - 1]);
      return saddleHeightMm({
        ...line,
        plane: own,
        reliefMm: x.relief as number,
        setbackMm: x[`setback${string}`] as number,
      });
    });
  };
  const { pocket } = subject.body;
  const heelEndMm = xOf(frame, 0);
  return {
    known: true,
    neededMm: heightsOf(valuesOf(leaves)),
    contactsMm: lines.map((line, index) => line.scaleLengthMm + line.setbackMm + (frame.nutX[index] ?? 0)),
    lines,
    leaves,
    heightsOf,
    pocket: pocket.length.known ? { mouthMm: heelEndMm - pocket.length.value, heelEndMm } : undefined,
    planeWords: plane.words,
  };
}

/** How far a shim lifts the contacts hangs on the pocket it lies in; without one the pocket's length does not matter. */
function pocketForShim({ shim, body, neck }: Instrument): Quantity[] {
  return shim.known && shim.value > 0 && neck.boltOn && !body.pocket.length.known ? [body.pocket.length] : [];
}

/** What one string's height rests on beside the neck. */
function wantedOf({ strings, neck }: Instrument, string: number): Quantity[] {
  const data = strings[string - 1];
  const nutY = neck.nutY[string - 1];
  return [data?.action, data?.nutHeight, nutY].filter((quantity) => quantity !== undefined);
}

/** A string's places count from its own nut, which on a multi-scale neck is not the centre line's. */
function fromItsNut(plane: FretPlane, nutX = 0): FretPlane {
  return nutX === 0 ? plane : countPlaneFrom(plane, -nutX);
}

type KnownPlacement = Extract<Placement, { known: true }>;

function lineOf(
  instrument: Instrument,
  placed: KnownPlacement,
  { piece, pose }: PlacedPiece,
  saddle: SaddleCase,
  plane: FretPlane,
): StringLine {
  const { neck, strings } = instrument;
  const { frame, bridge } = placed.model;
  const { string } = saddle;
  // A unit's own place across is where its string crosses the saddle; its front edge stands a little aside of that.
  const asMeant = piece.side.known ? piece.side.value : 0;
  const contactYMm = bridge.kind === "single units" || !pose ? asMeant + saddle.q.value : contactAt(saddle, pose).yMm;
  // All of them were seen to be known.
  const value = (quantity: Quantity | undefined) => (quantity as Known).value;
  return {
    scaleLengthMm: frame.scaleLengths[string - 1]?.value ?? 0,
    setbackMm: saddle.setback.value,
    plane: fromItsNut(plane, frame.nutX[string - 1]),
    reliefMm: value(neck.relief),
    freeLengthMm: value(neck.freeLength),
    board: boardOf(instrument),
    nutYMm: value(neck.nutY[string - 1]),
    contactYMm,
    nutHeightMm: value(strings[string - 1]?.nutHeight),
    actionMm: value(strings[string - 1]?.action),
  };
}

function valuesOf(leaves: Readonly<Record<string, Quantity>>): Record<string, number> {
  return Object.fromEntries(
    Object.entries(leaves).map(([name, quantity]) => [name, quantity.known ? quantity.value : Number.NaN]),
  );
}

function boardOf({ neck }: Instrument): StringLine["board"] {
  const atNut = neck.radiusAtNut.known ? neck.radiusAtNut.value : Number.POSITIVE_INFINITY;
  const atEnd = neck.radiusAtEnd.known ? neck.radiusAtEnd.value : atNut;
  const endX = neck.radiusEndX.known ? neck.radiusEndX.value : 1;
  return { atNutMm: atNut, atEndMm: atEnd, endXMm: endX };
}

interface PlaneCase {
  readonly leaves: Readonly<Record<string, Quantity>>;
  /** Plane with places counted from the nut. */
  readonly of: (x: Readonly<Record<string, number>>) => FretPlane;
  readonly missing: readonly Quantity[];
  readonly words: string;
}

function planeOf(instrument: Instrument, placed: KnownPlacement): PlaneCase {
  const { plane } = instrument.neck;
  const offset = placed.model.frame.offsetMm;
  const edges = plane.straightedge.filter((row) => row.u.known && row.z.known);
  if (edges.length >= 2) {
    return {
      leaves: Object.fromEntries(edges.map((row, index) => [`edge${index}`, row.z])),
      of: (x) =>
        countPlaneFrom(
          fretPlaneFromStraightedge(
            edges.map((row, index) => ({ atMm: (row.u as Known).value, zMm: x[`edge${index}`] as number })),
          ),
          -offset,
        ),
      missing: [],
      words: "straightedge on the frets, read at two places",
    };
  }
  const { heelThickness, fretHeight } = plane;
  const { depth } = instrument.body.pocket;
  return {
    leaves: { heel: heelThickness, pocket: depth, fret: fretHeight },
    of: (x) =>
      fretPlaneFromHeel({
        heelThicknessMm: x.heel as number,
        pocketDepthMm: x.pocket as number,
        fretHeightMm: x.fret as number,
      }),
    missing: [heelThickness, depth, fretHeight].filter((quantity) => !quantity.known),
    words: "heel thickness less pocket depth plus fret height",
  };
}
