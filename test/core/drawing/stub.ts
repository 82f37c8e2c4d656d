/** A font in which every letter is as wide as it is high: widths that a test can work out by hand. */
import type { TextMeasure } from "../../../src/core/drawing/index.ts";

export const squareLetters: TextMeasure = (text, heightMm) => [...text].length * heightMm;
