/**
 * What was routed from the back under a hole: the wood there is the body less that depth.
 *
 * A hole counts as over a rout if its circle touches the rout's outline, or could within twice the doubt of where the
 * two stand (k = 2). Left out: doubt of the rout's own length and width, and rounding at its floor.
 */
import { type Column, drilledHole, type NewHole, rout, wallMm } from "../bridge/index.ts";
import type { Instrument } from "../job/index.ts";
import { type Known, type Quantity, standardUncertainty } from "../quantity/index.ts";

type Cavity = Instrument["body"]["cavities"][number];

/** One floor of a rout from the back: its body, or its ears. */
export interface BackFloor {
  readonly id: string;
  /** In words, e.g. "the spring cavity". */
  readonly name: string;
  readonly depth: Quantity;
  readonly outline: Column;
  /** Standard doubt of where it stands. */
  readonly uMm: number;
}

/** Floors of the routs from the back whose outline is known; the others are named. */
export function backFloors({ body }: Instrument): {
  readonly floors: readonly BackFloor[];
  readonly unchecked: readonly string[];
} {
  const floors: BackFloor[] = [];
  const unchecked: string[] = [];
  for (const cavity of body.cavities) {
    if (cavity.face !== "back") continue;
    const { length, width, depth, ears } = cavity;
    const found = [
      floorOf(cavity, { length, width, depth }, cavity.id),
      ...(ears ? [floorOf(cavity, ears, `${cavity.id}.ears`)] : []),
    ];
    if (found.includes(undefined)) unchecked.push(`the ${cavity.id} cavity`);
    floors.push(...found.filter((floor) => floor !== undefined));
  }
  return { floors, unchecked };
}

function floorOf(
  { id, centre, cornerRadius, angle }: Cavity,
  { length, width, depth }: { readonly length: Quantity; readonly width: Quantity; readonly depth: Quantity },
  floor: string,
): BackFloor | undefined {
  const { u, y } = centre;
  if (!u.known || !y.known || !length.known || !width.known || !cornerRadius.known || !angle.known) return undefined;
  const name = `the ${id} cavity`;
  const [outline] = rout({
    id: name,
    uMm: u.value,
    yMm: y.value,
    lengthMm: length.value,
    widthMm: width.value,
    cornerRadiusMm: cornerRadius.value,
    yawDegrees: -angle.value,
    depthMm: "through",
  });
  return outline && { id: floor, name, depth, outline, uMm: Math.hypot(...[u, y].map(standardUncertainty)) };
}

/** @param placingMm standard doubt of where the hole lands */
export function isOver(hole: NewHole, floor: BackFloor, placingMm: number): boolean {
  const { id, uMm, yMm, pilotMm } = hole;
  const bore = drilledHole({ id, uMm, yMm, diameterMm: pilotMm, depthMm: "through" });
  return wallMm(bore, floor.outline) <= 2 * Math.hypot(floor.uMm, placingMm);
}

/** A hole and what is left under its tip; without a floor it is the whole body. */
export interface UnderTip {
  readonly hole: { readonly pilotMm: number; readonly depthMm: number };
  readonly floor?: { readonly id: string; readonly name: string; readonly depth: Known };
}

/** The deepest hole over the whole body and over each floor: one of them leaves the least wood. */
export function deepestOverEach(all: readonly UnderTip[]): UnderTip[] {
  const deepest = new Map<string, UnderTip>();
  for (const one of all) {
    const key = one.floor?.id ?? "";
    const before = deepest.get(key);
    if (!before || one.hole.depthMm > before.hole.depthMm) deepest.set(key, one);
  }
  return [...deepest.values()];
}
