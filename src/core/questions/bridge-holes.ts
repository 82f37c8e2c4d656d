/** "Which holes collide?": screws (or posts) against the old holes; string holes through the body; depth under the tip. */
import { drillGuide, holesAtPose, type Judgement, judgeHoles, type NewHole, plugFreeRanges, plugForMm } from "../bridge/index.ts";
import type { Instrument } from "../job/index.ts";
import { type Asking, sumOf, weigh } from "../ledger/index.ts";
import { mm, type Phrase, say } from "../quantity/index.ts";
import type { PlugPlace, Remedy, Sum, Verdict, Work } from "../verdict/index.ts";
import { patternOf, xOf } from "./bridge-model.ts";
import { type InstrumentQuestion, listed, makeVerdict, measureVerdict } from "./make-verdict.ts";
import { openWalls, type PlacedPiece, type Placement, placement } from "./placement.ts";

const HOLES = { id: "bridge.holes", question: "Do the new holes clear the old ones?", stake: 3 } as const;
const STRINGS = { id: "bridge.string-holes", question: "Can the strings go through the body?", stake: 3 } as const;
const DEPTH = { id: "bridge.depth", question: "How deep may the holes be?", stake: 3 } as const;

/** Wood to leave under the tip of a drill (common practice, no source). */
const LEAVE_MM = 4;

export function bridgeHoleQuestions(instrument: Instrument): InstrumentQuestion[] {
  const { bridge } = instrument;
  if (!bridge) return [];
  const stringHoles = bridge.pieces.some((piece) => piece.stringHoles.length > 0);
  return [
    { id: HOLES.id, question: HOLES.question, answer: answerHoles },
    ...(stringHoles && bridge.anchor !== "top" ? [{ id: STRINGS.id, question: STRINGS.question, answer: answerStringHoles }] : []),
    { id: DEPTH.id, question: DEPTH.question, answer: answerDepth },
  ];
}

type KnownPlacement = Extract<Placement, { known: true }>;

function answerHoles(asking: Asking<Instrument>): Verdict {
  const placed = placement(asking);
  if (!placed.known) return measureVerdict(HOLES, placed.missing, "where the new holes fall");
  if (placed.missingHoles.length > 0) return measureVerdict(HOLES, placed.missingHoles, "whether old and new holes collide");
  const judged = placed.pieces.flatMap((piece) => (piece.judgement && piece.pose ? [{ piece, judgement: piece.judgement }] : []));
  if (judged.length === 0) return makeVerdict({ ...HOLES, status: "no-go", headline: say`There is no place to judge: see bridge.place.` });
  const plugs = uniquePlugs(judged.map(({ judgement }) => judgement));
  const conflicts = judged.flatMap(({ judgement }) => judgement.conflicts);
  const runIns = judged.flatMap(({ judgement }) => judgement.plugs.flatMap((plug) => plug.runIns));
  const wallsNow = pairWalls(judged);
  const least = wallsNow[0];
  const limit = placed.scene.limits.wallMm;
  const weighed = weighLeast(asking.subject, placed, judged[0]?.piece);
  const status = conflicts.length > 0 ? "no-go" : plugs.length > 0 ? "rework" : "go";
  return makeVerdict({
    ...HOLES,
    status,
    headline: headlineOf(status, plugs.length, least?.wallMm, limit, placed, judged[0]?.piece),
    detail: [...wallLines(wallsNow, limit), ...runInLines(runIns), ...wishLines(placed), ...freeLines(placed, judged[0]?.piece)],
    ...(weighed ? { margin: { value: (least?.wallMm ?? 0) - limit, unit: "mm", u: weighed.u }, shares: weighed.shares } : {}),
    ...(status === "go" && weighed ? { probability: weighed.probability } : {}),
    work: [...plugWork(plugs, asking.subject), ...judged.map(({ piece }) => drillWork(piece, plugs.length > 0))],
    sums: least ? [wallSum(least, judged[0]?.piece, placed)] : [],
    figures: holeFigures(wallsNow, plugs.length, runIns, placed, judged[0]?.piece),
  });
}

interface PairWall {
  readonly newId: string;
  readonly otherId: string;
  readonly wallMm: number;
}

/** Each new hole with the old hole nearest to it, thinnest first. */
function pairWalls(judged: readonly { readonly judgement: Judgement }[]): PairWall[] {
  const nearest = new Map<string, PairWall>();
  for (const { judgement } of judged) {
    for (const wall of judgement.walls) {
      const before = nearest.get(wall.newId);
      if (!before || wall.wallMm < before.wallMm) nearest.set(wall.newId, wall);
    }
  }
  return [...nearest.values()].sort((a, b) => a.wallMm - b.wallMm);
}

function uniquePlugs(judgements: readonly Judgement[]): PlugPlace[] {
  const byId = new Map<string, PlugPlace & { plug: number }>();
  for (const judgement of judgements) {
    for (const plug of judgement.plugs) byId.set(plug.oldId, { id: plug.oldId, u: plug.uMm, y: plug.yMm, diameter: plug.holeDiameterMm, depth: plug.depthMm, plug: plug.plugDiameterMm });
  }
  return [...byId.values()];
}

function headlineOf(status: Verdict["status"], plugs: number, wall: number | undefined, limit: number, placed: KnownPlacement, piece: PlacedPiece | undefined): Phrase {
  if (status === "no-go") return say`The new holes collide with something that cannot be plugged.`;
  if (wall === undefined) return say`There are no old holes near the new ones.`;
  const at = piece?.pose ? say` with the front edge ${mm(xOf(placed.model.frame, piece.pose.placeMm), 1)} from the nut` : say``;
  if (status === "rework") return say`${plugs} old holes stand too near the new ones (wall ${mm(wall)}, wanted ${mm(limit, 1)})${at}: plug them first with grain-matched plugs, and drill after curing.`;
  return say`All new holes clear the old ones${at}: least wall ${mm(wall)}, wanted ${mm(limit, 1)}.`;
}

function wallLines(walls: readonly PairWall[], limit: number): Phrase[] {
  const thin = walls.filter((wall) => wall.wallMm < limit);
  const shown = thin.length > 0 ? thin : walls.slice(0, 5);
  if (shown.length === 0) return [];
  const byPlace = [...shown].sort((a, b) => (a.newId < b.newId ? -1 : 1));
  return [say`Walls to the nearest old hole, by new hole: ${join(byPlace.map((wall) => mm(wall.wallMm)))}.`];
}

function join(figures: readonly ReturnType<typeof mm>[]): Phrase {
  return figures.flatMap((item, index) => (index === 0 ? [item] : [", ", item]));
}

function runInLines(runIns: readonly { readonly runInMm: number }[]): Phrase[] {
  const inside = runIns.map((run) => run.runInMm).filter((run) => run > 0);
  if (inside.length === 0) return [];
  return [say`The new screws run into the plugs by ${mm(Math.min(...inside))} to ${mm(Math.max(...inside))}: let the glue cure, and guide the bit so that the seam does not pull it aside.`];
}

function wishLines(placed: KnownPlacement): Phrase[] {
  const { wish } = placed;
  if (!wish || wish.kept) return [];
  const walls = pairWalls([{ judgement: wish.judgement }]).slice(0, 3);
  return [say`At the place first thought of (${mm(xOf(placed.model.frame, wish.placeMm), 1)} from the nut) the walls would be ${join(walls.map((wall) => mm(wall.wallMm)))}.`];
}

function freeLines(placed: KnownPlacement, piece: PlacedPiece | undefined): Phrase[] {
  const ranges = freeRanges(placed, piece);
  const shown = ranges.map((range) => say`${mm(xOf(placed.model.frame, range.fromMm))} to ${mm(xOf(placed.model.frame, range.toMm))}`);
  if (shown.length === 0) return piece?.candidate && piece.candidate.plugs > 0 ? [say`No place of the saddles' window clears the old holes.`] : [];
  return [say`Places that need no plug, from the nut: ${shown.flatMap((range, index) => (index === 0 ? range : [" and ", ...range]))}.`];
}

function freeRanges(placed: KnownPlacement, piece: PlacedPiece | undefined) {
  if (!piece?.pose || placed.scene.oldHoles.length === 0 || piece.window.widthMm < 0) return [];
  return plugFreeRanges({ pattern: piece.pattern, oldHoles: placed.scene.oldHoles, sideMm: piece.pose.sideMm, yawDegrees: piece.pose.yawDegrees, limits: placed.scene.limits, window: piece.window });
}

/** Doubt of the walls that must hold, with the plate where it is meant to be: old holes' own doubt. */
function weighLeast(instrument: Instrument, placed: KnownPlacement, piece: PlacedPiece | undefined) {
  if (!piece?.pose) return undefined;
  const walls = openWalls(instrument, piece.pattern, piece.pose, placed.scene);
  const first = walls[0];
  if (!first) return undefined;
  const holes = new Map(piece.holes.map((hole) => [hole.id, hole]));
  const leaves = Object.fromEntries(walls.flatMap(({ old }, index) => [[`u${index}`, old.at.u], [`y${index}`, old.at.y], [`d${index}`, old.diameter]]));
  const limit = placed.scene.limits.wallMm;
  const fixed = walls.map(({ hole }) => holes.get(hole.id) as NewHole);
  const weighed = weigh({
    leaves,
    unit: "mm",
    margin: (x) => {
      let least = Number.POSITIVE_INFINITY;
      fixed.forEach((hole, index) => {
        const apart = Math.hypot(hole.uMm - (x[`u${index}`] as number), hole.yMm - (x[`y${index}`] as number));
        least = Math.min(least, apart - Math.max(hole.pilotMm, hole.threadMm) / 2 - (x[`d${index}`] as number) / 2 - limit);
      });
      return least;
    },
  });
  return weighed.known ? weighed : undefined;
}

function plugWork(plugs: readonly PlugPlace[], instrument: Instrument): Work[] {
  if (plugs.length === 0) return [];
  const least = instrument.limits.plugDiameter.known ? instrument.limits.plugDiameter.value : 6;
  const diameter = Math.max(...plugs.map((plug) => plugForMm(plug.diameter, { wallMm: 0, plugDiameterMm: least }) ?? least));
  return [{ act: "plug", holes: plugs.map(({ id, u, y, diameter: hole, depth }) => ({ id, u, y, diameter: hole, depth })), diameter, cause: "they stand too near the new holes" }];
}

function drillWork(piece: PlacedPiece, intoPlugs: boolean): Work {
  const group = piece.holes[0]?.id.split("#")[0] ?? "bridge-screws";
  return {
    act: "drill",
    group,
    intoPlugs,
    holes: piece.holes.map((hole) => ({ id: hole.id, u: hole.uMm, y: hole.yMm, diameter: hole.pilotMm, thread: hole.threadMm, depth: hole.depthMm === "through" ? 0 : hole.depthMm })),
  };
}

function wallSum(least: PairWall, piece: PlacedPiece | undefined, placed: KnownPlacement): Sum {
  const hole = piece?.holes.find((item) => item.id === least.newId);
  const old = placed.scene.oldHoles.find((item) => item.id === least.otherId);
  const row = (symbol: string, meaning: string, value: number) => ({ symbol, meaning, value, unit: "mm", u: 0, origin: "rule" as const });
  return {
    title: `Wall between ${least.newId} and ${least.otherId}`,
    formula: "wall = √(Δu² + Δy²) − Ø new/2 − Ø old/2, new Ø the larger of pilot and thread",
    rows:
      hole && old
        ? [row("Δu", "apart along", hole.uMm - old.uMm), row("Δy", "apart across", hole.yMm - old.yMm), row("Ø new", "thread or pilot", Math.max(hole.pilotMm, hole.threadMm)), row("Ø old", "hole as it is", old.diameterMm)]
        : [],
    result: say`wall ${mm(least.wallMm)}`,
    source: { text: "Derived. Least wall 1.5 mm, plugs and their walls: common practice, no published standard was found", mark: "derived" },
  };
}

function holeFigures(walls: readonly PairWall[], plugs: number, runIns: readonly { readonly newId: string; readonly runInMm: number }[], placed: KnownPlacement, piece: PlacedPiece | undefined): Record<string, number> {
  const out: Record<string, number> = { plugs, leastWallMm: walls[0]?.wallMm ?? Number.NaN };
  for (const wall of walls) out[`wall ${wall.newId}`] = wall.wallMm;
  for (const run of runIns) out[`runIn ${run.newId}`] = run.runInMm;
  freeRanges(placed, piece).forEach((range, index) => Object.assign(out, { [`free${index + 1}FromXMm`]: xOf(placed.model.frame, range.fromMm), [`free${index + 1}ToXMm`]: xOf(placed.model.frame, range.toMm) }));
  if (placed.wish) for (const wall of pairWalls([{ judgement: placed.wish.judgement }])) out[`wishWall ${wall.newId}`] = wall.wallMm;
  const plugWalls = piece?.judgement?.plugs.flatMap((plug, index, all) => all.slice(index + 1).map((other) => Math.hypot(plug.uMm - other.uMm, plug.yMm - other.yMm) - (plug.plugDiameterMm + other.plugDiameterMm) / 2)) ?? [];
  if (plugWalls.length > 0) out.plugToPlugMm = Math.min(...plugWalls);
  const kept = new Set(piece?.judgement?.plugs.map((plug) => plug.oldId));
  const toOpen = piece?.judgement?.plugs.flatMap((plug) =>
    placed.scene.oldHoles.filter((old) => !kept.has(old.id)).map((old) => Math.hypot(plug.uMm - old.uMm, plug.yMm - old.yMm) - (plug.plugDiameterMm + old.diameterMm) / 2),
  );
  if (toOpen && toOpen.length > 0) out.plugToOpenHoleMm = Math.min(...toOpen);
  return out;
}

/** String holes at the place chosen for the screws: judged together with the screws and the plugs they ask for. */
function answerStringHoles(asking: Asking<Instrument>): Verdict {
  const placed = placement(asking);
  if (!placed.known) return measureVerdict(STRINGS, placed.missing, "where the string holes would fall");
  const piece = placed.pieces[0];
  const bridge = placed.model.bridge;
  if (!piece?.pose) return makeVerdict({ ...STRINGS, status: "no-go", headline: say`There is no place to judge: see bridge.place.` });
  const pattern = patternOf(piece.piece, bridge.kind, true);
  if (pattern.missing.length > 0) return measureVerdict(STRINGS, pattern.missing, "where the string holes would fall");
  const judged = judgeHoles({ ...placed.scene, newHoles: holesAtPose(pattern.holes, piece.pose) });
  const own = judged.conflicts.filter((conflict) => /strings#/.test(conflict.aId) || /strings#/.test(conflict.bId));
  const overlaps = judged.walls.filter((wall) => /strings#/.test(wall.newId)).sort((a, b) => a.wallMm - b.wallMm);
  const worst = overlaps[0];
  const toPlug = own.filter((conflict) => conflict.rule === "new hole too near a plug").sort((a, b) => a.wallMm - b.wallMm)[0];
  const cut = own.map((conflict) => conflict.plugCutMm ?? 0).reduce((a, b) => Math.max(a, b), 0);
  if (own.length === 0) {
    return makeVerdict({ ...STRINGS, status: "go", headline: say`The string holes clear every old hole: least wall ${mm(worst?.wallMm ?? 0)}.`, figures: { leastWallMm: worst?.wallMm ?? Number.NaN } });
  }
  const top = bridge.topAnchor !== undefined && bridge.anchor !== "through";
  const remedy: Remedy = { id: "load-top", text: say`Load the strings from the top: reversible, and the old holes stay as they are`, permanence: "reversible", then: "go" };
  return makeVerdict({
    ...STRINGS,
    status: top ? "rework" : "no-go",
    headline: say`New string holes would ${(worst?.wallMm ?? 0) < 0 ? "overlap" : "stand too near"} the old ones (${mm(Math.abs(worst?.wallMm ?? 0))})${top ? ": load the strings from the top" : ""}.`,
    detail: [
      ...(cut > 0 ? [say`A plug in the old string hole would be cut open ${mm(cut)} deep by the new one.`] : []),
      ...(toPlug ? [say`The plugs of the old screw holes would stand ${mm(toPlug.wallMm)} from the new string holes, under ${mm(toPlug.needMm, 1)}.`] : []),
      say`In the way: ${listed([...new Set(own.map((conflict) => conflict.rule))])}.`,
    ],
    remedies: top ? [remedy] : [],
    work: top ? [{ act: "choose", what: "strings loaded from the top" }] : [],
    figures: { overlapMm: Math.max(0, -(worst?.wallMm ?? 0)), overlapCount: overlaps.filter((wall) => wall.wallMm < 0).length, ...(cut > 0 ? { plugCutMm: cut } : {}), ...(toPlug ? { plugToStringHoleMm: toPlug.wallMm } : {}) },
  });
}

/** Stop and wood left under the tip, at the deepest hole. */
function answerDepth(asking: Asking<Instrument>): Verdict {
  const placed = placement(asking);
  const { body } = asking.subject;
  if (!placed.known) return measureVerdict(DEPTH, placed.missing, "how deep the holes go");
  if (!body.thickness.known) return measureVerdict(DEPTH, [body.thickness], "how much wood is left under the tip of the drill");
  const holes = placed.pieces.flatMap((piece) => piece.holes).filter((hole) => hole.depthMm !== "through");
  const deepest = holes.reduce<NewHole | undefined>((a, b) => (a === undefined || (b.depthMm as number) > (a.depthMm as number) ? b : a), undefined);
  if (!deepest) return makeVerdict({ ...DEPTH, status: "go", headline: say`No blind hole is to be drilled.` });
  const thickness = body.thickness;
  const guide = (wood: number) => drillGuide({ diameterMm: deepest.pilotMm, depthMm: deepest.depthMm as number, depthTo: "full diameter", woodMm: wood, throughPlateMm: 0, leaveMm: LEAVE_MM });
  const now = guide(thickness.value);
  const problem = { leaves: { t: thickness }, unit: "mm", margin: (x: Readonly<Record<string, number>>) => guide(x.t as number).marginMm };
  const weighed = weigh(problem);
  const go = weighed.known && now.marginMm >= 0 && weighed.probability >= 0.95;
  return makeVerdict({
    ...DEPTH,
    status: go ? "go" : "no-go",
    headline: go
      ? say`Set the stop at ${mm(now.stopMm, 1)}: ${mm(now.woodLeftMm, 1)} of wood is left under the tip.`
      : say`At ${mm(deepest.depthMm as number, 1)} deep only ${mm(now.woodLeftMm, 1)} is left under the tip, ${mm(LEAVE_MM, 0)} is wanted: drill no deeper than ${mm(now.deepestMm, 1)}.`,
    ...(weighed.known ? { margin: { value: now.marginMm, unit: "mm", u: weighed.u }, probability: weighed.probability, shares: weighed.shares } : {}),
    sums: [
      sumOf(problem, {
        title: "Wood under the tip",
        formula: "left = thickness − depth − Ø/(2 tan 59°)",
        symbols: { t: { symbol: "t", meaning: "body thickness" } },
        constants: [
          { symbol: "d", meaning: "depth", value: deepest.depthMm as number, unit: "mm", u: 0, origin: "data sheet" },
          { symbol: "Ø", meaning: "drill", value: deepest.pilotMm, unit: "mm", u: 0, origin: "data sheet" },
        ],
        result: say`left ${mm(now.woodLeftMm)}`,
        source: { text: "Derived: cone of a 118° drill. At least 4 mm left: common practice", mark: "common practice" },
      }),
    ],
    figures: { stopMm: now.stopMm, woodLeftMm: now.woodLeftMm, depthMm: deepest.depthMm as number, pilotMm: deepest.pilotMm },
  });
}
