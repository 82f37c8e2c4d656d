/**
 * Pots, switches and jacks through the wood: length of the bushing, hole, room below.
 *
 * Model: wood, foil, lock washer inside; washer and nut outside; the thread must pass them all. Thinning the wood from
 * inside ("spot-facing") brings the part up by the same amount.
 * Left out: thread lost under the nut's chamfer, a domed top.
 * Source: sums (derived); thicknesses of washers and nut from memory; wood left and room for lugs common practice.
 * Rules FT8 to FT11 and FT16 of docs/spec/fit.md.
 */
import { requireNotNegativeMm, requireSizesMm } from "./guard.ts";

/** Shown depths are multiples of this: nobody sets a depth stop finer by hand. */
const STEP_MM = 0.5;
/** Rounding noise must not add a step. */
const NOISE_MM = 1e-9;

export interface BushingStack {
  readonly woodMm: number;
  readonly foilMm: number;
  readonly lockWasherMm: number;
  readonly washerMm: number;
  readonly nutMm: number;
  readonly threadMm: number;
}

export interface BushingFit {
  /** Thread less need. */
  readonly marginMm: number;
  readonly needMm: number;
  /** Everything but the wood. */
  readonly stackMm: number;
  /** 0 if it reaches. */
  readonly shortMm: number;
  /** Thread that stands above the nut, 0 if it does not reach. */
  readonly proudMm: number;
}

/**
 * Does the bushing reach through the top?
 *
 * @example
 * bushingFit({ woodMm: 7, foilMm: 0.1, lockWasherMm: 0.9, washerMm: 0.8, nutMm: 2.4, threadMm: 9.5 });
 * // need 11.2, short 1.7
 */
export function bushingFit(stack: BushingStack): BushingFit {
  const { woodMm, foilMm, lockWasherMm, washerMm, nutMm, threadMm } = stack;
  requireSizesMm({ woodMm, nutMm, threadMm }, "Measure it with a calliper");
  requireNotNegativeMm({ foilMm, lockWasherMm, washerMm }, "0 if there is none");
  const stackMm = foilMm + lockWasherMm + washerMm + nutMm;
  const needMm = woodMm + stackMm;
  const marginMm = threadMm - needMm;
  return { marginMm, needMm, stackMm, shortMm: Math.max(0, -marginMm), proudMm: Math.max(0, marginMm) };
}

export interface SpotFace {
  /** Wood left less the least wood. */
  readonly marginMm: number;
  /** A multiple of 0.5. */
  readonly depthMm: number;
  readonly leavesMm: number;
  readonly goes: boolean;
}

/** How deep to thin the wood from inside so that a part comes up by at least `byMm`, and what it leaves. */
export function spotFace(face: {
  readonly byMm: number;
  readonly woodMm: number;
  readonly leastWoodMm: number;
}): SpotFace {
  const { byMm, woodMm, leastWoodMm } = face;
  requireNotNegativeMm({ byMm, leastWoodMm }, "Give what is short");
  requireSizesMm({ woodMm }, "Measure the wood at the hole");
  const depthMm = Math.ceil((byMm - NOISE_MM) / STEP_MM) * STEP_MM;
  const leavesMm = woodMm - depthMm;
  const marginMm = leavesMm - leastWoodMm;
  return { marginMm, depthMm: Math.max(0, depthMm), leavesMm, goes: marginMm >= -NOISE_MM };
}

export interface DepthBelow {
  readonly marginMm: number;
  readonly needMm: number;
  readonly shortMm: number;
}

/** Room from the inner face of the top to the inside of the cover against the part and its bent lugs. */
export function controlDepth(room: {
  readonly partMm: number;
  readonly lugsMm: number;
  readonly freeDepthMm: number;
}): DepthBelow {
  const { partMm, lugsMm, freeDepthMm } = room;
  requireSizesMm({ partMm, freeDepthMm }, "Measure down from the inner face of the top");
  requireNotNegativeMm({ lugsMm }, "2.0 by common practice");
  const needMm = partMm + lugsMm;
  const marginMm = freeDepthMm - needMm;
  return { marginMm, needMm, shortMm: Math.max(0, -marginMm) };
}

/** Free depth of a cavity open at the back: body less top less cover (or the recess it lies in). */
export function freeDepthMm(cavity: {
  readonly bodyMm: number;
  readonly topMm: number;
  readonly coverMm: number;
}): number {
  const { bodyMm, topMm, coverMm } = cavity;
  requireSizesMm({ bodyMm, topMm }, "Measure it with a calliper");
  requireNotNegativeMm({ coverMm }, "Cover and recess together");
  return bodyMm - topMm - coverMm;
}

export interface HoleForThread {
  readonly marginMm: number;
  /** Diameter to ream to. */
  readonly targetMm: number;
  /** 0 if the hole is wide enough. */
  readonly reamByMm: number;
  /** Beyond the target, 0 if narrower. */
  readonly tooWideByMm: number;
}

/**
 * Hole for a threaded bushing (clearance 0.1) or for a bushing whose hole the maker states (clearance 0).
 *
 * @example
 * holeForThread({ holeMm: 8, threadMm: 9.5, clearanceMm: 0.1 }); // ream to 9.6
 */
export function holeForThread(hole: {
  readonly holeMm: number;
  readonly threadMm: number;
  readonly clearanceMm: number;
}): HoleForThread {
  const { holeMm, threadMm, clearanceMm } = hole;
  requireSizesMm({ holeMm, threadMm }, "Measure it with a calliper");
  requireNotNegativeMm({ clearanceMm }, "0.1 for a threaded bushing");
  const targetMm = threadMm + clearanceMm;
  const marginMm = holeMm - targetMm;
  return { marginMm, targetMm, reamByMm: Math.max(0, -marginMm), tooWideByMm: Math.max(0, marginMm) };
}

export interface OpeningTool {
  readonly tool: "own reamer" | "taper reamer" | "step bit";
  /** Diameter of the own reamer. */
  readonly ownMm?: number;
}

/** An own reamer within this of the target does the job. */
const REAMER_NEAR_MM = 0.05;
/** Above this much to take off, a step bit leaves a truer hole than turning by hand for long (common practice). */
const STEP_BIT_FROM_MM = 2;

/** What to open a hole with. A twist bit in a hole that is there already grabs: never advised. */
export function openingTool(hole: {
  readonly fromMm: number;
  readonly toMm: number;
  readonly reamersMm: readonly number[];
}): OpeningTool {
  const { fromMm, toMm, reamersMm } = hole;
  requireSizesMm({ fromMm, toMm }, "Measure it with a calliper");
  const own = [...reamersMm].sort((a, b) => Math.abs(a - toMm) - Math.abs(b - toMm))[0];
  if (own !== undefined && Math.abs(own - toMm) <= REAMER_NEAR_MM) return { tool: "own reamer", ownMm: own };
  return { tool: toMm - fromMm > STEP_BIT_FROM_MM ? "step bit" : "taper reamer" };
}

export interface GapToFoil {
  readonly marginMm: number;
  readonly gapMm: number;
}

/** Gap between a part that hangs in the middle of a cavity and the foil on its walls. */
export function gapToFoil(room: {
  readonly freeWidthMm: number;
  readonly partMm: number;
  readonly foilMm: number;
  readonly leastMm: number;
}): GapToFoil {
  const { freeWidthMm, partMm, foilMm, leastMm } = room;
  requireSizesMm({ freeWidthMm, partMm }, "Measure it with a calliper");
  requireNotNegativeMm({ foilMm, leastMm }, "0 if there is no foil");
  const gapMm = (freeWidthMm - partMm) / 2 - foilMm;
  return { marginMm: gapMm - leastMm, gapMm };
}
