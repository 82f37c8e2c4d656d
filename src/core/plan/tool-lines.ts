/** Which bit, stop, file or reamer to take: the owner's own where one serves, else one to buy or borrow. */
import { nearestBitMm, nutFile, openingTool } from "../fit/index.ts";
import type { Workshop } from "../job/index.ts";
import { mm, type Quantity, say } from "../quantity/index.ts";
import { tool } from "./draft.ts";
import type { Purchase, ToolLine } from "./types.ts";

/** A pilot this much thinner than wanted still leads the screw (common practice). */
const THINNER_MM = 0.3;
/** A clearance hole or a plug's hole may be this much wider (common practice). */
const WIDER_MM = 0.1;

export interface Taken {
  readonly tools: readonly ToolLine[];
  /** Without the steps, which the caller knows. */
  readonly buys: readonly Omit<Purchase, "steps">[];
}

/**
 * A drill bit.
 *
 * @param need.as a pilot may be a little thinner and never wider; a clearance hole a little wider and never thinner
 */
export function bit(
  workshop: Workshop,
  need: { readonly diameterMm: number; readonly as: "pilot" | "clearance" | "plug" },
): Taken {
  const wanted = need.diameterMm;
  const bits = values(workshop.bits);
  if (bits.length === 0) return { tools: [tool(say`drill bit ${mm(wanted, 1)}`, { large: true })], buys: [] };
  const pilot = need.as === "pilot";
  const own = pilot
    ? nearestBitMm({ wantedMm: wanted, notAboveMm: wanted + 1e-9, bitsMm: bits })
    : [...bits].sort((a, b) => a - b).find((one) => one >= wanted - 1e-9);
  const serves = own !== undefined && (pilot ? wanted - own <= THINNER_MM : own - wanted <= WIDER_MM);
  if (!serves) {
    return {
      tools: [tool(say`drill bit ${mm(wanted, 1)}: none of yours serves`, { large: true })],
      buys: [{ what: say`drill bit ${mm(wanted, 1)}`, quantity: 1 }],
    };
  }
  const text =
    Math.abs(own - wanted) < 0.005
      ? say`drill bit: use your ${mm(own, 1)}`
      : say`drill bit: use your ${mm(own, 1)} (wanted ${mm(wanted, 1)})`;
  return { tools: [tool(text, { large: true, own: true })], buys: [] };
}

/** The stop is read with the bit in the hand, so it stands in large type. */
export function depthStop(depthMm: number): ToolLine {
  return tool(say`stop set to ${mm(depthMm, 1)}`, { large: true });
}

export function slotFiles(workshop: Workshop, widthsMm: readonly number[]): Taken {
  const files = values(workshop.nutFiles);
  if (files.length === 0)
    return { tools: widthsMm.map((width) => tool(say`nut file ${mm(width)} or the next one under`)), buys: [] };
  const lines = widthsMm.map((width) => {
    const own = nutFile({ needMm: width, filesMm: files });
    // A file much narrower than the slot leaves a flat bottom: half the slot at least (common practice).
    if (!own || own.fileMm < width / 2)
      return { line: tool(say`nut file ${mm(width)}: none of yours serves`), buy: say`nut file ${mm(width)}` };
    return {
      line: tool(
        own.rollMm < 0.005
          ? say`nut file: use your ${mm(own.fileMm)}`
          : say`nut file: use your ${mm(own.fileMm)}, rolled to ${mm(width)}`,
        { own: true },
      ),
      buy: undefined,
    };
  });
  return {
    tools: lines.map(({ line }) => line),
    buys: lines.flatMap(({ buy }) => (buy ? [{ what: buy, quantity: 1 }] : [])),
  };
}

export function opener(workshop: Workshop, fromMm: number, toMm: number): Taken {
  const reamersMm = values(workshop.reamers);
  const found = openingTool({ fromMm, toMm, reamersMm });
  if (found.tool === "own reamer")
    return { tools: [tool(say`use your reamer, to ${mm(toMm, 1)}`, { large: true, own: true })], buys: [] };
  return {
    tools: [tool(say`${found.tool} to ${mm(toMm, 1)}; no twist bit`, { large: true })],
    buys: reamersMm.length === 0 ? [] : [{ what: say`${found.tool} to ${mm(toMm, 1)}`, quantity: 1 }],
  };
}

/** Adds the step to what has to be bought. */
export function forStep(buys: Taken["buys"], step: string): Purchase[] {
  return buys.map((buy) => ({ ...buy, steps: [step] }));
}

function values(quantities: readonly Quantity[]): number[] {
  return quantities.flatMap((quantity) => (quantity.known ? [quantity.value] : []));
}
