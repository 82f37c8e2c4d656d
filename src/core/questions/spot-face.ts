/** How far the wood at a control is thinned from inside: deep enough for its bushing and for its depth, once for both. */
import { bushingFit, controlDepth, type SpotFace, spotFace } from "../fit/index.ts";
import type { Control, Instrument } from "../job/index.ts";
import type { Asking } from "../ledger/index.ts";
import { type Known, type Quantity, valueOr } from "../quantity/index.ts";
import type { Work } from "../verdict/index.ts";

export interface Thinning extends SpotFace {
  readonly work: Work;
}

/** Undefined where nothing is short, or where the wood is not known. */
export function thinningAt(asking: Asking<Instrument>, id: string): Thinning | undefined {
  return asking.derive(`thinning at ${id}`, ({ subject }) => {
    const control = subject.controls.find((one) => one.id === id);
    return control && thinningOf(control, subject);
  });
}

function thinningOf(control: Control, instrument: Instrument): Thinning | undefined {
  const { wood, threadLength, depth, lugs, freeDepth } = control;
  if (!wood.known) return undefined;
  const stack = stackOf(instrument);
  const bushing = threadLength.known
    ? bushingFit({ woodMm: wood.value, threadMm: threadLength.value, ...stack }).shortMm
    : 0;
  const known = [depth, lugs, freeDepth].every((quantity): quantity is Known => quantity.known);
  const room = known
    ? controlDepth({ partMm: value(depth), lugsMm: value(lugs), freeDepthMm: value(freeDepth) }).shortMm
    : 0;
  const byMm = Math.max(bushing, room);
  if (byMm === 0) return undefined;
  const face = spotFace({ byMm, woodMm: wood.value, leastWoodMm: valueOr(instrument.limits.woodLeft, 3) });
  return {
    ...face,
    work: { act: "spot-face", where: `controls.${control.id}`, depth: face.depthMm, leaves: face.leavesMm },
  };
}

/** Foil, washers and nut as the owner's limits state them. */
function stackOf({ limits }: Instrument) {
  return {
    foilMm: valueOr(limits.foil, 0.1),
    lockWasherMm: valueOr(limits.lockWasher, 0.9),
    washerMm: valueOr(limits.washer, 0.8),
    nutMm: valueOr(limits.nut, 2.4),
  };
}

function value(quantity: Quantity): number {
  return valueOr(quantity, 0);
}
