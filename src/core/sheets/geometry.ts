/** Part places on the body, for drawing. */
import { toBody } from "../bridge/index.ts";

export interface BodyPlace {
  readonly u: number;
  readonly y: number;
}

export function placeOfPart(
  pose: { readonly placeMm: number; readonly sideMm: number; readonly yawDegrees: number },
  p: number,
  q: number,
): BodyPlace {
  const { uMm, yMm } = toBody(pose, { pMm: p, qMm: q });
  return { u: uMm, y: yMm };
}
