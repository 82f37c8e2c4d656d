/** What was found of the scale contradicts itself: said by every question that would let somebody mark or drill by it. */
import type { FretSlip, Instrument, TwoScales } from "../job/index.ts";
import { figure, mm, type Phrase, say, standardUncertainty, unknown } from "../quantity/index.ts";
import type { NextReading } from "../verdict/index.ts";
import { missingReading } from "./how-to-measure.ts";
import { listed } from "./make-verdict.ts";
import { countedFrom, type ScaleFrame } from "./scale-frame.ts";

export interface ScaleTrouble {
  /** One sentence without its full stop. */
  readonly words: Phrase;
  /** What to read again, most telling first. */
  readonly readings: readonly [NextReading, ...NextReading[]];
}

/** Two ways of measuring that differ by more than this many joint uncertainties contradict each other (k = 2). */
const COVERAGE = 2;

type Frame = Extract<ScaleFrame, { known: true }>;

export function scaleTrouble({ neck }: Instrument, frame: Frame): ScaleTrouble | undefined {
  if (!neck.scaleDispute) return twoLines(frame);
  return neck.scaleDispute.about === "frets" ? fretSlip(neck.scaleDispute) : twoScales(neck.scaleDispute);
}

function twoScales({ usedMm, usedWords, otherMm, otherWords }: TwoScales): ScaleTrouble {
  const settles = `whether the scale is ${otherMm.toFixed(1)} or ${usedMm.toFixed(1)} mm`;
  return {
    words: say`The scale is ${mm(otherMm, 1)} by ${otherWords} and ${mm(usedMm, 1)} by ${usedWords}`,
    readings: [missingReading(unknown("neck.nutToFret12", "length"), settles)],
  };
}

function fretSlip({ suspects, allOfThem }: FretSlip): ScaleTrouble | undefined {
  const [first, ...rest] = suspects.map(
    ({ fret, path }): NextReading => ({
      ...missingReading(unknown(path, "length"), "the scale length"),
      what: `fret ${fret} again, with the other frets from one placing of the rule`,
    }),
  );
  const worst = suspects[0];
  if (!first || !worst) return undefined;
  const off = say`fret ${figure(worst.fret, "", 0)} is furthest off, by ${mm(worst.offMm, 1)}`;
  const names = listed(
    [...suspects]
      .map(({ fret }) => fret)
      .sort((a, b) => a - b)
      .map(String),
    suspects.length,
  );
  const words = allOfThem
    ? say`The readings of frets ${names} do not lie on one scale: one of them is wrong (${off})`
    : say`The reading of ${suspects.length > 1 ? "frets" : "fret"} ${names} does not lie on one scale with the others: ${off}`;
  return { words, readings: [first, ...rest] };
}

function twoLines(frame: Frame): ScaleTrouble | undefined {
  const best = frame.best.quantity;
  const apart = frame.candidates.find(({ quantity }) => {
    const allowed = COVERAGE * Math.hypot(standardUncertainty(quantity), standardUncertainty(best));
    return Math.abs(quantity.value - best.value) > allowed;
  });
  if (!apart) return undefined;
  return {
    words: say`Two ways of measuring disagree: ${mm(best.value, 1)} and ${mm(apart.quantity.value, 1)} ${countedFrom(frame)}`,
    readings: [missingReading(unknown("scaleLine.u", "length"), "which of the two holds")],
  };
}
