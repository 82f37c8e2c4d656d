/** What every sheet needs: the job's names, the date given from outside, and places told from a line that steel can find. */

import type { PaperName, PrintFactors, TitleFields } from "../drawing/index.ts";
import type { Instrument } from "../job/index.ts";
import { type Placement, xOf } from "../questions/index.ts";
import { fretPositionMm } from "../scale/index.ts";
import type { Verdict } from "../verdict/index.ts";

export type KnownPlacement = Extract<Placement, { known: true }>;

export interface SheetOptions {
  readonly paper: PaperName;
  /** As it is to be read; the core has no clock. */
  readonly date: string;
  readonly version: string;
  readonly printFactors?: PrintFactors;
}

export interface SheetContext {
  readonly instrument: Instrument;
  readonly verdicts: readonly Verdict[];
  readonly placement: KnownPlacement | undefined;
  readonly options: SheetOptions;
  /** Names of the parts by their ids in the job file. */
  readonly partNames: Readonly<Record<string, string>>;
}

export function titleFields({ instrument, options }: SheetContext, title: string): TitleFields {
  return {
    title,
    jobId: instrument.id,
    instrument: instrument.title,
    date: options.date,
    version: options.version,
    state: instrument.state,
  };
}

/** The fret that places on the body are told from: fret 12, or the square fret of a multi-scale neck. */
export interface Register {
  readonly fret: number;
  /** x of that fret from the nut, on the centre line. */
  readonly xMm: number;
  readonly words: string;
}

const USUAL_FRET = 12;

export function registerOf(placed: KnownPlacement, instrument: Instrument): Register {
  const { frame } = placed.model;
  const lengths = frame.scaleLengths.map((length) => length.value);
  const mean = lengths.reduce((sum, length) => sum + length, 0) / lengths.length;
  const square = instrument.neck.squareFret;
  const fret = frame.multiScale && square.known && square.value > 0 ? square.value : frame.multiScale ? 0 : USUAL_FRET;
  const xMm = fret === 0 ? 0 : fretPositionMm({ scaleLengthMm: mean, fret });
  return { fret, xMm, words: fret === 0 ? "the nut's face" : `the middle of fret ${fret}` };
}

/** Distance of a body place from the register fret, along the centre line. */
export function fromRegister(placed: KnownPlacement, register: Register, u: number): number {
  return xOf(placed.model.frame, u) - register.xMm;
}

/** Sheets carry a line at a whole centimetre from the fret, so that a steel rule finds it; never the scale length. */
export function registerLineAt(nearestMm: number): number {
  return Math.floor((nearestMm - 14) / 10) * 10;
}
