/**
 * Does a knob go onto a shaft?
 *
 * Model: bore against shaft; a splined knob wants the split shaft with its own count of splines.
 * Left out: D-shaped shafts, depth of the bore.
 * Source: spline counts from data/shafts.ts (published); the wobble a set screw can hold is common practice. Rule FT12.
 */
import { SPLIT_SHAFTS } from "../../data/shafts.ts";
import { requireSizesMm } from "./guard.ts";

/** Either way: more and the knob runs out of true, or has to be forced. Common practice, no source. */
export const MOST_WOBBLE_MM = 0.15;

export type KnobAnswer = "fits" | "sleeve" | "too tight" | "other splines" | "splined knob on a solid shaft";

export interface KnobFit {
  /** Most wobble less the difference of bore and shaft. */
  readonly marginMm: number;
  /** Bore less shaft; below 0 the shaft is thicker. */
  readonly wobbleMm: number;
  readonly answer: KnobAnswer;
  /** Wall of the sleeve that takes up the wobble, 0 if none is needed. */
  readonly sleeveWallMm: number;
}

export interface KnobOnShaft {
  readonly shaftMm: number;
  readonly boreMm: number;
  readonly shaftKind: "solid" | "split" | "unknown";
  readonly knobKind: "set screw" | "push-on" | "unknown";
  /** Teeth on the shaft, or the number its knobs are sold by. */
  readonly shaftSplines?: number;
  readonly knobSplines?: number;
}

/** @throws InputError if a diameter is not above zero */
export function knobFit(knob: KnobOnShaft): KnobFit {
  const { shaftMm, boreMm } = knob;
  requireSizesMm({ shaftMm, boreMm }, "Measure shaft and bore with a calliper");
  const wobbleMm = boreMm - shaftMm;
  const marginMm = MOST_WOBBLE_MM - Math.abs(wobbleMm);
  return {
    marginMm,
    wobbleMm,
    answer: answerOf(knob, wobbleMm),
    sleeveWallMm: wobbleMm > MOST_WOBBLE_MM ? wobbleMm / 2 : 0,
  };
}

function answerOf(knob: KnobOnShaft, wobbleMm: number): KnobAnswer {
  if (knob.knobKind === "push-on" && knob.shaftKind === "solid") return "splined knob on a solid shaft";
  if (knob.knobKind === "push-on" && knob.shaftSplines !== undefined && knob.knobSplines !== undefined) {
    if (knobNumber(knob.shaftSplines) !== knobNumber(knob.knobSplines)) return "other splines";
  }
  if (wobbleMm > MOST_WOBBLE_MM) return "sleeve";
  return wobbleMm < -MOST_WOBBLE_MM ? "too tight" : "fits";
}

/** Teeth counted on a shaft (16, 20) and marks in a knob (18, 24) are two names for one fit. */
function knobNumber(count: number): number {
  return SPLIT_SHAFTS.find((shaft) => shaft.teethOnShaft === count)?.knobSplines ?? count;
}
