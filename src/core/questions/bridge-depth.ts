/** "How deep may the holes be?": stop, and wood left under the tip at the deepest hole. */
import { drillGuide, type PatternHole } from "../bridge/index.ts";
import { finishAdvice } from "../fit/index.ts";
import type { Instrument } from "../job/index.ts";
import { type Asking, type Problem, sumOf, weigh } from "../ledger/index.ts";
import { type Known, mm, type Phrase, type Quantity, say, standardUncertainty } from "../quantity/index.ts";
import type { Sum, Verdict } from "../verdict/index.ts";
import { missingReading, sharperReading } from "./how-to-measure.ts";
import { chance, type InstrumentQuestion, makeVerdict, measureVerdict } from "./make-verdict.ts";
import { type Placement, placement } from "./placement.ts";
import { type BackFloor, backFloors, deepestOverEach, isOver, type UnderTip } from "./wood-beneath.ts";

const DEPTH = { id: "bridge.depth", question: "How deep may the holes be?", stake: 3 } as const;

/** Wood to leave under the tip of a drill (common practice, no source). */
const LEAVE_MM = 4;

export function drillDepthQuestions({ bridge }: Instrument): InstrumentQuestion[] {
  return bridge ? [{ id: DEPTH.id, question: DEPTH.question, answer: answerDepth }] : [];
}

/** Stop and wood left under the tip, at the hole that leaves least. */
function answerDepth(asking: Asking<Instrument>): Verdict {
  const placed = placement(asking);
  const { subject } = asking;
  const { thickness } = subject.body;
  if (!placed.known) return measureVerdict(DEPTH, placed.missing, "how deep the holes go");
  if (!thickness.known) return measureVerdict(DEPTH, [thickness], "how much wood is left under the tip of the drill");
  const unknown = placed.missingHoles.filter((quantity) => quantity.path.startsWith("parts."));
  if (unknown.length > 0) return measureVerdict(DEPTH, unknown, "how deep the holes go");
  const { floors, unchecked } = backFloors(subject);
  const { tips, missing } = tipsOf(placed, floors, placingUMm(subject, placed));
  if (missing.length > 0) return measureVerdict(DEPTH, missing, "how much wood is left under the tip of the drill");
  const least = tips.reduce<UnderTip | undefined>(
    (a, b) => (a === undefined || leftMm(b, thickness.value) < leftMm(a, thickness.value) ? b : a),
    undefined,
  );
  if (!least) return makeVerdict({ ...DEPTH, status: "go", headline: say`No blind hole is to be drilled.` });
  const problem = depthProblem(tips, thickness);
  const weighed = weigh(problem);
  const woodLeftMm = leftMm(least, thickness.value);
  const gate = subject.limits.gateProbability.known ? subject.limits.gateProbability.value : 0.95;
  const floorOfLeast = least.floor ? { behindMm: least.floor.depth.value } : {};
  return makeVerdict({
    ...DEPTH,
    ...decided(tips, least, thickness, weighed.known ? weighed.probability : 0, gate),
    detail: [
      ...deeperLine(tips, least, thickness.value),
      ...finishLines(placed.pieces.flatMap((piece) => piece.pattern)),
      ...(unchecked.length > 0
        ? [say`Not reckoned with, because not fully measured: ${unchecked.join(", ")}, from the back.`]
        : []),
    ],
    ...(weighed.known
      ? {
          margin: { value: woodLeftMm - LEAVE_MM, unit: "mm", u: weighed.u },
          probability: weighed.probability,
          shares: weighed.shares,
        }
      : {}),
    sums: [depthSum(problem, least, tips, woodLeftMm)],
    figures: {
      stopMm: guideFor(least, thickness.value).stopMm,
      woodLeftMm,
      depthMm: least.hole.depthMm,
      pilotMm: least.hole.pilotMm,
      ...floorOfLeast,
    },
  });
}

/** The stop that is said is that of the hole that leaves least; others may go deeper where the body is whole. */
function deeperLine(tips: readonly UnderTip[], least: UnderTip, thicknessMm: number): Phrase[] {
  const deepest = tips.reduce((a, b) => (b.hole.depthMm > a.hole.depthMm ? b : a), least);
  if (deepest.hole.depthMm === least.hole.depthMm) return [];
  return [
    say`That is for the holes that leave least. The deepest go to ${mm(deepest.hole.depthMm, 1)}, and ${mm(leftMm(deepest, thicknessMm), 1)} is left there: set the stop for each.`,
  ];
}

type KnownPlacement = Extract<Placement, { known: true }>;

/** Standard doubt of where a hole lands on the body: the line it is told from, and the drilling. */
function placingUMm({ workshop }: Instrument, { model }: KnownPlacement): number {
  const { drillingDoubt } = workshop;
  return Math.hypot(standardUncertainty(model.frame.best.quantity), drillingDoubt.known ? drillingDoubt.value : 0);
}

/** Every blind hole over the body, or over what was routed from the back under it. */
function tipsOf(
  placed: KnownPlacement,
  floors: readonly BackFloor[],
  uMm: number,
): { readonly tips: readonly UnderTip[]; readonly missing: readonly Quantity[] } {
  const tips: UnderTip[] = [];
  const missing = new Set<Quantity>();
  for (const piece of placed.pieces) {
    for (const { pilotMm, depthMm } of piece.pattern)
      if (depthMm !== "through") tips.push({ hole: { pilotMm, depthMm } });
    for (const hole of piece.holes) {
      const { pilotMm, depthMm } = hole;
      if (depthMm === "through") continue;
      for (const { id, name, depth } of floors.filter((floor) => isOver(hole, floor, uMm))) {
        if (depth.known) tips.push({ hole: { pilotMm, depthMm }, floor: { id, name, depth } });
        else missing.add(depth);
      }
    }
  }
  return { tips: deepestOverEach(tips), missing: [...missing] };
}

function leftMm({ hole, floor }: UnderTip, thicknessMm: number): number {
  return thicknessMm - (floor?.depth.value ?? 0) - hole.depthMm;
}

function depthProblem(tips: readonly UnderTip[], thickness: Known): Problem {
  const rows = tips.map(({ hole, floor }) => ({ depthMm: hole.depthMm, key: floor && `behind ${floor.id}` }));
  return {
    leaves: {
      t: thickness,
      ...Object.fromEntries(tips.flatMap(({ floor }) => (floor ? [[`behind ${floor.id}`, floor.depth]] : []))),
    },
    unit: "mm",
    margin: (x) =>
      Math.min(
        ...rows.map(({ depthMm, key }) => (x.t as number) - (key ? (x[key] as number) : 0) - depthMm - LEAVE_MM),
      ),
  };
}

/** A rout as deep as the body leaves nothing, but the guide wants some wood to drill in. */
const NO_WOOD_MM = 1e-6;

function guideFor({ hole, floor }: UnderTip, thicknessMm: number) {
  return drillGuide({
    diameterMm: hole.pilotMm,
    depthMm: hole.depthMm,
    depthTo: "tip",
    woodMm: Math.max(NO_WOOD_MM, thicknessMm - (floor?.depth.value ?? 0)),
    throughPlateMm: 0,
    leaveMm: LEAVE_MM,
  });
}

function decided(
  tips: readonly UnderTip[],
  least: UnderTip,
  thickness: Known,
  probability: number,
  gate: number,
): Pick<Verdict, "status" | "headline"> & Partial<Verdict> {
  const { stopMm, deepestMm } = guideFor(least, thickness.value);
  const left = leftMm(least, thickness.value);
  const { depthMm } = least.hole;
  const over = least.floor ? say`, over ${least.floor.name},` : say``;
  if (left < LEAVE_MM)
    return {
      status: "no-go",
      headline: say`At ${mm(depthMm, 1)} deep${over} only ${mm(left, 1)} is left under the tip, ${mm(LEAVE_MM, 0)} is wanted: ${deepestMm > 0 ? say`drill no deeper than ${mm(deepestMm, 1)}` : say`nothing may be drilled there`}.`,
    };
  if (probability >= gate)
    return {
      status: "go",
      headline: say`Set the stop at ${mm(stopMm, 1)}: ${mm(left, 1)} of wood is left under the tip${least.floor ? say`, over ${least.floor.name}` : say``}.`,
    };
  const rough = [thickness, ...(least.floor ? [least.floor.depth] : [])].find((quantity) => sharperReading(quantity));
  const next = rough && missingReading(rough, "how much wood is left under the tip of the drill");
  const sure = sureDepthMm(tips, depthMm, thickness, gate);
  const or = sure === undefined ? say`` : say`${next ? "or " : ""}drill no deeper than ${mm(sure, 1)}`;
  const ways = next ? say`measure ${next.what} better${sure === undefined ? say`` : say`, `}${or}` : or;
  return {
    status: next ? "measure" : "no-go",
    headline: say`At ${mm(depthMm, 1)} deep${over} ${mm(left, 1)} should be left under the tip, where ${mm(LEAVE_MM, 0)} is wanted, but that is not sure enough (${chance(probability)}): ${ways}.`,
    ...(next ? { missing: [next], next } : {}),
  };
}

const SHALLOWER_BY_MM = 0.5;

/** The greatest depth, in half millimetres, at which no hole is deeper and the wood wanted is left surely enough. */
function sureDepthMm(tips: readonly UnderTip[], fromMm: number, thickness: Known, gate: number): number | undefined {
  const start = Math.ceil(fromMm / SHALLOWER_BY_MM) - 1;
  for (let step = start; step > 0; step--) {
    const depthMm = step * SHALLOWER_BY_MM;
    const shallower = tips.map((tip) => ({
      ...tip,
      hole: { ...tip.hole, depthMm: Math.min(tip.hole.depthMm, depthMm) },
    }));
    const weighed = weigh(depthProblem(shallower, thickness));
    if (weighed.known && weighed.probability >= gate) return depthMm;
  }
  return undefined;
}

/** How wide to break the finish, once for every size of hole that shows. Rule FT42. */
function finishLines(holes: readonly PatternHole[]): Phrase[] {
  const sizes = new Map(holes.map((hole) => [`${hole.pilotMm} ${hole.threadMm}`, hole]));
  return [...sizes.values()].map(({ pilotMm, threadMm }) => {
    const { bit, relieveToMm } = finishAdvice({ drillMm: pilotMm, threadMm });
    return say`Holes of ${mm(pilotMm, 1)}: break the finish first, by hand, to ${mm(relieveToMm, 1)}${bit === "brad point" ? "; brad-point bit" : ""}.`;
  });
}

function depthSum(problem: Problem, least: UnderTip, tips: readonly UnderTip[], woodLeftMm: number): Sum {
  const behind = tips.flatMap(({ floor }) =>
    floor ? [[`behind ${floor.id}`, { symbol: "c", meaning: `depth of ${floor.name}, from the back` }] as const] : [],
  );
  return sumOf(problem, {
    title: "Wood under the tip",
    formula:
      behind.length === 0
        ? "left = thickness − depth to the tip"
        : "left = thickness − depth of the rout from the back − depth to the tip",
    symbols: { t: { symbol: "t", meaning: "body thickness" }, ...Object.fromEntries(behind) },
    constants: [
      { symbol: "d", meaning: "depth", value: least.hole.depthMm, unit: "mm", u: 0, origin: "data sheet" },
      { symbol: "Ø", meaning: "drill", value: least.hole.pilotMm, unit: "mm", u: 0, origin: "data sheet" },
    ],
    result: say`left ${mm(woodLeftMm)}`,
    source: {
      text: "Depth to the tip of the drill, which is where the stop is set from. At least 4 mm left: common practice",
      mark: "common practice",
    },
  });
}
