/** What the traveller has to know of the bridge's place, so that its steps say what the sheet and the list say. */
import type { Instrument } from "../job/index.ts";
import type { PlanPlaces, Turn } from "../plan/index.ts";
import { standardUncertainty } from "../quantity/index.ts";
import { type PlacedPiece, xOf } from "../questions/index.ts";
import { fretPositionMm } from "../scale/index.ts";
import { type KnownPlacement, registerOf } from "./context.ts";
import { placeOfPart } from "./geometry.ts";

export function planPlaces(placed: KnownPlacement, instrument: Instrument): PlanPlaces {
  const { frame } = placed.model;
  const { words, xMm } = registerOf(placed, instrument);
  const [first] = placed.pieces;
  const turn = first && turnOf(first, instrument);
  const margins = marginsOf(placed, instrument);
  const line = [...frame.candidates]
    .filter(({ way }) => way !== "carried over")
    .sort((a, b) => standardUncertainty(a.quantity) - standardUncertainty(b.quantity))[0]?.quantity;
  return {
    register: { words, uMm: xMm + frame.offsetMm },
    fromNut: frame.fromNut,
    fanned: frame.multiScale,
    ...(line ? { scaleLine: { uMm: line.value, doubtMm: standardUncertainty(line) } } : {}),
    ...(margins ? { margins } : {}),
    ...(turn ? { turn } : {}),
  };
}

/** Both outer strings at the last fret, straight from the nut slot to where the placed saddle holds the string. */
function marginsOf(placed: KnownPlacement, instrument: Instrument): PlanPlaces["margins"] {
  const { frets, boardWidthAtLastFret: width, nutY } = instrument.neck;
  if (!frets.known || !width.known) return undefined;
  const fret = frets.value;
  const half = width.value / 2;
  const toEdge = (string: number, sideSign: number): number | undefined => {
    const piece = placed.pieces.find(({ saddles }) => saddles.some((saddle) => saddle.string === string));
    const saddle = piece?.saddles.find((one) => one.string === string);
    const nut = nutY[string - 1];
    const scale = placed.model.frame.scaleLengths[string - 1];
    if (!piece?.pose || !saddle || !nut?.known || !scale) return undefined;
    const endMm = saddle.end.value + saddle.setback.value;
    const contact = placeOfPart(piece.pose, endMm - piece.pose.placeMm, saddle.q.value);
    const wayMm = xOf(placed.model.frame, contact.u) - (placed.model.frame.nutX[string - 1] ?? 0);
    const share = fretPositionMm({ scaleLengthMm: scale.value, fret }) / wayMm;
    return half - sideSign * (nut.value + (contact.y - nut.value) * share);
  };
  const treble = toEdge(1, -instrument.bassSide);
  const bass = toEdge(instrument.stringCount, instrument.bassSide);
  return treble === undefined || bass === undefined ? undefined : { treble, bass };
}

/** What a person can see beside a square. */
const SEEN_DEGREES = 0.05;

/** Undefined for a piece that stands square, or has no two holes to tell the turn by. Single units follow their strings. */
export function turnOf({ pose, holes, saddles }: PlacedPiece, instrument: Instrument): Turn | undefined {
  const unit = instrument.bridge?.kind === "single units" && saddles.length === 1;
  if (!pose || unit || Math.abs(pose.yawDegrees) < SEEN_DEGREES) return undefined;
  const fromTreble = [...holes].sort((a, b) => (a.yMm - b.yMm) * instrument.bassSide);
  const [treble, bass] = [fromTreble[0], fromTreble.at(-1)];
  if (!treble || !bass || treble === bass) return undefined;
  return {
    degrees: pose.yawDegrees,
    bassBackMm: bass.uMm - treble.uMm,
    posts: instrument.bridge?.kind === "two posts",
  };
}
