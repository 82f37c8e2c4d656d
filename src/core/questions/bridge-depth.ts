/** "How deep may the holes be?": stop, and wood left under the tip at the deepest hole. */
import { drillGuide, type PatternHole } from "../bridge/index.ts";
import { finishAdvice } from "../fit/index.ts";
import type { Instrument } from "../job/index.ts";
import { type Asking, type Problem, sumOf, weigh } from "../ledger/index.ts";
import { mm, type Phrase, say } from "../quantity/index.ts";
import type { Sum, Verdict } from "../verdict/index.ts";
import { type InstrumentQuestion, makeVerdict, measureVerdict } from "./make-verdict.ts";
import { placement } from "./placement.ts";

const DEPTH = { id: "bridge.depth", question: "How deep may the holes be?", stake: 3 } as const;

/** Wood to leave under the tip of a drill (common practice, no source). */
const LEAVE_MM = 4;

export function drillDepthQuestions({ bridge }: Instrument): InstrumentQuestion[] {
  return bridge ? [{ id: DEPTH.id, question: DEPTH.question, answer: answerDepth }] : [];
}

/** Stop and wood left under the tip, at the deepest hole. */
function answerDepth(asking: Asking<Instrument>): Verdict {
  const placed = placement(asking);
  const { body } = asking.subject;
  if (!placed.known) return measureVerdict(DEPTH, placed.missing, "how deep the holes go");
  if (!body.thickness.known)
    return measureVerdict(DEPTH, [body.thickness], "how much wood is left under the tip of the drill");
  const unknown = placed.missingHoles.filter((quantity) => quantity.path.startsWith("parts."));
  if (unknown.length > 0) return measureVerdict(DEPTH, unknown, "how deep the holes go");
  const holes = placed.pieces.flatMap((piece) => piece.pattern).filter((hole) => hole.depthMm !== "through");
  const deepest = holes.reduce<PatternHole | undefined>(
    (a, b) => (a === undefined || (b.depthMm as number) > (a.depthMm as number) ? b : a),
    undefined,
  );
  if (!deepest) return makeVerdict({ ...DEPTH, status: "go", headline: say`No blind hole is to be drilled.` });
  const thickness = body.thickness;
  const guide = (wood: number) =>
    drillGuide({
      diameterMm: deepest.pilotMm,
      depthMm: deepest.depthMm as number,
      depthTo: "tip",
      woodMm: wood,
      throughPlateMm: 0,
      leaveMm: LEAVE_MM,
    });
  const now = guide(thickness.value);
  const problem = {
    leaves: { t: thickness },
    unit: "mm",
    margin: (x: Readonly<Record<string, number>>) => guide(x.t as number).marginMm,
  };
  const weighed = weigh(problem);
  const go = weighed.known && now.marginMm >= 0 && weighed.probability >= 0.95;
  return makeVerdict({
    ...DEPTH,
    status: go ? "go" : "no-go",
    headline: go
      ? say`Set the stop at ${mm(now.stopMm, 1)}: ${mm(now.woodLeftMm, 1)} of wood is left under the tip.`
      : say`At ${mm(deepest.depthMm as number, 1)} deep only ${mm(now.woodLeftMm, 1)} is left under the tip, ${mm(LEAVE_MM, 0)} is wanted: drill no deeper than ${mm(now.deepestMm, 1)}.`,
    detail: finishLines(placed.pieces.flatMap((piece) => piece.pattern)),
    ...(weighed.known
      ? {
          margin: { value: now.marginMm, unit: "mm", u: weighed.u },
          probability: weighed.probability,
          shares: weighed.shares,
        }
      : {}),
    sums: [depthSum(problem, deepest, now.woodLeftMm)],
    figures: {
      stopMm: now.stopMm,
      woodLeftMm: now.woodLeftMm,
      depthMm: deepest.depthMm as number,
      pilotMm: deepest.pilotMm,
    },
  });
}

/** How wide to break the finish, once for every size of hole that shows. Rule FT42. */
function finishLines(holes: readonly PatternHole[]): Phrase[] {
  const sizes = new Map(holes.map((hole) => [`${hole.pilotMm} ${hole.threadMm}`, hole]));
  return [...sizes.values()].map(({ pilotMm, threadMm }) => {
    const { bit, relieveToMm } = finishAdvice({ drillMm: pilotMm, threadMm });
    return say`Holes of ${mm(pilotMm, 1)}: break the finish first, by hand, to ${mm(relieveToMm, 1)}${bit === "brad point" ? "; brad-point bit" : ""}.`;
  });
}

function depthSum(problem: Problem, deepest: PatternHole, woodLeftMm: number): Sum {
  return sumOf(problem, {
    title: "Wood under the tip",
    formula: "left = thickness − depth to the tip",
    symbols: { t: { symbol: "t", meaning: "body thickness" } },
    constants: [
      { symbol: "d", meaning: "depth", value: deepest.depthMm as number, unit: "mm", u: 0, origin: "data sheet" },
      { symbol: "Ø", meaning: "drill", value: deepest.pilotMm, unit: "mm", u: 0, origin: "data sheet" },
    ],
    result: say`left ${mm(woodLeftMm)}`,
    source: {
      text: "Depth to the tip of the drill, which is where the stop is set from. At least 4 mm left: common practice",
      mark: "common practice",
    },
  });
}
