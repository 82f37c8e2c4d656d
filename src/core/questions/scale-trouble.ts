/** What was found of the scale contradicts itself: said by every question that would let somebody mark or drill by it. */
import type { Instrument } from "../job/index.ts";
import { mm, type Phrase, say, unknown } from "../quantity/index.ts";
import type { NextReading } from "../verdict/index.ts";
import { missingReading } from "./how-to-measure.ts";

export interface ScaleTrouble {
  /** One sentence without its full stop. */
  readonly words: Phrase;
  /** What to read again, most telling first. */
  readonly readings: readonly [NextReading, ...NextReading[]];
}

export function scaleTrouble({ neck }: Instrument): ScaleTrouble | undefined {
  const { scaleDispute } = neck;
  if (!scaleDispute) return undefined;
  const { usedMm, usedWords, otherMm, otherWords } = scaleDispute;
  return {
    words: say`The scale is ${mm(otherMm, 1)} by ${otherWords} and ${mm(usedMm, 1)} by ${usedWords}`,
    readings: [
      missingReading(
        unknown("neck.nutToFret12", "length"),
        `whether the scale is ${otherMm.toFixed(1)} or ${usedMm.toFixed(1)} mm`,
      ),
    ],
  };
}
