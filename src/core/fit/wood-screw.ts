/**
 * Wood screws: root, lead hole, pull-out, spacing, hold in an old hole.
 *
 * Model: the lead hole is a fraction of the root by the wood's specific gravity G. Three published roots disagree by a
 * fifth, so the rule used is always named; a root measured on the screw itself beats all three.
 * Left out: angle to the grain, end grain (do not count on it), thread form.
 * Source: NDS Commentary for the fractions, Wood Handbook (2010) ch. 8 for the pull-out, ESR-4948 for the spacing.
 * Rules FT23 to FT30 and FT34.
 */
import { WOOD_SCREWS, type WoodScrewSize } from "../../data/wood-screws.ts";
import { requirePositive } from "../checks.ts";
import { InputError } from "../errors.ts";
import { requireNotNegativeMm, requireSizesMm } from "./guard.ts";

const MM_PER_INCH = 25.4;
const N_PER_LBF = 4.4482216152605;
/** Pull-out constant, lbf per square inch. */
const PULL_OUT_PSI = 15700;
/** Allowable constant, lbf per square inch. */
const ALLOWABLE_PSI = 2850;

/** Which root: two thirds of the shank, a distributor's chart, NDS appendix L. */
export type RootRule = "two thirds" | "chart" | "nds";

export interface WoodScrew {
  readonly gauge: number;
  readonly shankMm: number;
  readonly pitchMm: number;
  /** Limits of the thread's outer diameter, where the chart prints them. */
  readonly majorRangeMm?: readonly [number, number];
}

/**
 * Sizes of a numbered wood screw.
 *
 * @throws InputError if the number is not in the table
 */
export function woodScrew(gauge: number): WoodScrew {
  const row = WOOD_SCREWS.find((size) => size.gauge === gauge);
  if (!row) {
    const listed = WOOD_SCREWS.map((size) => size.gauge).join(", ");
    throw new InputError(
      "gauge",
      `no wood screw #${gauge} in the table`,
      `Take one of ${listed}, or measure the shank`,
    );
  }
  const screw = { gauge, shankMm: row.shankInch * MM_PER_INCH, pitchMm: MM_PER_INCH / row.threadsPerInch };
  if (!row.majorRangeInch) return screw;
  const [low, high] = row.majorRangeInch;
  return { ...screw, majorRangeMm: [low * MM_PER_INCH, high * MM_PER_INCH] };
}

/** Outer diameter of a numbered size, machine or wood: 0.060 in + 0.013 in for each number. */
export function numberedSizeMm(gauge: number): number {
  requireFiniteGauge(gauge);
  return (0.06 + 0.013 * gauge) * MM_PER_INCH;
}

/**
 * Root of a wood screw of a given shank by one of three rules.
 *
 * Between the listed sizes the ratio root/shank is taken in between; beyond them, from the nearest listed size.
 */
export function rootMm(screw: { readonly shankMm: number; readonly rule: RootRule }): number {
  const { shankMm, rule } = screw;
  requireSizesMm({ shankMm }, "Measure across the smooth shank");
  if (rule === "two thirds") return (2 / 3) * shankMm;
  return shankMm * ratioAt(shankMm / MM_PER_INCH, rule === "chart" ? "rootChartInch" : "rootNdsInch");
}

function ratioAt(shankInch: number, column: "rootChartInch" | "rootNdsInch"): number {
  let below: { shank: number; ratio: number } | undefined;
  for (const size of WOOD_SCREWS) {
    const root: WoodScrewSize[typeof column] = size[column];
    if (root === undefined) continue;
    const here = { shank: size.shankInch, ratio: root / size.shankInch };
    if (here.shank >= shankInch) {
      if (!below) return here.ratio;
      const part = (shankInch - below.shank) / (here.shank - below.shank);
      return below.ratio + part * (here.ratio - below.ratio);
    }
    below = here;
  }
  return below?.ratio ?? 2 / 3;
}

export interface LeadHole {
  /** Fraction of the root that the density rule asks for; undefined below G 0.5. */
  readonly ruleFraction: number | undefined;
  readonly required: boolean;
  /** Fraction taken here: below G 0.5 a body wood still gets a lead hole. */
  readonly fraction: number;
  readonly leadMm: number;
  /** The hole must never be wider than this: the thread would have nothing to hold. */
  readonly notAboveMm: number;
}

/**
 * Lead hole of a screw that is pulled along its axis.
 *
 * @example
 * leadHole({ rootMm: 1.8965, gravity: 0.6 }).leadMm; // 1.707
 */
export function leadHole(screw: { readonly rootMm: number; readonly gravity: number }): LeadHole {
  const { rootMm: root, gravity } = screw;
  requireSizesMm({ rootMm: root }, "Measure across the core of the thread");
  requireGravity(gravity);
  const ruleFraction = gravity >= 0.6 ? 0.9 : gravity >= 0.5 ? 0.7 : undefined;
  const fraction = ruleFraction ?? 0.7;
  return { ruleFraction, required: ruleFraction !== undefined, fraction, leadMm: fraction * root, notAboveMm: root };
}

/**
 * The older rule by botany, for comparison only: alder, basswood and poplar are hardwoods that are lighter than many
 * softwoods, so the two rules disagree for just the woods that bodies are made of.
 */
export function leadFractionByBotany(wood: "hardwood" | "softwood"): number {
  return wood === "hardwood" ? 0.9 : 0.7;
}

/** Shank hole and thread hole of a screw that is loaded sideways (a strap button). */
export function lateralLead(screw: { readonly shankMm: number; readonly rootMm: number; readonly gravity: number }): {
  readonly shankHoleMm: number;
  readonly threadHoleMm: number;
  readonly fraction: number;
} {
  const { shankMm, rootMm: root, gravity } = screw;
  requireSizesMm({ shankMm, rootMm: root }, "Measure shank and core");
  requireGravity(gravity);
  const fraction = gravity >= 0.6 ? 1 : 7 / 8;
  return { shankHoleMm: fraction * shankMm, threadHoleMm: fraction * root, fraction };
}

export interface PullOut {
  /** At which it pulls out of side grain. */
  readonly ultimateN: number;
  /** 5.5 times below. */
  readonly workingN: number;
}

/** Load that pulls a wood screw out of side grain. Not for end grain. */
export function pullOut(screw: {
  readonly gravity: number;
  readonly shankMm: number;
  readonly heldMm: number;
}): PullOut {
  const { gravity, shankMm, heldMm } = screw;
  requireGravity(gravity);
  requireSizesMm({ shankMm, heldMm }, "Count only thread in sound wood");
  const perSquareMm = (PULL_OUT_PSI * N_PER_LBF) / MM_PER_INCH ** 2;
  const ultimateN = perSquareMm * gravity ** 2 * shankMm * heldMm;
  return { ultimateN, workingN: (ultimateN * ALLOWABLE_PSI) / PULL_OUT_PSI };
}

export interface ScrewSpacing {
  readonly edgeMm: number;
  readonly endMm: number;
  readonly alongGrainMm: number;
  readonly acrossGrainMm: number;
}

/** Distances under which a second look is due. Guitar hardware is often closer: a warning level, never a verdict. */
export function screwSpacing(shankMm: number): ScrewSpacing {
  requireSizesMm({ shankMm }, "Measure across the thread");
  return { edgeMm: 4 * shankMm, endMm: 10 * shankMm, alongGrainMm: 7 * shankMm, acrossGrainMm: 5 * shankMm };
}

/**
 * The thinnest bit that still does for a lead hole, as a part of it. Common practice, no source: a hole much thinner
 * than the lead hole lets a screw snap, or split the wood.
 */
const THINNEST_OF_LEAD = 0.85;

const ENGAGEMENT = { steel: 1, brass: 1.5, aluminium: 2, zinc: 2, wood: 6 } as const;

/** Length of thread that must be held. */
export function engagementMm(screw: { readonly diameterMm: number; readonly into: keyof typeof ENGAGEMENT }): number {
  requireSizesMm({ diameterMm: screw.diameterMm }, "Measure across the thread");
  return ENGAGEMENT[screw.into] * screw.diameterMm;
}

/**
 * The own drill bit nearest to a lead hole, never above the root and at most 15 % under the lead hole; of two as near,
 * the thinner.
 *
 * @returns undefined if no own bit lies between the two
 * @example
 * nearestBitMm({ wantedMm: 2.97, notAboveMm: 3.0, bitsMm: [1, 5] }); // undefined: 1 is too thin, 5 too wide
 */
export function nearestBitMm(hole: {
  readonly wantedMm: number;
  readonly notAboveMm: number;
  readonly bitsMm: readonly number[];
}): number | undefined {
  const { wantedMm, notAboveMm, bitsMm } = hole;
  requireSizesMm({ wantedMm, notAboveMm }, "Give the lead hole and the root");
  let best: number | undefined;
  for (const bit of [...bitsMm].sort((a, b) => a - b)) {
    if (bit < THINNEST_OF_LEAD * wantedMm) continue;
    if (bit > notAboveMm) break;
    if (best === undefined || Math.abs(bit - wantedMm) < Math.abs(best - wantedMm)) best = bit;
  }
  return best;
}

export interface HoldInHole {
  /** Widest hole that still holds less the hole. Below 0: fill and drill again. */
  readonly marginMm: number;
  /** Part of the thread's depth that stands in wood, 0 to 1. */
  readonly hold: number;
  /** Widest hole that leaves half the thread's depth in wood. */
  readonly widestMm: number;
}

/** Does a screw still hold in a hole that is there? */
export function holdInHole(screw: {
  readonly holeMm: number;
  readonly threadMm: number;
  readonly rootMm: number;
}): HoldInHole {
  const { holeMm, threadMm, rootMm: root } = screw;
  requireSizesMm({ threadMm, rootMm: root }, "Measure over the thread and across its core");
  requireNotNegativeMm({ holeMm }, "0 if there is no hole yet");
  if (root >= threadMm) throw new InputError("rootMm", `must be below the thread, got ${root}`, "Measure the core");
  const widestMm = (threadMm + root) / 2;
  const hold = Math.min(1, Math.max(0, (threadMm - holeMm) / (threadMm - root)));
  return { marginMm: widestMm - holeMm, hold, widestMm };
}

function requireGravity(gravity: number): void {
  requirePositive(gravity, "gravity", "(dry weight against water)", "Look it up by the wood, or weigh a block");
}

function requireFiniteGauge(gauge: number): void {
  if (!(Number.isFinite(gauge) && gauge >= 0)) {
    throw new InputError("gauge", `must be a number from 0 up, got ${gauge}`, "It is the number before the length");
  }
}
