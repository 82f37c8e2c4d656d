export {
  calliperLimitMm,
  combineIndependent,
  type RuleClass,
  rectangularU,
  ruleIntervalLimitMm,
  ruleLimitMm,
  triangularU,
} from "./accuracy.ts";
export { derive, type Input, known, scaleDoubt, valueOr } from "./derive.ts";
export { formatLength, formatQuantity, type LengthShown, type LengthStyle } from "./format.ts";
export { parseQuantity, type Want } from "./parse.ts";
export { type Figure, figure, type LengthUnit, mm, type Phrase, say, showFigure, showPhrase } from "./phrase.ts";
export { readingU, TOOLS, type Tool, toolNamed } from "./tools.ts";
export { inchesFromMm, MM_PER_INCH, mmFromInches } from "./units.ts";
export {
  BASE_UNIT,
  type DoubtTerm,
  exact,
  type Kind,
  type Known,
  type Origin,
  type Quantity,
  standardUncertainty,
  type Unknown,
  unknown,
} from "./value.ts";
