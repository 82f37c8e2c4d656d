/** One comparison of a pickup with its rout: ends, sides or depth, of its body or its ears. Rules FT1 and FT2. */
import { gapEachSideMm } from "../fit/index.ts";
import { type Quantity, valueOr } from "../quantity/index.ts";

export type Part = "body" | "ears";
export type Way = "ends" | "sides" | "depth";

/** One comparison of the part with its rout. */
export interface Check {
  readonly name: string;
  readonly part: Part;
  readonly way: Way;
  readonly size: Quantity;
  readonly rout: Quantity;
  /** Without it there is no answer. */
  readonly needed: boolean;
}

/** Gap at one end, at one side, or below. */
export function gapAt(check: Check, sizeMm: number, routMm: number): number {
  return check.way === "depth" ? routMm - sizeMm : gapEachSideMm(sizeMm, routMm);
}

export function gapNow(check: Check): number {
  return gapAt(check, valueOr(check.size, Number.NaN), valueOr(check.rout, Number.NaN));
}
