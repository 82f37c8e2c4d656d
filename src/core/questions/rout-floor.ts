/**
 * The wood under a rout that has to go deeper for its pickup. Rule FT2b.
 *
 * A rout deep enough is no cure if it comes out at the back: wherever the depth is cut, the body's thickness must be
 * known, and its doubt stands in the odds.
 */
import { RULES } from "../fit/index.ts";
import type { Instrument } from "../job/index.ts";
import type { Numbers } from "../ledger/index.ts";
import { mm, type Phrase, say, valueOr } from "../quantity/index.ts";
import type { Sum } from "../verdict/index.ts";
import { at, type Leaves, type Margins, ruleSum } from "./judge.ts";
import { type Check, gapNow } from "./rout-check.ts";

/** Common practice, no source: as under a nut. */
const WOOD_LEFT_MM = 3;

export interface Floor {
  /** Body and least wood, where a depth is cut. */
  readonly leaves: Leaves;
  readonly margins: Margins;
  /** Enough wood stays by the values given; also said where the body is not known, which is asked for then. */
  readonly stays: boolean;
}

/** How much deeper each rout has to go that is too shallow. */
function deeperBy(checks: readonly Check[], clearanceMm: number): { readonly check: Check; readonly cutMm: number }[] {
  return checks.flatMap((check) => {
    const cutMm = clearanceMm - gapNow(check);
    return check.way === "depth" && cutMm > 0 ? [{ check, cutMm }] : [];
  });
}

/** Wood left = thickness - (rout + cut), at least `woodLeft`; how true the rout is cut counts against it. */
export function floorUnder(checks: readonly Check[], clearanceMm: number, { body, limits }: Instrument): Floor {
  const cuts = deeperBy(checks, clearanceMm);
  if (cuts.length === 0) return { leaves: {}, margins: {}, stays: true };
  const margins = cuts.map(({ check: { name }, cutMm }) => {
    const rout = `${name}Rout`;
    const left = (x: Numbers) => at(x, "thickness") - at(x, rout) - cutMm - at(x, "routing");
    return [`${name}Wood`, (x: Numbers) => left(x) - at(x, "woodLeft")] as const;
  });
  const { thickness } = body;
  const least = valueOr(limits.woodLeft, WOOD_LEFT_MM);
  return {
    leaves: { thickness, woodLeft: limits.woodLeft },
    margins: Object.fromEntries(margins),
    stays: !thickness.known || cuts.every(({ check }) => leftMm(check, thickness.value, clearanceMm) >= least),
  };
}

/** Once the rout is as deep as the part and its clearance. */
function leftMm(check: Check, thicknessMm: number, clearanceMm: number): number {
  return thicknessMm - (valueOr(check.size, Number.NaN) + clearanceMm);
}

export function floorLines(checks: readonly Check[], clearanceMm: number, { body, limits }: Instrument): Phrase[] {
  const { thickness } = body;
  if (!thickness.known) return [];
  return deeperBy(checks, clearanceMm).map(
    ({ check, cutMm }) =>
      say`A rout ${mm(cutMm)} deeper leaves ${mm(leftMm(check, thickness.value, clearanceMm), 1)} of wood under the ${check.part}, at least ${mm(valueOr(limits.woodLeft, WOOD_LEFT_MM), 1)} wanted: measure the body at that place before you cut.`,
  );
}

export function floorSums(checks: readonly Check[], clearanceMm: number, { body, limits }: Instrument): Sum[] {
  const { thickness } = body;
  if (!thickness.known) return [];
  return deeperBy(checks, clearanceMm).map(({ check }) =>
    ruleSum({
      title: `Wood under the ${check.part}`,
      rule: RULES.routFloor,
      leaves: { thickness, size: check.size, clearance: limits.pickupClearance, woodLeft: limits.woodLeft },
      rows: [
        ["thickness", "thickness", "thickness of the body"],
        ["size", "part", `how deep the ${check.part} go${check.part === "ears" ? "" : "es"}`],
        ["clearance", "clearance", "wanted below"],
        ["woodLeft", "least", "least wood that stays"],
      ],
      result: say`${mm(leftMm(check, thickness.value, clearanceMm), 1)} left`,
    }),
  );
}

export function floorFigures(
  checks: readonly Check[],
  clearanceMm: number,
  { body }: Instrument,
): Record<string, number> {
  const { thickness } = body;
  if (!thickness.known) return {};
  return Object.fromEntries(
    deeperBy(checks, clearanceMm).map(({ check }) => [
      check.part === "ears" ? "woodUnderEars" : "woodUnderBody",
      leftMm(check, thickness.value, clearanceMm),
    ]),
  );
}
