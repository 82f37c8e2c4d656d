/** "Where must this bridge stand?": the place, how sure it is by the way of measuring and of drilling, the runner-up. */
import type { Instrument } from "../job/index.ts";
import {
  type Asking,
  chanceFigure,
  type KnownWeight,
  nextReading,
  type Problem,
  type ReadingOption,
  sumOf,
  weigh,
} from "../ledger/index.ts";
import { figure, type Known, mm, type Phrase, say } from "../quantity/index.ts";
import type { NextReading, Remedy, Status, Verdict } from "../verdict/index.ts";
import { xOf } from "./bridge-model.ts";
import { missingReading, sharperReading } from "./how-to-measure.ts";
import { type InstrumentQuestion, makeVerdict, measureVerdict } from "./make-verdict.ts";
import { type ChanceCase, placeProblem } from "./place-chance.ts";
import { hasTransfer, oddsByWay, oddsFigures, type WayOdds } from "./place-odds.ts";
import { chanceCase } from "./place-walls.ts";
import {
  fret12X,
  markLines,
  ON_THE_LINE_MM,
  placeNotKept,
  placePhrase,
  sideWords,
  unitFigures,
  unitPhrase,
} from "./place-words.ts";
import { type PlacedPiece, type Placement, placement } from "./placement.ts";
import { scaleTrouble } from "./scale-trouble.ts";

const HEAD = { id: "bridge.place", question: "Where must this bridge stand?", stake: 3 } as const;

export function bridgePlaceQuestions(instrument: Instrument): InstrumentQuestion[] {
  return instrument.bridge ? [{ id: HEAD.id, question: HEAD.question, answer }] : [];
}

type KnownPlacement = Extract<Placement, { known: true }>;

function answer(asking: Asking<Instrument>): Verdict {
  const placed = placement(asking);
  if (!placed.known) return measureVerdict(HEAD, placed.missing, "where the bridge must stand");
  if (placed.missingHoles.length > 0)
    return measureVerdict(HEAD, placed.missingHoles, "which holes the place must clear");
  const piece = decidingPiece(asking.subject, placed);
  if (!piece?.pose) return noPlace(placed);
  const crowded = placed.pieces.findIndex((item) => item.gapToNextMm !== undefined && item.gapToNextMm < 0);
  if (crowded >= 0) return unitsOverlap(placed, crowded);
  return placeVerdict(asking.subject, placed, piece);
}

/** The piece that is least likely to hold: the plate itself, or the tightest unit. */
function decidingPiece(instrument: Instrument, placed: KnownPlacement): PlacedPiece | undefined {
  const pieces = placed.pieces.filter((piece) => piece.saddles.length > 0);
  if (pieces.some((piece) => !piece.pose)) return undefined;
  let worst = pieces[0];
  let least = Number.POSITIVE_INFINITY;
  if (pieces.length === 1) return worst;
  for (const piece of pieces) {
    const weighed = weigh(placeProblem([chanceCase(instrument, placed, piece)]));
    if (weighed.known && weighed.probability < least) {
      least = weighed.probability;
      worst = piece;
    }
  }
  return worst;
}

function noPlace(placed: KnownPlacement): Verdict {
  const why = placed.pieces.find((piece) => !piece.pose)?.why ?? say`no place will do`;
  return makeVerdict({
    ...HEAD,
    status: "no-go",
    headline: say`Nowhere as things stand: ${why}.`,
    probability: 0,
    figures: { widthMm: placed.ordered.widthMm },
  });
}

/** Units wider than the strings let them be cannot stand beside one another at any place. */
function unitsOverlap(placed: KnownPlacement, index: number): Verdict {
  const by = -(placed.pieces[index]?.gapToNextMm ?? 0);
  const headline = say`Units ${figure(index + 1, "", 0)} and ${figure(index + 2, "", 0)} would overlap by ${mm(by)}: the strings stand too close for units of this width.`;
  return makeVerdict({ ...HEAD, status: "no-go", headline, probability: 0, figures: gapFigures(placed) });
}

function gapFigures(placed: KnownPlacement): Record<string, number> {
  return Object.fromEntries(
    placed.pieces.flatMap((piece, index) =>
      piece.gapToNextMm === undefined ? [] : [[`gap${index + 1}To${index + 2}Mm`, piece.gapToNextMm]],
    ),
  );
}

function placeVerdict(instrument: Instrument, placed: KnownPlacement, piece: PlacedPiece): Verdict {
  // All pieces have to hold together; a tailpiece without saddles only where old holes or routs stand near it.
  const now = placed.pieces
    .filter((item) => item.pose)
    .map((item) => chanceCase(instrument, placed, item))
    .filter((item) => item.saddles.length + item.walls.length + item.obstacles.length > 0);
  const problem = placeProblem(now);
  const weighed = weigh(problem);
  if (!weighed.known) return measureVerdict(HEAD, weighed.missing, "where the bridge must stand");
  const gate = instrument.limits.gateProbability.known ? instrument.limits.gateProbability.value : 0.95;
  const odds = oddsByWay(instrument, placed, now, weighed.probability);
  const { status, remedies, next } = waysOut(instrument, placed, problem, weighed, odds, gate);
  const words = scaleTrouble(instrument, placed.model.frame)?.words;
  const trouble = words ? say`Mark nothing yet. ${words}. As things stand: ` : say``;
  const footing = placed.footing.words === "" ? say`` : say` ${placed.footing.words}`;
  return makeVerdict({
    ...HEAD,
    status,
    headline: say`${trouble}${placeNotKept(placed)}${placeWords(placed, piece)}${footing}, by ${instrument.workshop.drilling}.`,
    detail: details(placed, piece, odds, instrument),
    margin: { value: weighed.margin, unit: "mm", u: weighed.u },
    probability: weighed.probability,
    shares: weighed.shares,
    remedies,
    work: [],
    sums: [placeSum(now, weighed.margin)],
    ...(next ? { next } : {}),
    figures: {
      ...placeFigures(placed, piece),
      ...gapFigures(placed),
      ...unitFigures(placed),
      ...oddsFigures(odds),
      probability: weighed.probability,
      uScaleLineMm: uOf(placed.model.frame.best.quantity),
      uDrillingMm: now[0]?.drillingUMm ?? 0,
    },
  });
}

function placeWords(placed: KnownPlacement, piece: PlacedPiece): Phrase {
  const pose = piece.pose as NonNullable<PlacedPiece["pose"]>;
  const { frame } = placed.model;
  const pieces = placed.pieces.filter((item) => item.saddles.length > 0).length;
  if (pieces > 1) {
    const where = frame.fromNut
      ? unitPhrase(placed, piece)
      : say`at ${mm(pose.placeMm, 1)} (${mm(xOf(frame, pose.placeMm), 1)} from the nut)`;
    return say`${figure(pieces, "", 0)} units, each on its own string's line; the least sure is ${piece.piece.id.replace("-", " ")}, front edge ${where}`;
  }
  const turned = pose.yawDegrees === 0 ? say`` : say`, turned ${figure(pose.yawDegrees, "°", 2)}`;
  // Its middle is what the place is told of; a bar that stands askew has it beside the line.
  const aside = Math.abs(pose.sideMm) < ON_THE_LINE_MM ? say`` : say`, its middle ${sideWords(pose.sideMm)}`;
  return say`Front edge ${frame.fromNut ? "" : "at "}${placePhrase(frame, pose.placeMm)}${turned}${aside}`;
}

/** What would open the gate: a better way of drilling, a better reading, or nothing that is known. */
function waysOut(
  instrument: Instrument,
  placed: KnownPlacement,
  problem: Problem,
  weighed: KnownWeight,
  odds: readonly WayOdds[],
  gate: number,
): { status: Status; remedies: Remedy[]; next?: NextReading } {
  const { probability } = weighed;
  const { quantity: line } = placed.model.frame.best;
  const trouble = scaleTrouble(instrument, placed.model.frame);
  if (trouble)
    return { status: probability <= 1 - gate ? "no-go" : "measure", remedies: [], next: trouble.readings[0] };
  // However wide the window: nothing is drilled on a scale length that was only printed.
  if (line.origin === "assumed")
    return {
      status: probability <= 1 - gate ? "no-go" : "measure",
      remedies: [],
      next: missingReading(line, "where the scale line falls, before anything is drilled"),
    };
  if (probability >= gate) return { status: "go", remedies: [] };
  const current = odds.filter(
    (way) =>
      way.measuring ===
      (odds.some((one) => one.measuring === "carried over") && hasTransfer(instrument) ? "carried over" : "steel rule"),
  );
  const better = current.filter((way) => way.probability >= gate).sort((a, b) => b.probability - a.probability)[0];
  const both = odds.filter((way) => way.probability >= gate).sort((a, b) => b.probability - a.probability)[0];
  const advice = nextReading(problem, readingOptions(problem, weighed), { probability: gate });
  const remedies: Remedy[] = [];
  if (better)
    remedies.push({
      id: "drill-better",
      text: say`Drill with the ${better.drilling}`,
      permanence: "permanent",
      then: "go",
      probability: better.probability,
    });
  else if (both)
    remedies.push({
      id: "measure-and-drill-better",
      text: say`Carry the scale line over${instrument.neck.boltOn ? " with the neck bolted" : ""}, and drill with the ${both.drilling}`,
      permanence: "permanent",
      then: "go",
      probability: both.probability,
    });
  if (better && !advice.reading) return { status: "rework", remedies };
  const status: Status = better
    ? "rework"
    : both || advice.reading
      ? "measure"
      : probability <= 1 - gate
        ? "no-go"
        : "measure";
  return { status, remedies, ...(advice.reading ? { next: advice.reading } : {}) };
}

/** A value with less than this part of the doubt is not worth another reading. */
const WORTH_A_READING = 0.05;
const MOST_READINGS = 3;

export function readingOptions(problem: Problem, { shares }: KnownWeight): ReadingOption[] {
  const worth = shares.filter((share) => share.share >= WORTH_A_READING).map((share) => share.path);
  const seen = new Set<string>();
  return Object.entries(problem.leaves)
    .flatMap(([leaf, quantity]) => {
      const better = sharperReading(quantity);
      if (!better || !worth.includes(quantity.path) || seen.has(quantity.path)) return [];
      seen.add(quantity.path);
      return [{ leaf, ...better }];
    })
    .slice(0, MOST_READINGS);
}

function details(
  placed: KnownPlacement,
  piece: PlacedPiece,
  odds: readonly WayOdds[],
  instrument: Instrument,
): Phrase[] {
  const pose = piece.pose as NonNullable<PlacedPiece["pose"]>;
  const { frame } = placed.model;
  const marks = markLines(placed);
  const lines: Phrase[] =
    frame.fromNut && placed.model.bridge.kind === "single units"
      ? [...marks]
      : [say`Why there: ${piece.why}.`, ...marks];
  if (placed.wish && !placed.wish.kept) lines.push(wishWords(placed, pose.placeMm));
  if (!frame.multiScale && !frame.fromNut)
    lines.push(
      say`Mark it ${mm(xOf(frame, pose.placeMm) - fret12X(frame), 1)} from the middle of fret 12, along the centre line of the neck.`,
    );
  for (const measuring of ["steel rule", "carried over"] as const) {
    const row = odds.filter((way) => way.measuring === measuring);
    if (row.length === 0) continue;
    const words =
      measuring === "steel rule"
        ? "Scale line by the rule"
        : `Scale line carried over from the ${instrument.neck.boltOn ? "bolted neck" : "neck"}`;
    lines.push(say`${words}: ${row.map((way) => `${way.drilling} ${chanceFigure(way.probability)}`).join(", ")}.`);
  }
  if (placed.unchecked.length > 0)
    lines.push(say`Not checked, because not fully measured: ${placed.unchecked.join(", ")}.`);
  lines.push(
    say`The scale line is taken ${frame.best.words}; reserve at each end of the travel ${mm(placed.model.reserveMm, 1)}; ways of drilling by common practice (${instrument.workshop.drilling} now).`,
  );
  return lines;
}

function wishWords(placed: KnownPlacement, chosenMm: number): Phrase {
  const wish = placed.wish as NonNullable<KnownPlacement["wish"]>;
  const wall = wish.judgement.leastWallNow?.wallMm;
  const thin =
    wall !== undefined && wall < placed.scene.limits.wallMm ? say`leaves walls down to ${mm(wall)}` : undefined;
  const reach = wish.insideWindow ? undefined : say`lies outside the saddles' window`;
  const reasons = [reach, thin].filter((reason) => reason !== undefined);
  const why =
    reasons.length > 0
      ? reasons.flatMap((reason, index) => (index === 0 ? reason : [" and ", ...reason]))
      : say`needs more plugs than another`;
  return say`The place first thought of, ${mm(xOf(placed.model.frame, wish.placeMm), 1)} from the nut, ${why}: move the plate ${mm(Math.abs(chosenMm - wish.placeMm), 1)} ${chosenMm < wish.placeMm ? "toward the neck" : "toward the tail"}.`;
}

/** The sum of the piece with the least margin; the others have the same form. */
function placeSum(cases: readonly ChanceCase[], margin: number) {
  const first = cases[0] as ChanceCase;
  const now = cases.reduce((a, b) => (leastOf(b) < leastOf(a) ? b : a), first);
  return sumOf(placeProblem([now]), {
    title: "Least margin at the place",
    formula:
      "min over strings and walls of: S + s − P − a − r,  b − r − (S + s − P),  √(Δu² + Δy²) − Ø/2 − Ø old/2 − wall",
    symbols: {
      along: { symbol: "δu", meaning: "where the piece ends up, along" },
      across: { symbol: "δy", meaning: "where the piece ends up, across" },
      ...Object.fromEntries(
        now.saddles.flatMap((saddle, index) => [
          [`end${index}`, { symbol: `S${saddle.string}`, meaning: "scale line" }],
          [`setback${index}`, { symbol: `s${saddle.string}`, meaning: `setback of string ${saddle.string}` }],
          [`from${index}`, { symbol: `a${saddle.string}`, meaning: `foremost contact of saddle ${saddle.string}` }],
          [`to${index}`, { symbol: `b${saddle.string}`, meaning: `rearmost contact of saddle ${saddle.string}` }],
        ]),
      ),
    },
    constants: [
      { symbol: "P", meaning: "front edge", value: now.pose.placeMm, unit: "mm", u: 0, origin: "rule" },
      { symbol: "r", meaning: "reserve", value: now.reserveMm, unit: "mm", u: 0, origin: "rule" },
      { symbol: "wall", meaning: "least wood between holes", value: now.wallMm, unit: "mm", u: 0, origin: "rule" },
    ],
    result: say`least margin ${mm(margin)}`,
    source: {
      text: "Derived. Probability by the ledger: JCGM 101:2008 (propagation of distributions), decision at the gate after JCGM 106:2012. Ways of drilling: common practice, no source",
      mark: "derived",
    },
  });
}

function leastOf(given: ChanceCase): number {
  const { leaves, margin } = placeProblem([given]);
  return margin(
    Object.fromEntries(
      Object.entries(leaves).map(([name, quantity]) => [name, quantity.known ? quantity.value : Number.NaN]),
    ),
  );
}

function placeFigures(placed: KnownPlacement, piece: PlacedPiece): Record<string, number> {
  const pose = piece.pose as NonNullable<PlacedPiece["pose"]>;
  const out: Record<string, number> = {
    placeMm: pose.placeMm,
    xMm: xOf(placed.model.frame, pose.placeMm),
    sideMm: pose.sideMm,
    yawDegrees: pose.yawDegrees,
    windowMinMm: piece.window.minMm,
    windowMaxMm: piece.window.maxMm,
  };
  if (piece.candidate)
    Object.assign(out, {
      plugs: piece.candidate.plugs,
      leastWallMm: piece.candidate.leastWallMm,
      saddleSpareMm: piece.candidate.saddleSpareMm,
    });
  if (piece.runnerUp)
    Object.assign(out, { runnerUpMm: piece.runnerUp.pose.placeMm, runnerUpPlugs: piece.runnerUp.plugs });
  const yaw = (pose.yawDegrees * Math.PI) / 180;
  for (const saddle of piece.saddles) {
    const p = (saddle.end.value + saddle.setback.value - pose.placeMm + saddle.q.value * Math.sin(yaw)) / Math.cos(yaw);
    Object.assign(out, {
      [`spareFront${saddle.string}Mm`]: p - saddle.from.value,
      [`spareRear${saddle.string}Mm`]: saddle.to.value - p,
    });
  }
  placed.pieces.forEach((item, index) => {
    if (item.pose && placed.pieces.length > 1)
      Object.assign(out, {
        [`piece${index + 1}PlaceMm`]: item.pose.placeMm,
        [`piece${index + 1}SideMm`]: item.pose.sideMm,
        [`piece${index + 1}YawDegrees`]: item.pose.yawDegrees,
      });
  });
  return out;
}

function uOf(quantity: Known): number {
  return Math.sqrt(quantity.doubt.reduce((sum, term) => sum + term.u ** 2, 0));
}
