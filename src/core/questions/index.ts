/** All questions that can be asked about an instrument, in the order in which a person would ask them. */
import type { Instrument } from "../job/index.ts";
import { bridgeFitQuestions } from "./bridge-fit.ts";
import { bridgeHeightQuestions } from "./bridge-height.ts";
import { bridgeHoleQuestions } from "./bridge-holes.ts";
import { bridgePlaceQuestions } from "./bridge-place.ts";
import { bridgeRowQuestions } from "./bridge-rows.ts";
import { bridgeWindowQuestions } from "./bridge-window.ts";
import { fitQuestions } from "./fit-questions.ts";
import type { InstrumentQuestion } from "./make-verdict.ts";
import { scaleLineQuestions } from "./scale-line.ts";
import { stringQuestions } from "./strings.ts";
import { wiringQuestions } from "./wiring.ts";

export function questionsAbout(instrument: Instrument): readonly InstrumentQuestion[] {
  return [
    ...scaleLineQuestions(instrument),
    ...bridgeWindowQuestions(instrument),
    ...bridgePlaceQuestions(instrument),
    ...bridgeHoleQuestions(instrument),
    ...bridgeHeightQuestions(instrument),
    ...bridgeFitQuestions(instrument),
    ...bridgeRowQuestions(instrument),
    ...stringQuestions(instrument),
    ...fitQuestions(instrument),
    ...wiringQuestions(instrument),
  ];
}

export { outerNames } from "./bridge-fit.ts";
export { xOf } from "./bridge-model.ts";
export { rangesWanted } from "./bridge-window.ts";
export { nameOfHole } from "./hole-names.ts";
export { howToMeasure, missingReading } from "./how-to-measure.ts";
export { lookUp } from "./look-up.ts";
export { neededHeights } from "./needed-heights.ts";
export { type PlacedPiece, type Placement, placement } from "./placement.ts";
export type { ScaleFrame } from "./scale-frame.ts";
export { scaleFrame } from "./scale-frame.ts";
export { type Binding, bindingWords, type PlaceTrial, tryPlaceOn, wallWords } from "./try-place.ts";
export type { WallPlace } from "./where-it-binds.ts";
