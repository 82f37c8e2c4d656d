/**
 * Places on the body as a person marks them. Where the pocket was measured, from its end wall and from the nut; where
 * places count from the nut, from the middle of fret 12, because that is where a rule can be laid.
 */
import { mm, type Phrase, say } from "../quantity/index.ts";
import type { PlacedPiece, Placement } from "./placement.ts";
import type { ScaleFrame } from "./scale-frame.ts";

type Frame = Extract<ScaleFrame, { known: true }>;
type KnownPlacement = Extract<Placement, { known: true }>;

/** "308.4 mm from the middle of fret 12 (632.4 mm from the nut)", or from the pocket's end wall where that is known. */
export function placePhrase(frame: Frame, u: number): Phrase {
  const x = u - frame.offsetMm;
  if (!frame.fromNut) return say`${mm(u, 1)} behind the pocket's end wall (${mm(x, 1)} from the nut)`;
  return say`${mm(x - fret12X(frame), 1)} from the middle of fret 12 (${mm(x, 1)} from the nut)`;
}

/** A range of places; from the end wall to a hundredth, as the sum has it. */
export function rangePhrase(frame: Frame, fromU: number, toU: number): Phrase {
  if (!frame.fromNut) return say`from ${mm(fromU)} to ${mm(toU)} behind the end wall`;
  const from12 = (u: number) => mm(u - frame.offsetMm - fret12X(frame), 1);
  return say`from ${from12(fromU)} to ${from12(toU)} from the middle of fret 12`;
}

/** Fret 12 on the centre line, from the nut. */
export function fret12X({ best, offsetMm }: Frame): number {
  return (best.quantity.value - offsetMm) / 2;
}

/** "309.6 mm from fret 12 along string 1": where a single unit's front edge stands, independent of the square fret. */
export function unitPhrase(placed: KnownPlacement, piece: PlacedPiece): Phrase {
  const string = piece.saddles[0]?.string ?? 1;
  return say`${mm(alongStringMm(placed.model.frame, piece), 1)} from fret 12 along string ${string}`;
}

function alongStringMm(frame: Frame, { pose, saddles }: PlacedPiece): number {
  const saddle = saddles[0];
  if (!pose || !saddle) return Number.NaN;
  const nutX = frame.nutX[saddle.string - 1] ?? 0;
  const half = (saddle.end.value - frame.offsetMm - nutX) / 2;
  return (pose.placeMm - frame.offsetMm - nutX - half) / Math.cos((pose.yawDegrees * Math.PI) / 180);
}

/** Every unit, or every post: what is marked on the body. Empty for a plate, whose front edge says it all. */
export function markLines(placed: KnownPlacement): Phrase[] {
  const { bridge, frame } = placed.model;
  const pieces = placed.pieces.filter((piece) => piece.pose !== undefined);
  if (bridge.kind === "single units") {
    return pieces.map(
      (piece) =>
        say`String ${piece.saddles[0]?.string ?? 0}: front edge ${unitPhrase(placed, piece)}, ${sideWords(piece.pose?.sideMm ?? 0)}.`,
    );
  }
  if (bridge.kind !== "two posts") return [];
  return pieces.flatMap((piece) =>
    piece.holes.map(
      (hole) =>
        say`${hole.yMm < 0 ? "Left" : "Right"} ${piece.saddles.length > 0 ? "post" : "post of the tailpiece"}: middle ${placePhrase(frame, hole.uMm)}, ${sideWords(hole.yMm)}.`,
    ),
  );
}

/** Distances of each unit's front edge from fret 12 along its string. */
export function unitFigures(placed: KnownPlacement): Record<string, number> {
  if (placed.model.bridge.kind !== "single units") return {};
  return Object.fromEntries(
    placed.pieces.flatMap((piece) =>
      piece.pose ? [[`string${piece.saddles[0]?.string}FromFret12Mm`, alongStringMm(placed.model.frame, piece)]] : [],
    ),
  );
}

/** Somebody who gave one place for all units must not take these answers for that place. */
export function placeNotKept({ placeNotKept: given }: KnownPlacement): Phrase {
  return given ? say`Not at the place given: single units stand each where its own string wants it. ` : say``;
}

export const ON_THE_LINE_MM = 0.05;

/** Right and left as seen from the front with the head up: y > 0 is right. */
export function sideWords(yMm: number): Phrase {
  if (Math.abs(yMm) < ON_THE_LINE_MM) return say`on the centre line`;
  return say`${mm(Math.abs(yMm), 1)} to the ${yMm > 0 ? "right" : "left"} of the centre line`;
}
