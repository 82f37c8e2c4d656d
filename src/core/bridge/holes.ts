/**
 * New holes, old holes, and the limits they are judged by.
 *
 * Source of the figures: common practice, no published standard for distances after plugging was found.
 */
import { requireFinite, requirePositive } from "../checks.ts";
import { InputError } from "../errors.ts";
import { type Pose, toBody } from "./frame.ts";
import type { Solid } from "./solids.ts";

/** A hole of a part, in the part's own frame. */
export interface PatternHole {
  readonly id: string;
  readonly pMm: number;
  readonly qMm: number;
  readonly pilotMm: number;
  /** Thread or shank that ends up in the hole; walls are reckoned to the larger of it and the pilot. */
  readonly threadMm: number;
  readonly depthMm: number | "through";
  /** Only a screw may stand in a plug. */
  readonly purpose: "screw" | "other";
}

/** The same hole on the body. */
export interface NewHole {
  readonly id: string;
  readonly uMm: number;
  readonly yMm: number;
  readonly pilotMm: number;
  readonly threadMm: number;
  readonly depthMm: number | "through";
  readonly purpose: "screw" | "other";
}

/** A hole that is there already, drilled from the top or through. */
export interface OldHole {
  readonly id: string;
  readonly uMm: number;
  readonly yMm: number;
  /** As it is now, torn edge included. */
  readonly diameterMm: number;
  readonly depthMm: number | "through";
  /** Set if it is plugged already. */
  readonly plug?: { readonly diameterMm: number; readonly matched: boolean; readonly cured: boolean };
}

export interface HoleLimits {
  /** Wood wanted between two holes. */
  readonly wallMm: number;
  /** Least plug to use. */
  readonly plugDiameterMm: number;
  /** A plug is larger than the hole it fills by at least this; 2 unless stated (common practice). */
  readonly plugOverMm?: number;
  /** Sizes of plug to be had; 6, 8, 10, 12, 16 and 20 unless stated. */
  readonly plugSizesMm?: readonly number[];
  /**
   * An old hole is used again if it stands no further from the new place than `withinMm` and is thinner than the new
   * thread by `biteMm`; 0.3 and 0.2 unless stated (common practice, no source).
   */
  readonly reuse?: { readonly withinMm: number; readonly biteMm: number };
}

export interface HoleScene {
  readonly oldHoles: readonly OldHole[];
  /** Routs, channels, body edge, holes from the back: what cannot be plugged. */
  readonly obstacles: readonly Solid[];
  readonly limits: HoleLimits;
}

const PLUG_SIZES_MM: readonly number[] = [6, 8, 10, 12, 16, 20];
const PLUG_OVER_MM = 2;
const REUSE = { withinMm: 0.3, biteMm: 0.2 } as const;

/** Larger of pilot and thread: what the wall is reckoned to. */
export function newDiameterMm(hole: { readonly pilotMm: number; readonly threadMm: number }): number {
  return Math.max(hole.pilotMm, hole.threadMm);
}

/** The plug an open hole would take; undefined if none of the sizes is large enough. */
export function plugForMm(diameterMm: number, limits: HoleLimits): number | undefined {
  const least = Math.max(limits.plugDiameterMm, diameterMm + (limits.plugOverMm ?? PLUG_OVER_MM));
  if (diameterMm + (limits.plugOverMm ?? PLUG_OVER_MM) <= limits.plugDiameterMm) return limits.plugDiameterMm;
  return [...(limits.plugSizesMm ?? PLUG_SIZES_MM)].sort((a, b) => a - b).find((size) => size >= least);
}

/** Can the old hole take the new screw as it stands? */
export function isReused(
  newHole: { readonly threadMm: number; readonly purpose: string },
  oldDiameterMm: number,
  apartMm: number,
  limits: HoleLimits,
): boolean {
  const { withinMm, biteMm } = limits.reuse ?? REUSE;
  return newHole.purpose === "screw" && apartMm <= withinMm && oldDiameterMm <= newHole.threadMm - biteMm;
}

export function reuseWithinMm(limits: HoleLimits): number {
  return (limits.reuse ?? REUSE).withinMm;
}

/** A part's holes where they come to stand on the body. */
export function holesAtPose(pattern: readonly PatternHole[], pose: Pose): NewHole[] {
  return pattern.map(({ pMm, qMm, ...hole }) => ({ ...hole, ...toBody(pose, { pMm, qMm }) }));
}

/** Refuses holes and limits that no sum can be made of. */
export function refuseScene(scene: HoleScene): void {
  const { wallMm, plugDiameterMm } = scene.limits;
  requireFinite(wallMm, "limits.wallMm", "mm", "Give the wood wanted between holes, 1.5 as a rule");
  requirePositive(plugDiameterMm, "limits.plugDiameterMm", "mm", "Give the plug cutter's size");
  scene.oldHoles.forEach((hole, i) => {
    const where = `oldHoles[${i}]`;
    requireFinite(hole.uMm, `${where}.uMm`, "mm", "Measure from the pocket's end wall");
    requireFinite(hole.yMm, `${where}.yMm`, "mm", "Measure from the centre line");
    requirePositive(hole.diameterMm, `${where}.diameterMm`, "mm", "Measure the hole, torn edge included");
    if (hole.plug) requirePositive(hole.plug.diameterMm, `${where}.plug.diameterMm`, "mm", "Measure the plug");
    if (hole.depthMm !== "through")
      requirePositive(hole.depthMm, `${where}.depthMm`, "mm", "Measure the depth, or say that it goes through");
  });
}

export function refuseNewHoles(
  holes: readonly { readonly pilotMm: number; readonly threadMm: number; readonly depthMm: number | "through" }[],
  name: string,
): void {
  holes.forEach((hole, i) => {
    requirePositive(
      newDiameterMm(hole),
      `${name}[${i}].threadMm`,
      "mm",
      "Give the pilot and the thread's outer diameter",
    );
    if (hole.depthMm !== "through" && !(hole.depthMm > 0)) {
      throw new InputError(
        `${name}[${i}].depthMm`,
        `must be a number above 0 mm, got ${hole.depthMm}`,
        "Give the depth of the new hole, or say that it goes through",
      );
    }
  });
}
