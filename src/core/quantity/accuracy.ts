/**
 * What standards allow a measuring tool to be wrong by, and how limits become standard uncertainties.
 *
 * Model: a limit ±a without more knowledge is taken as a rectangular distribution, u = a/√3; triangular a/√6;
 * independent terms add as squares (JCGM 100:2008, 4.3.7, 4.3.9, 5.1.2; published, clause numbers from memory).
 * Left out: how the tool is held and read; that belongs to the reading (tools.ts).
 */
import { requirePositive } from "../checks.ts";
import { InputError } from "../errors.ts";

/** Standard uncertainty of a limit ±halfWidth, every place in between alike likely. */
export function rectangularU(halfWidth: number): number {
  return halfWidth / Math.sqrt(3);
}

/** Standard uncertainty of a limit ±halfWidth when the middle is likelier than the ends. */
export function triangularU(halfWidth: number): number {
  return halfWidth / Math.sqrt(6);
}

/** Root of the sum of squares: standard uncertainty of a sum of independent terms, or relative ones of a product. */
export function combineIndependent(terms: readonly number[]): number {
  return Math.hypot(...terms);
}

export type RuleClass = "I" | "II" | "III";

/** UK SI 2016/1153, schedule 1I (measuring instruments directive, annex MI-008), table 1; mm and mm per metre; published. */
const RULE_TABLE: Readonly<Record<RuleClass, { readonly a: number; readonly b: number; readonly c: number }>> = {
  I: { a: 0.1, b: 0.1, c: 0.1 },
  II: { a: 0.3, b: 0.2, c: 0.2 },
  III: { a: 0.6, b: 0.4, c: 0.3 },
};

/** Same schedule, table 2: between neighbouring marks, up to 1 mm and up to 10 mm apart; published. */
const INTERVAL_TABLE: Readonly<Record<RuleClass, { readonly upTo1: number; readonly upTo10: number }>> = {
  I: { upTo1: 0.1, upTo10: 0.2 },
  II: { upTo1: 0.2, upTo10: 0.4 },
  III: { upTo1: 0.3, upTo10: 0.6 },
};

/**
 * Greatest error allowed between two marks of a rule or tape: a + b L, L in whole metres begun; from an end face or a
 * hook c more.
 *
 * @returns mm, either way
 * @throws InputError unless the length is above zero
 * @example
 * ruleLimitMm({ accuracyClass: "II", lengthMm: 650, fromEndFace: true }); // 0.7
 */
export function ruleLimitMm(reading: {
  readonly accuracyClass: RuleClass;
  readonly lengthMm: number;
  readonly fromEndFace?: boolean;
}): number {
  const { accuracyClass, lengthMm, fromEndFace = false } = reading;
  requirePositive(lengthMm, "lengthMm", "mm", "Give the length that is read");
  const { a, b, c } = RULE_TABLE[accuracyClass];
  return a + b * Math.ceil(lengthMm / 1000) + (fromEndFace ? c : 0);
}

/**
 * Greatest error allowed between two neighbouring marks of a rule or tape.
 *
 * @throws InputError for marks more than 10 mm apart, which the table does not cover here
 */
export function ruleIntervalLimitMm(marks: { readonly accuracyClass: RuleClass; readonly intervalMm: number }): number {
  const { accuracyClass, intervalMm } = marks;
  requirePositive(intervalMm, "intervalMm", "mm", "Give the distance between two marks");
  if (intervalMm > 10)
    throw new InputError("intervalMm", `must be at most 10 mm, got ${intervalMm}`, "Use ruleLimitMm for longer spans");
  return intervalMm <= 1 ? INTERVAL_TABLE[accuracyClass].upTo1 : INTERVAL_TABLE[accuracyClass].upTo10;
}

/**
 * DIN 862, limits in mm for outside readings up to the length; from a one-page extract of the standard (published).
 * Where its cells are merged, the rows at 200 and 300 mm follow a maker's note of 0.02 up to 100 mm and 0.03 up to
 * 600 mm, and 0.05 at 300 mm is from memory.
 */
const CALLIPER_TABLE: readonly { readonly upToMm: number; readonly fine: number; readonly coarse: number }[] = [
  { upToMm: 100, fine: 0.02, coarse: 0.05 },
  { upToMm: 300, fine: 0.03, coarse: 0.05 },
  { upToMm: 400, fine: 0.03, coarse: 0.06 },
  { upToMm: 500, fine: 0.03, coarse: 0.07 },
  { upToMm: 600, fine: 0.03, coarse: 0.08 },
  { upToMm: 700, fine: 0.04, coarse: 0.09 },
  { upToMm: 800, fine: 0.04, coarse: 0.1 },
  { upToMm: 900, fine: 0.04, coarse: 0.11 },
  { upToMm: 1000, fine: 0.04, coarse: 0.12 },
];

/** Inside jaws and depth rod are allowed this much more. */
const INSIDE_OR_DEPTH_MM = 0.02;

/**
 * Greatest error that a calliper may show. Between two lengths of the table the longer one counts.
 *
 * @returns mm, either way
 * @throws InputError for a step that callipers do not have, or a length over 1000 mm
 * @example
 * calliperLimitMm({ stepMm: 0.01, lengthMm: 100 }); // 0.02
 */
export function calliperLimitMm(reading: {
  readonly stepMm: number;
  readonly lengthMm: number;
  readonly face?: "outside" | "inside" | "depth";
}): number {
  const { stepMm, lengthMm, face = "outside" } = reading;
  requirePositive(lengthMm, "lengthMm", "mm", "Give the length that is read");
  const fine = stepMm === 0.01 || stepMm === 0.02;
  if (!fine && stepMm !== 0.05 && stepMm !== 0.1) {
    throw new InputError(
      "stepMm",
      `must be 0.01, 0.02, 0.05 or 0.1 mm, got ${stepMm}`,
      "Give the smallest step that the calliper shows",
    );
  }
  const row = CALLIPER_TABLE.find(({ upToMm }) => lengthMm <= upToMm);
  if (!row) throw new InputError("lengthMm", `must be at most 1000 mm, got ${lengthMm}`, "Use a rule or a tape");
  return (fine ? row.fine : row.coarse) + (face === "outside" ? 0 : INSIDE_OR_DEPTH_MM);
}
