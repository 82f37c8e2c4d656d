/**
 * Width of a nut slot against its string, and which file opens it.
 *
 * Source: gauge + 0.025 to 0.05, repair writing (common practice). Rule FT22.
 */
import { requireNotNegativeMm, requireSizesMm } from "./guard.ts";

/** A slot this much wider than its need lets the string wander. Common practice, no source. */
const LOOSE_FROM_MM = 0.15;
const NOISE_MM = 1e-9;

export interface NutSlotFit {
  readonly marginMm: number;
  readonly needMm: number;
  readonly widenByMm: number;
  readonly loose: boolean;
}

/**
 * @example
 * nutSlotFit({ slotMm: 0.28, gaugeMm: 0.33, clearanceMm: 0.05 }); // need 0.38: widen by 0.10
 */
export function nutSlotFit(slot: {
  readonly slotMm: number;
  readonly gaugeMm: number;
  readonly clearanceMm: number;
}): NutSlotFit {
  const { slotMm, gaugeMm, clearanceMm } = slot;
  requireSizesMm({ slotMm, gaugeMm }, "Try feeler or string ends in the slot; the gauge is on the packet");
  requireNotNegativeMm({ clearanceMm }, "0.05 by common practice");
  const needMm = gaugeMm + clearanceMm;
  const marginMm = slotMm - needMm;
  return { marginMm, needMm, widenByMm: Math.max(0, -marginMm), loose: marginMm > LOOSE_FROM_MM };
}

export interface NutFile {
  readonly fileMm: number;
  /** What the slot still wants: roll the file from side to side. 0 if the file is as wide as the slot. */
  readonly rollMm: number;
}

/**
 * The widest own file that does not overshoot the slot.
 *
 * @returns undefined if every own file is wider than the slot is to be
 */
export function nutFile(cut: { readonly needMm: number; readonly filesMm: readonly number[] }): NutFile | undefined {
  const { needMm, filesMm } = cut;
  requireSizesMm({ needMm }, "Give the width wanted");
  let widest: number | undefined;
  for (const file of filesMm) {
    if (file <= needMm + NOISE_MM && (widest === undefined || file > widest)) widest = file;
  }
  return widest === undefined ? undefined : { fileMm: widest, rollMm: Math.max(0, needMm - widest) };
}
