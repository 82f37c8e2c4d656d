/**
 * Screw threads met on an electric guitar or bass: nominal diameter and pitch.
 *
 * Sources. M2 to M4: ISO 261 coarse series, pitches as printed in a tap maker's general catalogue (2021) and an ISO
 * pitch table. #2-56 to #10-32: ASME B1.1, as printed in a fastener distributor's UNC and UNF tables. Panel bushings
 * (M7, M8, M9 x 0.75, 1/4-32, 3/8-32 UNEF): data sheet of a panel potentiometer family (2010 and 2015 issues); their
 * diameters follow from the names. Rows marked "from memory" were not read in a document.
 * Pitch and minor diameters are not listed: they follow from the basic profile (core/fit/thread.ts).
 */

const MM_PER_INCH = 25.4;

export interface Thread {
  readonly name: string;
  readonly system: "ISO" | "Unified";
  readonly majorMm: number;
  readonly pitchMm: number;
  /** Where it is met. Common practice, no source. */
  readonly use: string;
  readonly mark: "published" | "from memory";
}

function unified(name: string, majorInch: number, perInch: number, use: string, mark: Thread["mark"]): Thread {
  return { name, system: "Unified", majorMm: majorInch * MM_PER_INCH, pitchMm: MM_PER_INCH / perInch, use, mark };
}

function iso(name: string, majorMm: number, pitchMm: number, use: string, mark: Thread["mark"]): Thread {
  return { name, system: "ISO", majorMm, pitchMm, use, mark };
}

export const THREADS: readonly Thread[] = [
  iso("M2", 2, 0.4, "small saddle screws", "published"),
  iso("M2.5", 2.5, 0.45, "saddle and pickup screws", "published"),
  iso("M3", 3, 0.5, "saddle, pickup and lever screws", "published"),
  iso("M4", 4, 0.7, "saddle posts, neck clamps", "published"),
  iso("M5", 5, 0.8, "posts of small bridges", "from memory"),
  iso("M6", 6, 1, "bridge posts", "from memory"),
  iso("M8", 8, 1.25, "bridge and tailpiece posts, metric", "from memory"),
  iso("M7x0.75", 7, 0.75, "bushing of small pots", "published"),
  iso("M8x0.75", 8, 0.75, "bushing of pots with a 6.0 shaft", "published"),
  iso("M9x0.75", 9, 0.75, "bushing of pots with a 6.35 shaft", "published"),
  unified("#2-56", 0.086, 56, "small screws", "published"),
  unified("#4-40", 0.112, 40, "saddle and pickup screws", "published"),
  unified("#6-32", 0.138, 32, "lever screws", "published"),
  unified("#8-32", 0.164, 32, "posts of two-post bridges", "published"),
  unified("#10-32", 0.19, 32, "rod nuts, clamps", "published"),
  unified("1/4-32 UNEF", 0.25, 32, "bushing of small pots", "published"),
  unified("3/8-32 UNEF", 0.375, 32, "bushing of pots and jacks", "published"),
  unified("5/16-24 UNF", 0.3125, 24, "bridge and tailpiece posts, inch", "from memory"),
];
