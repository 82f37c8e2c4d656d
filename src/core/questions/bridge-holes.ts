/** "Which holes collide?": screws (or posts) against the old holes, and what has to be plugged first. */
import {
  holesAtPose,
  type Judgement,
  judgeHoles,
  type PlaceRange,
  plugFreeRanges,
  widestWall,
} from "../bridge/index.ts";
import { GLUE_CURE_MINUTES, type Instrument } from "../job/index.ts";
import { type Asking, nextReading, weigh } from "../ledger/index.ts";
import { mm, type Phrase, say, unknown, valueOr } from "../quantity/index.ts";
import type { PlugPlace, Sum, Verdict, Work } from "../verdict/index.ts";
import { drillDepthQuestions } from "./bridge-depth.ts";
import { xOf } from "./bridge-model.ts";
import { readingOptions } from "./bridge-place.ts";
import { stringHoleQuestions } from "./bridge-string-holes.ts";
import { type PairWall, pairWalls, wetPlugs } from "./hole-walls.ts";
import { chance, type InstrumentQuestion, listed, makeVerdict, measureVerdict } from "./make-verdict.ts";
import { placeProblem } from "./place-chance.ts";
import { chanceCase } from "./place-walls.ts";
import { placeNotKept, placePhrase } from "./place-words.ts";
import { type PlacedPiece, type Placement, placement } from "./placement.ts";

const HOLES = { id: "bridge.holes", question: "Do the new holes clear the old ones?", stake: 3 } as const;

export function bridgeHoleQuestions(instrument: Instrument): InstrumentQuestion[] {
  if (!instrument.bridge) return [];
  return [
    { id: HOLES.id, question: HOLES.question, answer: answerHoles },
    ...stringHoleQuestions(instrument),
    ...drillDepthQuestions(instrument),
  ];
}

type KnownPlacement = Extract<Placement, { known: true }>;

function answerHoles(asking: Asking<Instrument>): Verdict {
  const placed = placement(asking);
  if (!placed.known) return measureVerdict(HOLES, placed.missing, "where the new holes fall");
  if (placed.missingHoles.length > 0)
    return measureVerdict(HOLES, placed.missingHoles, "whether old and new holes collide");
  if (placed.pieces.every((piece) => piece.pattern.length === 0))
    return measureVerdict(
      HOLES,
      [unknown(`parts.${placed.model.bridge.partId}.screws`, "length")],
      "whether old and new holes collide",
    );
  const judged = placed.pieces.flatMap((piece) =>
    piece.judgement && piece.pose ? [{ piece, judgement: piece.judgement }] : [],
  );
  if (judged.length === 0) return blocked(placed);
  const plugs = uniquePlugs(judged.map(({ judgement }) => judgement));
  const conflicts = judged.flatMap(({ judgement }) => judgement.conflicts);
  const runIns = judged.flatMap(({ judgement }) => judgement.plugs.flatMap((plug) => plug.runIns));
  const wallsNow = pairWalls(judged);
  const least = wallsNow[0];
  const limit = placed.scene.limits.wallMm;
  const weighed = weighLeast(
    asking.subject,
    placed,
    judged.map(({ piece }) => piece),
  );
  const gate = valueOr(asking.subject.limits.gateProbability, 0.95);
  const doubtful = weighed !== undefined && weighed.probability < gate;
  const wet = wetPlugs(
    asking.subject,
    judged.map(({ judgement }) => judgement),
  );
  const status =
    conflicts.length > 0
      ? "no-go"
      : wet.length > 0
        ? "measure"
        : plugs.length > 0
          ? "rework"
          : doubtful
            ? "measure"
            : "go";
  const next = weighed && status === "measure" && wet.length === 0 ? sharper(weighed, gate) : undefined;
  return makeVerdict({
    ...HOLES,
    status,
    headline: say`${placeNotKept(placed)}${notThere(placed)}${headlineOf({ status, wet: conflicts.length > 0 ? 0 : wet.length, plugs: plugs.length, least, limit, placed, piece: judged[0]?.piece, chance: weighed?.probability })}`,
    detail: [
      ...wallLines(wallsNow, limit),
      ...runInLines(runIns),
      ...wishLines(placed),
      ...freeLines(placed, judged[0]?.piece),
    ],
    ...(weighed
      ? { margin: { value: (least?.wallMm ?? 0) - limit, unit: "mm", u: weighed.u }, shares: weighed.shares }
      : {}),
    ...((status === "go" || status === "measure") && weighed ? { probability: weighed.probability } : {}),
    ...(next ? { next } : {}),
    work: [...plugWork(plugs), ...judged.map(({ piece }) => drillWork(piece, plugs.length > 0))],
    sums: least ? [wallSum(least, judged[0]?.piece, placed)] : [],
    figures: holeFigures(wallsNow, plugs.length, runIns, placed, judged[0]?.piece),
  });
}

/** No place of the window will do: what stands in the way at its middle. */
function blocked(placed: KnownPlacement): Verdict {
  const piece = placed.pieces[0];
  if (!piece || piece.window.widthMm < 0 || placed.model.bridge.kind === "single units")
    return makeVerdict({ ...HOLES, status: "no-go", headline: say`There is no place to judge: see bridge.place.` });
  const pose = {
    placeMm: (piece.window.minMm + piece.window.maxMm) / 2,
    sideMm: 0,
    yawDegrees: placed.orderedYawDegrees,
  };
  const { conflicts } = judgeHoles({ ...placed.scene, newHoles: holesAtPose(piece.pattern, pose) });
  const worst = [...conflicts].sort((a, b) => a.wallMm - b.wallMm)[0];
  const names = [...new Set(conflicts.map((conflict) => conflict.bId))];
  return makeVerdict({
    ...HOLES,
    status: "no-go",
    headline: worst
      ? say`In the middle of the saddles' window the new holes would stand too near ${listed(names)}: wall ${mm(worst.wallMm)}, wanted ${mm(worst.needMm, 1)}, and no other place of the window is clear.`
      : say`No place of the saddles' window keeps every wall.`,
    detail: [...new Set(conflicts.map((conflict) => conflict.rule))].map((rule) => say`${rule}.`),
    figures: worst ? { leastWallMm: worst.wallMm, conflicts: conflicts.length } : {},
  });
}

/** An old hole with the plug that the walls were judged with. */
type JudgedPlug = PlugPlace & { readonly plug: number };

function uniquePlugs(judgements: readonly Judgement[]): JudgedPlug[] {
  const byId = new Map<string, JudgedPlug>();
  for (const judgement of judgements) {
    for (const plug of judgement.plugs)
      byId.set(plug.oldId, {
        id: plug.oldId,
        u: plug.uMm,
        y: plug.yMm,
        diameter: plug.holeDiameterMm,
        depth: plug.depthMm,
        plug: plug.plugDiameterMm,
      });
  }
  return [...byId.values()];
}

function headlineOf(given: {
  readonly status: Verdict["status"];
  /** Plugs under the new holes whose glue has not had its time, where nothing else is in the way. */
  readonly wet: number;
  readonly plugs: number;
  readonly least: PairWall | undefined;
  readonly limit: number;
  readonly placed: KnownPlacement;
  readonly piece: PlacedPiece | undefined;
  readonly chance: number | undefined;
}): Phrase {
  const { status, plugs, limit, placed, piece, chance: odds } = given;
  const wall = given.least?.wallMm;
  if (given.wet > 0)
    return say`The glue of ${given.wet} plugs under the new holes is still wet: drill no sooner than ${GLUE_CURE_MINUTES / 60} hours after gluing.`;
  if (status === "no-go") return say`The new holes collide with something that cannot be plugged.`;
  if (wall === undefined) return say`There are no old holes near the new ones.`;
  const at = piece?.pose
    ? say` with the front edge ${placed.model.frame.fromNut ? placePhrase(placed.model.frame, piece.pose.placeMm) : say`${mm(xOf(placed.model.frame, piece.pose.placeMm), 1)} from the nut`}`
    : say``;
  if (status === "rework")
    return say`${plugs} old holes stand too near the new ones (wall ${mm(wall)}, wanted ${mm(limit, 1)})${at}: plug them first with grain-matched plugs, and drill after curing.`;
  const { least } = given;
  if (status === "measure")
    return say`Too close to call: the least wall${at} is ${mm(wall)}, to ${least?.otherId ?? "an old hole"}, wanted ${mm(limit, 1)}. That every wall holds: ${chance(odds ?? 0)}.`;
  if (least && !given.placed.scene.oldHoles.some((old) => old.id === least.otherId))
    return say`The new holes keep clear${at}: least wall ${mm(wall)}, to ${least.otherId}, wanted ${mm(limit, 1)}.`;
  return say`All new holes clear the old ones${at}: least wall ${mm(wall)}, wanted ${mm(limit, 1)}.`;
}

/** Walls wider than the limit by more than this are of no interest. */
const WORTH_TELLING_MM = 10;

/** Somebody who asked about a place of their own must not read "go" and drill there. */
function notThere({ wish }: KnownPlacement): Phrase {
  if (!wish || wish.kept) return say``;
  const least = pairWalls([{ judgement: wish.judgement }])[0];
  if (!wish.insideWindow) return say`Not at the place first thought of: it lies outside the saddles' reach. `;
  return least
    ? say`Not at the place first thought of: the least wall there is ${mm(least.wallMm)}. `
    : say`Not at the place first thought of. `;
}

function wallLines(walls: readonly PairWall[], limit: number): Phrase[] {
  const thin = walls.filter((wall) => wall.wallMm < limit);
  const shown = thin.length > 0 ? thin : walls.filter((wall) => wall.wallMm < limit + WORTH_TELLING_MM).slice(0, 5);
  if (shown.length === 0) return [];
  const byPlace = [...shown].sort((a, b) => (a.newId < b.newId ? -1 : 1));
  return [say`Walls to what is nearest, by new hole: ${join(byPlace.map((wall) => mm(wall.wallMm)))}.`];
}

function join(figures: readonly ReturnType<typeof mm>[]): Phrase {
  return figures.flatMap((item, index) => (index === 0 ? [item] : [", ", item]));
}

function runInLines(runIns: readonly { readonly runInMm: number }[]): Phrase[] {
  const inside = runIns.map((run) => run.runInMm).filter((run) => run > 0);
  if (inside.length === 0) return [];
  return [
    say`The new screws run into the plugs by ${mm(Math.min(...inside))} to ${mm(Math.max(...inside))}: let the glue cure, and guide the bit so that the seam does not pull it aside.`,
  ];
}

function wishLines(placed: KnownPlacement): Phrase[] {
  const { wish } = placed;
  if (!wish || wish.kept) return [];
  const walls = pairWalls([{ judgement: wish.judgement }]).slice(0, 3);
  return [
    say`At the place first thought of (${mm(xOf(placed.model.frame, wish.placeMm), 1)} from the nut) the walls would be ${join(walls.map((wall) => mm(wall.wallMm)))}.`,
  ];
}

function freeLines(placed: KnownPlacement, piece: PlacedPiece | undefined): Phrase[] {
  const ranges = freeRanges(placed, piece);
  const shown = ranges.map(
    (range) => say`${mm(xOf(placed.model.frame, range.fromMm))} to ${mm(xOf(placed.model.frame, range.toMm))}`,
  );
  const widest = widestOf(placed, piece, ranges);
  if (!widest) return [];
  if (shown.length === 0)
    return piece?.candidate && piece.candidate.plugs > 0
      ? [say`No place of the saddles' window clears the old holes: ${mm(widest.wallMm)} at best.`]
      : [];
  return [
    say`Places that need no plug, from the nut: ${shown.flatMap((range, index) => (index === 0 ? range : [" and ", ...range]))}; the least wall is widest, ${mm(widest.wallMm)}, at ${mm(xOf(placed.model.frame, widest.placeMm))}.`,
  ];
}

/** Where the least wall to an open old hole is widest: among the places that need no plug, else in the whole window. */
function widestOf(
  placed: KnownPlacement,
  piece: PlacedPiece | undefined,
  free: readonly PlaceRange[],
): ReturnType<typeof widestWall> | undefined {
  if (!piece?.pose || placed.scene.oldHoles.length === 0 || piece.window.widthMm < 0) return undefined;
  const { pattern, pose, window } = piece;
  const among = free.length > 0 ? free : [{ fromMm: window.minMm, toMm: window.maxMm }];
  const found = among.map((range) =>
    widestWall({ pattern, oldHoles: placed.scene.oldHoles, sideMm: pose.sideMm, yawDegrees: pose.yawDegrees, range }),
  );
  const best = found.reduce((a, b) => (b.wallMm > a.wallMm ? b : a));
  return Number.isFinite(best.wallMm) ? best : undefined;
}

function freeRanges(placed: KnownPlacement, piece: PlacedPiece | undefined) {
  if (!piece?.pose || placed.scene.oldHoles.length === 0 || piece.window.widthMm < 0) return [];
  return plugFreeRanges({
    pattern: piece.pattern,
    oldHoles: placed.scene.oldHoles,
    sideMm: piece.pose.sideMm,
    yawDegrees: piece.pose.yawDegrees,
    limits: placed.scene.limits,
    window: piece.window,
  });
}

/** Doubt of the walls that must hold, with every piece where it is meant to be: the holes' own doubt, old and new. */
function weighLeast(instrument: Instrument, placed: KnownPlacement, pieces: readonly PlacedPiece[]) {
  const cases = pieces.map((piece) => ({ ...chanceCase(instrument, placed, piece), saddles: [], drillingUMm: 0 }));
  if (cases.every(({ walls, obstacles }) => walls.length + obstacles.length === 0)) return undefined;
  const problem = placeProblem(cases);
  const weighed = weigh(problem);
  return weighed.known ? { ...weighed, problem } : undefined;
}

/** The reading that would settle a close wall soonest; none if no tool of the table is sharper. */
function sharper(weighed: NonNullable<ReturnType<typeof weighLeast>>, gate: number) {
  return nextReading(weighed.problem, readingOptions(weighed.problem, weighed), { probability: gate }).reading;
}

/** One work a size: a hole bored for a larger plug than was judged would eat the walls. */
function plugWork(plugs: readonly JudgedPlug[]): Work[] {
  const sizes = [...new Set(plugs.map(({ plug }) => plug))].sort((a, b) => a - b);
  return sizes.map((size) => ({
    act: "plug",
    holes: plugs
      .filter(({ plug }) => plug === size)
      .map(({ id, u, y, diameter, depth }) => ({ id, u, y, diameter, depth })),
    diameter: size,
    cause: "they stand too near the new holes",
  }));
}

function drillWork(piece: PlacedPiece, intoPlugs: boolean): Work {
  const group = piece.holes[0]?.id.split("#")[0] ?? "bridge-screws";
  return {
    act: "drill",
    group,
    intoPlugs,
    holes: piece.holes.map((hole) => ({
      id: hole.id,
      u: hole.uMm,
      y: hole.yMm,
      diameter: hole.pilotMm,
      thread: hole.threadMm,
      depth: hole.depthMm === "through" ? 0 : hole.depthMm,
    })),
  };
}

function wallSum(least: PairWall, piece: PlacedPiece | undefined, placed: KnownPlacement): Sum {
  const hole = piece?.holes.find((item) => item.id === least.newId);
  const old = placed.scene.oldHoles.find((item) => item.id === least.otherId);
  const row = (symbol: string, meaning: string, value: number) => ({
    symbol,
    meaning,
    value,
    unit: "mm",
    u: 0,
    origin: "rule" as const,
  });
  return {
    title: `Wall between ${least.newId} and ${least.otherId}`,
    formula: "wall = √(Δu² + Δy²) − Ø new/2 − Ø old/2, new Ø the larger of pilot and thread",
    rows:
      hole && old
        ? [
            row("Δu", "apart along", hole.uMm - old.uMm),
            row("Δy", "apart across", hole.yMm - old.yMm),
            row("Ø new", "thread or pilot", Math.max(hole.pilotMm, hole.threadMm)),
            row("Ø old", "hole as it is", old.diameterMm),
          ]
        : [],
    result: say`wall ${mm(least.wallMm)}`,
    source: {
      text: "Derived. Least wall 1.5 mm, plugs and their walls: common practice, no published standard was found",
      mark: "derived",
    },
  };
}

function holeFigures(
  walls: readonly PairWall[],
  plugs: number,
  runIns: readonly { readonly newId: string; readonly runInMm: number }[],
  placed: KnownPlacement,
  piece: PlacedPiece | undefined,
): Record<string, number> {
  const out: Record<string, number> = { plugs, ...(walls[0] === undefined ? {} : { leastWallMm: walls[0].wallMm }) };
  for (const wall of walls) out[`wall ${wall.newId}`] = wall.wallMm;
  for (const run of runIns) out[`runIn ${run.newId}`] = run.runInMm;
  const free = freeRanges(placed, piece);
  const widest = widestOf(placed, piece, free);
  if (widest)
    Object.assign(out, { widestWallMm: widest.wallMm, widestWallXMm: xOf(placed.model.frame, widest.placeMm) });
  for (const [index, range] of free.entries()) {
    out[`free${index + 1}FromXMm`] = xOf(placed.model.frame, range.fromMm);
    out[`free${index + 1}ToXMm`] = xOf(placed.model.frame, range.toMm);
  }
  if (placed.wish)
    for (const wall of pairWalls([{ judgement: placed.wish.judgement }])) out[`wishWall ${wall.newId}`] = wall.wallMm;
  const plugWalls =
    piece?.judgement?.plugs.flatMap((plug, index, all) =>
      all
        .slice(index + 1)
        .map(
          (other) =>
            Math.hypot(plug.uMm - other.uMm, plug.yMm - other.yMm) - (plug.plugDiameterMm + other.plugDiameterMm) / 2,
        ),
    ) ?? [];
  if (plugWalls.length > 0) out.plugToPlugMm = Math.min(...plugWalls);
  const kept = new Set(piece?.judgement?.plugs.map((plug) => plug.oldId));
  const toOpen = piece?.judgement?.plugs.flatMap((plug) =>
    placed.scene.oldHoles
      .filter((old) => !kept.has(old.id))
      .map((old) => Math.hypot(plug.uMm - old.uMm, plug.yMm - old.yMm) - (plug.plugDiameterMm + old.diameterMm) / 2),
  );
  if (toOpen && toOpen.length > 0) out.plugToOpenHoleMm = Math.min(...toOpen);
  return out;
}
