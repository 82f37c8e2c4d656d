/**
 * Tuners on a headstock: hole, thickness, slot in the post, fixing screws against those of the old tuners.
 *
 * Model: circles and plain differences; a screw's place is its distance and angle from the post.
 * Left out: finish in the hole (about 0.2, a note by an owner), spacing of the bodies.
 * Source: derived; the thinnest adapter ring is common practice. Rules FT17 to FT21.
 */
import { requireNotNegativeMm, requireSizesMm } from "./guard.ts";

export interface HeadstockFit {
  readonly marginMm: number;
  readonly tooThinByMm: number;
  readonly tooThickByMm: number;
}

/** Thickness of the headstock inside the tuner's range. */
export function headstockFit(head: {
  readonly thicknessMm: number;
  readonly thinnestMm: number;
  readonly thickestMm: number;
}): HeadstockFit {
  const { thicknessMm, thinnestMm, thickestMm } = head;
  requireSizesMm({ thicknessMm, thinnestMm, thickestMm }, "Measure at a tuner hole");
  const aboveMm = thicknessMm - thinnestMm;
  const belowMm = thickestMm - thicknessMm;
  return {
    marginMm: Math.min(aboveMm, belowMm),
    tooThinByMm: Math.max(0, -aboveMm),
    tooThickByMm: Math.max(0, -belowMm),
  };
}

/** Slot in the post less the thickest string. */
export function postSlotFit(post: { readonly slotMm: number; readonly thickestStringMm: number }): {
  readonly marginMm: number;
} {
  const { slotMm, thickestStringMm } = post;
  requireSizesMm({ slotMm, thickestStringMm }, "Measure the slot; the gauge is on the packet");
  return { marginMm: slotMm - thickestStringMm };
}

/** A fixing screw seen from the post. */
export interface ScrewPlace {
  readonly distanceMm: number;
  readonly angleDegrees: number;
  readonly diameterMm: number;
}

export interface ScrewWall {
  readonly marginMm: number;
  readonly apartMm: number;
  readonly wallMm: number;
}

/** Wall between the screw of a new tuner and the hole an old one left. */
export function tunerScrewWall(screws: {
  readonly fresh: ScrewPlace;
  readonly old: ScrewPlace;
  readonly leastWallMm: number;
}): ScrewWall {
  const { fresh, old, leastWallMm } = screws;
  requireSizesMm(
    {
      freshDistanceMm: fresh.distanceMm,
      oldDistanceMm: old.distanceMm,
      freshMm: fresh.diameterMm,
      oldMm: old.diameterMm,
    },
    "Measure from the middle of the post",
  );
  requireNotNegativeMm({ leastWallMm }, "1.5 by common practice");
  const between = ((fresh.angleDegrees - old.angleDegrees) * Math.PI) / 180;
  const square =
    fresh.distanceMm ** 2 + old.distanceMm ** 2 - 2 * fresh.distanceMm * old.distanceMm * Math.cos(between);
  // Two places that are one come out a hair under 0 by rounding.
  const apartMm = Math.sqrt(Math.max(0, square));
  const wallMm = apartMm - (fresh.diameterMm + old.diameterMm) / 2;
  return { marginMm: wallMm - leastWallMm, apartMm, wallMm };
}

/** A thinner ring cannot be turned or pressed in whole. Common practice, no source. */
const LEAST_RING_MM = 0.5;
/** A press-in bushing holds in a hole this much wider, with the finish. Common practice, no source. */
const HOLDS_UP_TO_MM = 0.05;

export interface TunerAdapter {
  /** What the hole may be wider by and still hold, less what it is wider by. */
  readonly marginMm: number;
  readonly wallMm: number;
  readonly answer: "holds" | "adapter" | "plug";
  readonly outerMm: number;
  readonly innerMm: number;
}

/** The hole is wider than the bushing: an adapter ring if there is room for one, else a plug with the headstock's grain. */
export function tunerAdapter(hole: { readonly holeMm: number; readonly bushingMm: number }): TunerAdapter {
  const { holeMm, bushingMm } = hole;
  requireSizesMm({ holeMm, bushingMm }, "Measure it with a calliper");
  const widerMm = holeMm - bushingMm;
  const wallMm = Math.max(0, widerMm / 2);
  const answer = widerMm <= HOLDS_UP_TO_MM ? "holds" : wallMm >= LEAST_RING_MM ? "adapter" : "plug";
  return { marginMm: HOLDS_UP_TO_MM - widerMm, wallMm, answer, outerMm: holeMm, innerMm: bushingMm };
}
