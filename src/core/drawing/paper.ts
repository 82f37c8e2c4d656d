/**
 * Paper, and the frame that doubles as the print check: its sides are the longest rules the paper allows in steps of
 * 5 mm, so that side and rule, corner and corner cross are one.
 */
import { InputError } from "../errors.ts";
import { type PageRect, rectOf } from "./geometry.ts";
import type { PrintFactors } from "./print-check.ts";

/** A4: ISO 216. Letter: 8 1/2 × 11 in. */
export const PAPER_MM = {
  A4: { width: 210, height: 297 },
  Letter: { width: 215.9, height: 279.4 },
} as const;

export type PaperName = keyof typeof PAPER_MM;
export type Orientation = "portrait" | "landscape";

/** Most printers leave 4 to 6 mm blank (common practice, no source). */
const LEAST_MARGIN_MM = 8;
const FRAME_STEP_MM = 5;
/** Above this the corrected sheet would not fit its paper sensibly. */
const LARGEST_FACTOR = 1.06;

export interface SheetPaper {
  readonly name: PaperName;
  readonly orientation: Orientation;
  /** The paper. */
  readonly widthMm: number;
  readonly heightMm: number;
  /** What one true millimetre is drawn as. */
  readonly factors: { readonly across: number; readonly down: number };
  /** The frame in true mm: what a rule will measure on the print. */
  readonly frame: PageRect;
}

/**
 * A printer's factors, told for an upright sheet, as a sheet of this way up takes them: paper runs through the printer
 * the same way whatever is on it, so that across a sheet that lies on its side is down the paper.
 */
export function factorsFor(orientation: Orientation, upright: PrintFactors | undefined): PrintFactors | undefined {
  return upright && orientation === "landscape" ? { sx: upright.sy, sy: upright.sx } : upright;
}

/**
 * The paper with its frame. With factors the frame shrinks or grows so that what is drawn stays on the paper.
 *
 * @param factors across and down this very sheet
 * @throws InputError if a factor is not near 1
 */
export function sheetPaper(name: PaperName, orientation: Orientation, factors?: PrintFactors): SheetPaper {
  const across = told(factors?.sx ?? 1);
  const down = told(factors?.sy ?? 1);
  for (const [where, factor] of [
    ["factors.sx", across],
    ["factors.sy", down],
  ] as const) {
    if (!(factor > 1 / LARGEST_FACTOR && factor < LARGEST_FACTOR)) {
      throw new InputError(
        where,
        `must lie between 0.95 and 1.06, got ${factor}`,
        "Take the factors from a print check",
      );
    }
  }
  const { width, height } = PAPER_MM[name];
  const [widthMm, heightMm] = orientation === "portrait" ? [width, height] : [height, width];
  return {
    name,
    orientation,
    widthMm,
    heightMm,
    factors: { across, down },
    frame: frameIn(widthMm / across, heightMm / down),
  };
}

/** To four digits, as the sheet tells its factors: whoever reads them off the paper has the frame exactly. */
function told(factor: number): number {
  return Math.round(factor * 1e4) / 1e4;
}

function frameIn(width: number, height: number): PageRect {
  const side = (whole: number) => Math.floor((whole - 2 * LEAST_MARGIN_MM + 1e-9) / FRAME_STEP_MM) * FRAME_STEP_MM;
  const [across, down] = [side(width), side(height)];
  return rectOf((width - across) / 2, (height - down) / 2, across, down);
}
