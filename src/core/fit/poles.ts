/**
 * Where the strings pass over the poles of a pickup.
 *
 * Model: a string is straight, in the plane of the top, from its nut slot to its own contact point; the poles stand on
 * a line through the pickup's middle. On a slanted pickup the spread is taken along that line.
 * Left out: the string's height, and the width of its own swing.
 * Source: intersection of two lines (derived); limits common practice. Rules FT5 to FT7 of docs/spec/fit.md.
 */
import { InputError } from "../errors.ts";
import { requirePlacesMm, requireSizesMm } from "./guard.ts";

/** A string seen from above. x along the centre line from the nut's face, y across. */
export interface StringLine {
  readonly nutXMm: number;
  readonly nutYMm: number;
  readonly contactXMm: number;
  readonly contactYMm: number;
}

/** The line of the poles. */
export interface PoleRow {
  readonly xMm: number;
  /** Across, of the row's middle. */
  readonly yMm: number;
  /** Positive moves the y > 0 end toward the bridge. */
  readonly slantDegrees: number;
}

/**
 * Where a string crosses the line of the poles, measured along that line from the pickup's middle (y direction).
 *
 * @throws InputError if the string runs along the line of the poles or a place is not a number
 */
export function crossingMm(string: StringLine, row: PoleRow): number {
  const runMm = string.contactXMm - string.nutXMm;
  // One sum tells whether all are numbers; the names are gone through only if not.
  if (!Number.isFinite(runMm + string.nutYMm + string.contactYMm + row.xMm + row.yMm + row.slantDegrees)) {
    requirePlacesMm({ ...string }, "Measure from the nut's face and from the centre line");
    requirePlacesMm({ ...row }, "Measure the middle of the pickup");
  }
  if (runMm <= 0) {
    throw new InputError(
      "contactXMm",
      `must lie behind the nut, got ${string.contactXMm}`,
      "Measure from the nut's face",
    );
  }
  const slope = (string.contactYMm - string.nutYMm) / runMm;
  const angle = (row.slantDegrees * Math.PI) / 180;
  const across = Math.cos(angle) - slope * Math.sin(angle);
  if (across <= 0) {
    throw new InputError(
      "slantDegrees",
      `must be well under 90, got ${row.slantDegrees}`,
      "Give the slant of the poles",
    );
  }
  return (string.nutYMm + slope * (row.xMm - string.nutXMm) - row.yMm) / across;
}

export interface PoleFit {
  /** Pole radius less the offset, `sideMm` not counted; below 0 an outer string passes beside its pole. */
  readonly marginMm: number;
  /** Between the two outer strings, along the line of the poles. */
  readonly spreadMm: number;
  /** Mean of both ends: half of (strings - poles). Positive: the strings stand wider. */
  readonly offsetMm: number;
  /** Strings' middle off the pickup's middle, positive toward y > 0. */
  readonly sideMm: number;
}

/**
 * Spread of the outer strings over a pickup against the spread of its poles.
 *
 * @param row.first the outer string on the y > 0 side
 * @param row.last the outer string on the y < 0 side
 */
export function poleFit(row: {
  readonly first: StringLine;
  readonly last: StringLine;
  readonly poles: PoleRow;
  readonly poleSpreadMm: number;
  readonly poleDiameterMm: number;
}): PoleFit {
  const { first, last, poles, poleSpreadMm, poleDiameterMm } = row;
  requireSizesMm({ poleSpreadMm, poleDiameterMm }, "Measure centre to centre of the outer poles, and across one pole");
  const a = crossingMm(first, poles);
  const b = crossingMm(last, poles);
  const spreadMm = Math.abs(a - b);
  const offsetMm = (spreadMm - poleSpreadMm) / 2;
  return { marginMm: poleDiameterMm / 2 - Math.abs(offsetMm), spreadMm, offsetMm, sideMm: (a + b) / 2 };
}

export interface PolePairFit {
  /** Half the distance inside a pair less the offset, `sideMm` not counted: below 0 a string passes outside its poles. */
  readonly marginMm: number;
  readonly pitchMm: number;
  readonly offsetMm: number;
  /** The two strings' middle off the half's middle, positive toward y > 0. */
  readonly sideMm: number;
}

/** A half of a split pickup: two strings over two pairs of poles. */
export function polePairFit(half: {
  readonly first: StringLine;
  readonly last: StringLine;
  readonly poles: PoleRow;
  /** Between the middles of the two pairs. */
  readonly pairCentresMm: number;
  /** Between the two poles of one pair. */
  readonly polePairMm: number;
}): PolePairFit {
  const { first, last, poles, pairCentresMm, polePairMm } = half;
  requireSizesMm({ pairCentresMm, polePairMm }, "Measure centre to centre");
  const a = crossingMm(first, poles);
  const b = crossingMm(last, poles);
  const pitchMm = Math.abs(a - b);
  const offsetMm = Math.abs(pitchMm - pairCentresMm) / 2;
  return { marginMm: polePairMm / 2 - offsetMm, pitchMm, offsetMm, sideMm: (a + b) / 2 };
}
