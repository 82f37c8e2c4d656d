/**
 * Battery room and balance about the strap button.
 *
 * Model: boxes; moments of weights along the centre line.
 * Left out: connector of the battery beyond its stated size, balance across the body.
 * Source: derived; room for a lining common practice. Rules FT37, FT38.
 */
import { requireFinite } from "../checks.ts";
import { requireNotNegativeMm, requirePlacesMm, requireSizesMm } from "./guard.ts";

export interface Box {
  readonly lengthMm: number;
  readonly widthMm: number;
  readonly depthMm: number;
}

export interface BoxFit {
  /** Least of the three differences, less the clearance, the best way round. */
  readonly marginMm: number;
  /** The battery as it lies best in the room. */
  readonly lies: Box;
}

/** Does a battery go into its room, whichever way round? */
export function boxFit(fit: { readonly room: Box; readonly part: Box; readonly clearanceMm: number }): BoxFit {
  const { room, part, clearanceMm } = fit;
  requireSizesMm({ ...room }, "Measure the room");
  requireSizesMm({ ...part }, "Measure the battery with its clip on");
  requireNotNegativeMm({ clearanceMm }, "0.5 for a lining");
  const { lengthMm: l, widthMm: w, depthMm: d } = part;
  // Measured sizes first: a battery that fits as it was meant to lie is not turned for the sake of a tie.
  const ways: readonly (readonly [number, number, number])[] = [
    [l, w, d],
    [w, l, d],
    [l, d, w],
    [d, l, w],
    [w, d, l],
    [d, w, l],
  ];
  let best: BoxFit | undefined;
  for (const [lengthMm, widthMm, depthMm] of ways) {
    const spare = Math.min(room.lengthMm - lengthMm, room.widthMm - widthMm, room.depthMm - depthMm);
    const marginMm = spare - clearanceMm;
    if (!best || marginMm > best.marginMm) best = { marginMm, lies: { lengthMm, widthMm, depthMm } };
  }
  // Six ways were tried, so there is a best one.
  return best as BoxFit;
}

export interface MassMoved {
  /** From the nut along the centre line; the headstock is below 0. */
  readonly xMm: number;
  readonly offG: number;
  readonly onG: number;
}

export interface BalanceChange {
  /** Grams times millimetres about the strap button; positive: the head gets heavier. */
  readonly headwardGMm: number;
  /** The same as a mass hung at the nut. */
  readonly atNutG: number;
  /** Change of the whole weight. */
  readonly massG: number;
}

/** How a refit changes the balance about the strap button at the neck's end of the body. */
export function balanceChange(change: {
  readonly strapButtonXMm: number;
  readonly moved: readonly MassMoved[];
}): BalanceChange {
  const { strapButtonXMm, moved } = change;
  requireSizesMm({ strapButtonXMm }, "Measure from the nut to the strap button, along the centre line");
  let headwardGMm = 0;
  let massG = 0;
  moved.forEach((part, index) => {
    requirePlacesMm({ [`moved[${index}].xMm`]: part.xMm }, "Measure from the nut along the centre line");
    requireFinite(part.offG, `moved[${index}].offG`, "g", "0 if nothing comes off");
    requireFinite(part.onG, `moved[${index}].onG`, "g", "0 if nothing goes on");
    const more = part.onG - part.offG;
    headwardGMm += more * (strapButtonXMm - part.xMm);
    massG += more;
  });
  return { headwardGMm, atNutG: headwardGMm / strapButtonXMm, massG };
}
