/**
 * Set-up figures to compare a reading with. They are starting points, not verdicts: the owner's own wish goes first.
 *
 * "published": a tool maker's instruction sheet (relief, clearance over fret 1) and a repair article (upper limit of
 * relief, steel-string acoustic), figures given there in inches. "common practice": no source.
 */
export interface SetUpFigure {
  readonly item: string;
  readonly lowMm: number;
  readonly highMm: number;
  readonly mark: "published" | "common practice";
}

const MM_PER_INCH = 25.4;

export const SET_UP_FIGURES = {
  relief: { item: "relief", lowMm: 0, highMm: 0.012 * MM_PER_INCH, mark: "published" },
  reliefUsual: { item: "relief, usual", lowMm: 0.1, highMm: 0.3, mark: "common practice" },
  reliefLimit: { item: "relief, upper limit", lowMm: 0, highMm: MM_PER_INCH / 64, mark: "published" },
  overFret1Plain: {
    item: "clearance over fret 1, plain string, open",
    lowMm: 0.012 * MM_PER_INCH,
    highMm: 0.012 * MM_PER_INCH,
    mark: "published",
  },
  overFret1Wound: {
    item: "clearance over fret 1, wound string, open",
    lowMm: 0.02 * MM_PER_INCH,
    highMm: 0.02 * MM_PER_INCH,
    mark: "published",
  },
  action12Treble: { item: "action at fret 12, treble side", lowMm: 1.2, highMm: 1.8, mark: "common practice" },
  action12Bass: { item: "action at fret 12, bass side", lowMm: 1.6, highMm: 2.2, mark: "common practice" },
  pickupGapBridge: {
    item: "string held at the last fret to the bridge pickup",
    lowMm: 1.6,
    highMm: 2.4,
    mark: "common practice",
  },
  pickupGapNeck: {
    item: "string held at the last fret to the neck pickup",
    lowMm: 2.4,
    highMm: 3.2,
    mark: "common practice",
  },
} as const satisfies Readonly<Record<string, SetUpFigure>>;
