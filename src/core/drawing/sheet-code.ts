/**
 * A short code beside the boxes of the print check: paper, way up, and the factors that the sheet was drawn with. What
 * is measured on a sheet says something only against the frame of that sheet, and a landscape or a corrected one has
 * another frame than the usual.
 */
import { InputError } from "../errors.ts";
import { type PaperName, type SheetPaper, sheetPaper } from "./paper.ts";
import type { PrintFactors, PrintNominal } from "./print-check.ts";
import { nominalOf } from "./rules.ts";

/** Factors are told, and drawn, in steps of a ten-thousandth: 0.03 mm over the longest rule. */
const STEPS = 10_000;

/** "A4-P"; corrected "A4-P-10309-10150": drawn × 1.0309 across, × 1.0150 down. */
export function sheetCode({ name, orientation, factors }: SheetPaper): string {
  const { across, down } = factors;
  const shown = [across, down].map((factor) => String(Math.round(factor * STEPS)));
  return [name, orientation === "portrait" ? "P" : "L", ...(across === 1 && down === 1 ? [] : shown)].join("-");
}

/**
 * The frame as it should measure on the sheet of this code. Without one: an upright sheet, not corrected.
 *
 * @throws InputError if the code cannot be read
 */
export function nominalByCode(code: string | undefined, paper: PaperName, where: string): PrintNominal {
  if (code === undefined) return nominalOf(sheetPaper(paper, "portrait").frame);
  const [, name, way, sx, sy] = /^(A4|Letter)-([PL])(?:-(\d{4,5})-(\d{4,5}))?$/i.exec(code.trim()) ?? [];
  if (name === undefined || way === undefined)
    throw new InputError(
      where,
      `cannot read the sheet's code "${code}"`,
      'Copy it from below the boxes of the print check, e.g. "A4-P" or "A4-L-10309-10150"',
    );
  const drawnWith: PrintFactors | undefined =
    sx === undefined || sy === undefined ? undefined : { sx: Number(sx) / STEPS, sy: Number(sy) / STEPS };
  const known = /^a4$/i.test(name) ? "A4" : "Letter";
  const { frame } = sheetPaper(known, /^p$/i.test(way) ? "portrait" : "landscape", drawnWith);
  return { ...nominalOf(frame), ...(drawnWith ? { drawnWith } : {}) };
}

/** A refusal of readings that came without their code may only mean that they are another sheet's. */
export const GIVE_THE_CODE = "If the sheet is turned or corrected, give the code printed below its boxes too";
