/**
 * Machine threads: basic profile, which thread it is, and whether two go together.
 *
 * Model: ISO 68-1 basic profile (60°), the same for Unified threads: d2 = d - 0.649519 P, D1 = d - 1.082532 P.
 * Left out: tolerance classes, coatings.
 * Source: ISO 724 (formulas read); table in data/threads.ts. Rules FT31 and FT33.
 */
import { THREADS, type Thread } from "../../data/threads.ts";
import { requireSizesMm } from "./guard.ts";

/** 3/8 of √3: a quarter of the profile's height taken off twice. */
const PITCH_DIAMETER_FACTOR = (3 * Math.sqrt(3)) / 8;
/** 5/8 of √3. */
const MINOR_DIAMETER_FACTOR = (5 * Math.sqrt(3)) / 8;

export interface ThreadGeometry {
  readonly pitchDiameterMm: number;
  /** Minor diameter of the internal thread. */
  readonly minorInternalMm: number;
  /** Major less pitch, the usual drill for a tap. */
  readonly tapDrillMm: number;
}

export function threadGeometry(thread: { readonly majorMm: number; readonly pitchMm: number }): ThreadGeometry {
  const { majorMm, pitchMm } = thread;
  requireSizesMm({ majorMm, pitchMm }, "Measure over ten threads and divide");
  return {
    pitchDiameterMm: majorMm - PITCH_DIAMETER_FACTOR * pitchMm,
    minorInternalMm: majorMm - MINOR_DIAMETER_FACTOR * pitchMm,
    tapDrillMm: majorMm - pitchMm,
  };
}

/**
 * A thread by its designation: the row of the table ("M3", "#4-40"), else what the designation itself says ("M8x1.25",
 * "5/16-24", "#12-24"); undefined if it names no pitch and is not listed.
 */
export function findThread(name: string): Thread | undefined {
  const wanted = name.trim().toLowerCase();
  return THREADS.find((thread) => thread.name.toLowerCase() === wanted) ?? spelledOut(wanted);
}

const MM_PER_INCH = 25.4;
/** Numbered sizes of the Unified series: size 0 is 0.060 in, each next one 0.013 in more. */
const NUMBER_ZERO_INCH = 0.06;
const NUMBER_STEP_INCH = 0.013;

function spelledOut(name: string): Thread | undefined {
  const use = "";
  const metric = /^m(\d+(?:\.\d+)?)\s*[x×]\s*(\d+(?:\.\d+)?)$/.exec(name);
  if (metric) {
    const [majorMm, pitchMm] = [Number(metric[1]), Number(metric[2])];
    if (!(majorMm > pitchMm && pitchMm > 0)) return undefined;
    return { name: `M${majorMm}x${pitchMm}`, system: "ISO", majorMm, pitchMm, use, mark: "published" };
  }
  const inch = /^(?:#(\d{1,2})|(\d{1,2})\/(\d{1,2}))\s*-\s*(\d{1,3})(?:\s*un(?:c|f|ef|s)?)?$/.exec(name);
  if (!inch) return undefined;
  const [, number, over, under, perInch] = inch;
  const inches =
    number === undefined ? Number(over) / Number(under) : NUMBER_ZERO_INCH + NUMBER_STEP_INCH * Number(number);
  const majorMm = inches * MM_PER_INCH;
  const pitchMm = MM_PER_INCH / Number(perInch);
  if (!(Number.isFinite(majorMm) && majorMm > pitchMm && pitchMm > 0)) return undefined;
  const size = number === undefined ? `${over}/${under}` : `#${number}`;
  return { name: `${size}-${perInch}`, system: "Unified", majorMm, pitchMm, use, mark: "published" };
}

/** A thread measured over its crests comes out a little under its nominal diameter. Common practice, no source. */
const WORN_UP_TO_MM = 0.3;
const OVER_UP_TO_MM = 0.05;
/** A gauge or a rule over ten threads tells pitches this far apart. */
const PITCH_ALIKE = 0.02;

/** Threads of the table that a measured diameter and pitch could be, nearest first. */
export function whichThreads(measured: { readonly majorMm: number; readonly pitchMm: number }): readonly Thread[] {
  const { majorMm, pitchMm } = measured;
  requireSizesMm({ majorMm, pitchMm }, "Calliper over the crests; rule over ten threads");
  const fits = THREADS.filter((thread) => {
    const under = thread.majorMm - majorMm;
    return under <= WORN_UP_TO_MM && under >= -OVER_UP_TO_MM && Math.abs(pitchMm / thread.pitchMm - 1) <= PITCH_ALIKE;
  });
  return fits.sort((a, b) => Math.abs(a.majorMm - majorMm) - Math.abs(b.majorMm - majorMm));
}

export interface ThreadsTogether {
  /** 0.1 less the difference of the diameters; below 0 also if the pitches differ. */
  readonly marginMm: number;
  readonly diameterDifferenceMm: number;
  /** Slip of one thread against the other over ten turns. */
  readonly slipOverTenTurnsMm: number;
  readonly goes: boolean;
}

const DIAMETERS_ALIKE_MM = 0.1;
const PITCHES_ALIKE = 0.01;

/** Does a post screw into the bushing that is in the body? Nominal threads on both sides. */
export function threadsTogether(pair: {
  readonly post: { readonly majorMm: number; readonly pitchMm: number };
  readonly bushing: { readonly majorMm: number; readonly pitchMm: number };
}): ThreadsTogether {
  const { post, bushing } = pair;
  requireSizesMm({ postMm: post.majorMm, postPitchMm: post.pitchMm }, "Name the thread of the post");
  requireSizesMm({ bushingMm: bushing.majorMm, bushingPitchMm: bushing.pitchMm }, "Name the thread of the bushing");
  const diameterDifferenceMm = Math.abs(post.majorMm - bushing.majorMm);
  const slipMm = Math.abs(post.pitchMm - bushing.pitchMm);
  const slipMargin = PITCHES_ALIKE * bushing.pitchMm - slipMm;
  const marginMm = Math.min(DIAMETERS_ALIKE_MM - diameterDifferenceMm, slipMargin);
  return { marginMm, diameterDifferenceMm, slipOverTenTurnsMm: 10 * slipMm, goes: marginMm >= 0 };
}
