/** What a measured print says of the next one. */
import type { PaperName } from "./paper.ts";
import {
  type PrintCheck,
  type PrintFactors,
  type PrintMeasured,
  type PrintNominal,
  printCheck,
} from "./print-check.ts";
import { nominalByCode } from "./sheet-code.ts";

export interface NextPrint {
  readonly nominal: PrintNominal;
  readonly check: PrintCheck;
  /** To draw the next upright sheet with; none where a plain one comes out true, or where no correction helps. */
  readonly factors?: PrintFactors;
}

/**
 * @param code printed below the boxes; without one, an upright sheet that was not corrected
 * @throws InputError as `printCheck` and `nominalByCode`
 */
export function nextPrint(
  measured: PrintMeasured,
  code: string | undefined,
  paper: PaperName,
  where: string,
): NextPrint {
  const nominal = nominalByCode(code, paper, where);
  const check = printCheck(measured, nominal);
  // A corrected sheet that is true has to be printed with the same correction the next time.
  const own = "correct" in check ? check.correct : "accept" in check ? nominal.drawnWith : undefined;
  if (!own) return { nominal, check };
  // The printer's own axes: down a sheet that lies on its side is across one that stands.
  const lies = /^\w+-L/i.test(code?.trim() ?? "");
  return { nominal, check, factors: lies ? { sx: own.sy, sy: own.sx } : own };
}
