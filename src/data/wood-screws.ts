/**
 * Wood screws: shank, pitch and root by number.
 *
 * Shank and threads per inch of #2 to #8: ASME B18.6.1, as printed in a wood-screw chart that cites the standard.
 * `rootChartInch`: root column of a fastener distributor's wood-screw chart. One vendor's figures; the same chart gives
 * machine-screw pitches for the small sizes, so lean on them lightly.
 * `rootNdsInch`: NDS (American Wood Council), appendix L, table L3: from memory.
 * #10: shank by the rule 0.060 + 0.013 n in (published), threads per inch and root from memory.
 * The three roots disagree by a fifth: whoever uses one says which (core/fit/wood-screw.ts).
 */
export interface WoodScrewSize {
  readonly gauge: number;
  readonly shankInch: number;
  readonly threadsPerInch: number;
  readonly majorRangeInch?: readonly [number, number];
  readonly rootChartInch?: number;
  readonly rootNdsInch?: number;
}

export const WOOD_SCREWS: readonly WoodScrewSize[] = [
  { gauge: 2, shankInch: 0.086, threadsPerInch: 26, majorRangeInch: [0.079, 0.09], rootChartInch: 0.062 },
  { gauge: 3, shankInch: 0.099, threadsPerInch: 24, majorRangeInch: [0.092, 0.103], rootChartInch: 0.073 },
  { gauge: 4, shankInch: 0.112, threadsPerInch: 22, majorRangeInch: [0.105, 0.116], rootChartInch: 0.084 },
  { gauge: 5, shankInch: 0.125, threadsPerInch: 20, majorRangeInch: [0.118, 0.129], rootChartInch: 0.095 },
  {
    gauge: 6,
    shankInch: 0.138,
    threadsPerInch: 18,
    majorRangeInch: [0.131, 0.142],
    rootChartInch: 0.106,
    rootNdsInch: 0.113,
  },
  { gauge: 7, shankInch: 0.151, threadsPerInch: 16, majorRangeInch: [0.144, 0.155], rootChartInch: 0.12 },
  { gauge: 8, shankInch: 0.164, threadsPerInch: 15, rootChartInch: 0.131, rootNdsInch: 0.131 },
  { gauge: 10, shankInch: 0.19, threadsPerInch: 13, rootNdsInch: 0.152 },
];
