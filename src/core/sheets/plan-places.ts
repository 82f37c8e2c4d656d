/** What the traveller has to know of the bridge's place, so that its steps say what the sheet and the list say. */
import type { Instrument } from "../job/index.ts";
import type { PlanPlaces, Turn } from "../plan/index.ts";
import type { PlacedPiece } from "../questions/index.ts";
import { type KnownPlacement, registerOf } from "./context.ts";

export function planPlaces(placed: KnownPlacement, instrument: Instrument): PlanPlaces {
  const { frame } = placed.model;
  const { words, xMm } = registerOf(placed, instrument);
  const [first] = placed.pieces;
  const turn = first && turnOf(first, instrument);
  return {
    register: { words, uMm: xMm + frame.offsetMm },
    fromNut: frame.fromNut,
    fanned: frame.multiScale,
    ...(turn ? { turn } : {}),
  };
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
