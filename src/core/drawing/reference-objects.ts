/**
 * Things of known size that lie in a photograph or on a sheet.
 *
 * Card: ISO/IEC 7810 ID-1 as tabulated in encyclopaedic pages (85.60 × 53.98 mm, 0.76 ± 0.08 thick, corner radius 2.88
 * to 3.48); limits for an unused card from memory of ISO/IEC 7810:2003.
 */
import { type FramePoint, rectangle, type Vertex } from "./geometry.ts";

export const ID1_CARD_MM = {
  width: 85.6,
  height: 53.98,
  thickness: 0.76,
  thicknessTolerance: 0.08,
  cornerRadius: { least: 2.88, nominal: 3.18, most: 3.48 },
  /** From memory. */
  unusedWidth: { least: 85.47, most: 85.72 },
  /** From memory. */
  unusedHeight: { least: 53.92, most: 54.03 },
} as const;

/** Outline of the card with its long side along y, or along x when turned by 90 degrees. */
export function cardOutline(centre: FramePoint, turnDegrees = 0): Vertex[] {
  const { width, height, cornerRadius } = ID1_CARD_MM;
  return rectangle({ centre, alongMm: height, acrossMm: width, cornerRadiusMm: cornerRadius.nominal, turnDegrees });
}
