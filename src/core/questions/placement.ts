/**
 * Where each piece of the bridge is to stand. One result, shared by every question that needs the place, by the
 * templates and by the traveller.
 *
 * If the window is empty with the strings as ordered, the search goes on with the widest remedy that is to hand and
 * can be undone (another string, a saddle turned round) and says so; everything that follows stands on that footing.
 */
import {
  type BodyPoint,
  type Candidate,
  type HoleScene,
  holesAtPose,
  type Judgement,
  judgeHoles,
  type NewHole,
  newHoleSolid,
  type PatternHole,
  type PlateWindow,
  type Pose,
  placementAllowed,
  reserveProbability,
  searchPlace,
  toBody,
  type WindowRemedy,
  windowAtYaw,
  windowRemedies,
} from "../bridge/index.ts";
import type { BridgePiece, Instrument } from "../job/index.ts";
import type { Asking } from "../ledger/index.ts";
import { mm, type Phrase, type Quantity, say, standardUncertainty } from "../quantity/index.ts";
import {
  type BridgeModel,
  bridgeModel,
  holeLimitsOf,
  obstaclesOf,
  oldHolesOf,
  type PatternCase,
  type PieceCase,
  patternOf,
  type SaddleCase,
  throughBody,
  withSpare,
} from "./bridge-model.ts";
import { placeUnits } from "./place-units.ts";

/** What the places stand on. */
export interface Footing {
  /** Undefined: the strings and saddles as ordered. */
  readonly remedy?: WindowRemedy;
  /** String whose setback or saddle differs from the order. */
  readonly string?: number;
  /** e.g. "with the wound third". */
  readonly words: string;
}

export interface PlacedPiece {
  readonly piece: BridgePiece;
  readonly saddles: readonly SaddleCase[];
  /** Window of the square piece (of the piece along its string for a unit). */
  readonly window: PlateWindow;
  readonly pattern: readonly PatternHole[];
  /** What each hole of the pattern was read from. */
  readonly made: PatternCase["made"];
  /** Undefined: no place of the window will do. */
  readonly pose: Pose | undefined;
  readonly candidate?: Candidate;
  readonly runnerUp?: Candidate;
  readonly why: Phrase;
  readonly holes: readonly NewHole[];
  readonly judgement?: Judgement;
  /** Single units: air to the next one of the list, negative if they overlap. */
  readonly gapToNextMm?: number;
}

export interface Wish {
  readonly placeMm: number;
  readonly pose: Pose;
  readonly judgement: Judgement;
  readonly insideWindow: boolean;
  /** It is as good as it needs to be: the program keeps to it. */
  readonly kept: boolean;
}

export type Placement =
  | {
      readonly known: true;
      readonly model: Extract<BridgeModel, { known: true }>;
      /** Window with the strings and saddles as ordered, at the yaw that leaves it widest where the yaw is free. */
      readonly ordered: PlateWindow;
      readonly orderedYawDegrees: number;
      readonly remedies: readonly WindowRemedy[];
      readonly footing: Footing;
      readonly pieces: readonly PlacedPiece[];
      readonly scene: HoleScene;
      readonly unchecked: readonly string[];
      readonly missingHoles: readonly Quantity[];
      readonly wish?: Wish;
      /** One place was given for several single units: each stands where its own string wants it instead. */
      readonly placeNotKept?: boolean;
    }
  | { readonly known: false; readonly missing: readonly Quantity[] };

const SIDE_LIMIT_MM = 0.5;
const YAW_LIMIT_DEGREES = 0.5;
/** Posts may stand this much askew of square: a bar that follows the strings' setbacks. */
const POST_YAW_DEGREES = 8;

export function placement(asking: Asking<Instrument>): Placement {
  return asking.derive("placement", (inner) => computePlacement(inner));
}

function computePlacement(asking: Asking<Instrument>): Placement {
  const model = bridgeModel(asking);
  if (!model.known) return model;
  const { subject } = asking;
  const old = oldHolesOf(subject.body.holes);
  const { solids, unchecked } = obstaclesOf(subject);
  const scene: HoleScene = { oldHoles: old.holes, obstacles: solids, limits: holeLimitsOf(subject) };
  const first = model.pieces[0];
  if (!first) return { known: false, missing: [] };
  if (model.bridge.kind === "single units") {
    const units = placeUnits(asking, model, scene);
    const window = units.pieces[0]?.window as PlateWindow;
    return {
      known: true,
      model,
      ordered: window,
      orderedYawDegrees: 0,
      remedies: [],
      footing: { words: "" },
      pieces: units.pieces,
      scene,
      unchecked,
      missingHoles: [...old.missing, ...units.missing],
      ...(subject.bridge?.chosenPlace.known ? { placeNotKept: true } : {}),
    };
  }
  const yawIsFree = model.bridge.kind === "two posts";
  const orderedYawDegrees = yawIsFree ? bestYaw(first.saddles, model.reserveMm) : 0;
  const ordered = windowOf(first.saddles, model.reserveMm, orderedYawDegrees);
  const remedies = ordered.widthMm >= 0 ? [] : remediesOf(first, model);
  const footing = footingOf(remedies, model);
  const saddles = onFooting(first, footing, model);
  const pattern = patternOf(first.piece, model.bridge.kind, throughBody(model.bridge, model.pieces));
  const placed = placePiece(asking, { piece: first.piece, saddles }, pattern, scene, model.reserveMm, yawIsFree);
  const wish = wishOf(subject, placed, scene, model.reserveMm);
  const kept = wish?.kept ? atWish(placed, wish, model.reserveMm) : placed;
  const tail = tailpieceOf(model.bridge, kept, scene);
  const missingHoles = [...old.missing, ...pattern.missing, ...tail.missing];
  return {
    known: true,
    model,
    ordered,
    orderedYawDegrees,
    remedies,
    footing,
    pieces: [kept, ...tail.pieces],
    scene,
    unchecked,
    missingHoles,
    ...(wish ? { wish } : {}),
  };
}

export function numbersOf(saddles: readonly SaddleCase[]) {
  return {
    targetsMm: saddles.map((saddle) => saddle.end.value + saddle.setback.value),
    fromMm: saddles.map((saddle) => saddle.from.value),
    toMm: saddles.map((saddle) => saddle.to.value),
    acrossMm: saddles.map((saddle) => saddle.q.value),
  };
}

/** p of the saddles' middle, in the middle of their travel: it keeps to the line when a bar stands askew. */
export function saddlesMiddleMm(saddles: readonly SaddleCase[]): number {
  return saddles.reduce((sum, { from, to }) => sum + (from.value + to.value) / 2, 0) / Math.max(1, saddles.length);
}

/** How far a part turned by its yaw carries its saddles' middle to the side of its front edge's middle. */
export function carriedAsideMm(saddles: readonly SaddleCase[], yawDegrees: number): number {
  return saddlesMiddleMm(saddles) * Math.sin((yawDegrees * Math.PI) / 180);
}

/** Where a string of a piece at its pose touches its saddle. */
export function contactAt({ end, setback, q }: SaddleCase, pose: Pose): BodyPoint {
  const yaw = (pose.yawDegrees * Math.PI) / 180;
  const pMm = (end.value + setback.value - pose.placeMm + q.value * Math.sin(yaw)) / Math.cos(yaw);
  return toBody(pose, { pMm, qMm: q.value });
}

function windowOf(saddles: readonly SaddleCase[], reserveMm: number, yawDegrees: number): PlateWindow {
  return windowAtYaw({ ...numbersOf(saddles), reserveMm, yawDegrees });
}

/** The yaw, in steps of a tenth of a degree, that leaves the widest window. */
function bestYaw(saddles: readonly SaddleCase[], reserveMm: number): number {
  let best = 0;
  let widest = Number.NEGATIVE_INFINITY;
  for (let tenth = -10 * POST_YAW_DEGREES; tenth <= 10 * POST_YAW_DEGREES; tenth++) {
    const { widthMm } = windowOf(saddles, reserveMm, tenth / 10);
    if (widthMm > widest + 1e-9) {
      widest = widthMm;
      best = tenth / 10;
    }
  }
  return best;
}

function remediesOf(piece: PieceCase, model: Extract<BridgeModel, { known: true }>): WindowRemedy[] {
  const spares = model.spares.flatMap((spare) => {
    const index = piece.saddles.findIndex((saddle) => saddle.string === spare.string);
    const targetsMm = numbersOf(withSpare(piece, spare)).targetsMm;
    const targetMm = targetsMm[index];
    return targetMm === undefined ? [] : [{ index, targetMm, targetsMm }];
  });
  return windowRemedies({
    ...numbersOf(piece.saddles),
    reserveMm: model.reserveMm,
    turnedRoundMm: model.turnedRoundMm,
    spares,
  });
}

function footingOf(remedies: readonly WindowRemedy[], model: Extract<BridgeModel, { known: true }>): Footing {
  const remedy = remedies.find(
    (item) => item.opens && (item.kind === "another string" || item.kind === "turned saddle"),
  );
  if (remedy?.kind === "another string") {
    const string = remedy.index + 1;
    return {
      remedy,
      string,
      words: `with the ${model.spares.find((spare) => spare.string === string)?.name ?? "spare string"}`,
    };
  }
  if (remedy?.kind === "turned saddle") {
    const string = (remedy.indexes[0] ?? 0) + 1;
    return {
      remedy,
      string,
      words: `with saddle ${remedy.indexes.map((index) => index + 1).join(" and ")} turned round`,
    };
  }
  return { words: "" };
}

function onFooting(
  piece: PieceCase,
  { remedy }: Footing,
  model: Extract<BridgeModel, { known: true }>,
): readonly SaddleCase[] {
  const { saddles } = piece;
  if (remedy?.kind === "another string") {
    const spare = model.spares.find((item) => item.string === saddles[remedy.index]?.string);
    return spare ? withSpare(piece, spare) : saddles;
  }
  return saddles.map((saddle, index) => {
    if (remedy?.kind === "turned saddle" && remedy.indexes.includes(index)) {
      return {
        ...saddle,
        from: { ...saddle.from, value: saddle.from.value + remedy.byMm },
        to: { ...saddle.to, value: saddle.to.value + remedy.byMm },
      };
    }
    return saddle;
  });
}

function placePiece(
  asking: Asking<Instrument>,
  piece: PieceCase,
  { holes: pattern, made }: PatternCase,
  scene: HoleScene,
  reserveMm: number,
  yawIsFree: boolean,
): PlacedPiece {
  const found = searchPlace({
    ...scene,
    saddles: numbersOf(piece.saddles),
    reserveMm,
    pattern,
    side: { fromMm: -SIDE_LIMIT_MM, toMm: SIDE_LIMIT_MM },
    yawLimitDegrees: yawIsFree ? POST_YAW_DEGREES : YAW_LIMIT_DEGREES,
    yawIsFree,
    turnsAboutMm: yawIsFree ? saddlesMiddleMm(piece.saddles) : 0,
    probability: (pose) => saddleOdds(asking.subject, piece.saddles, pose, reserveMm),
  });
  // The square window says little about a bar whose posts may stand askew.
  const yaw = found.chosen?.pose.yawDegrees ?? (yawIsFree ? bestYaw(piece.saddles, reserveMm) : 0);
  const window = yaw === 0 ? found.window : windowOf(piece.saddles, reserveMm, yaw);
  const why = found.chosen || window.widthMm < 0 ? found.why : NOTHING_CLEAR;
  const base = {
    piece: piece.piece,
    saddles: piece.saddles,
    window,
    pattern,
    made,
    why,
    ...(found.runnerUp ? { runnerUp: found.runnerUp } : {}),
  };
  if (!found.chosen) return { ...base, pose: undefined, holes: [] };
  const holes = holesAtPose(pattern, found.chosen.pose);
  return {
    ...base,
    pose: found.chosen.pose,
    candidate: found.chosen,
    holes,
    judgement: judgeHoles({ ...scene, newHoles: holes }),
  };
}

const NOTHING_CLEAR = say`at every place of the window a new hole or a plug comes too near something that cannot be moved`;

/** The piece at the owner's own place, with that place's figures. */
function atWish(placed: PlacedPiece, { pose, judgement }: Wish, reserveMm: number): PlacedPiece {
  const { leastMm } = placementAllowed({ ...numbersOf(placed.saddles), pose, reserveMm });
  const { plugs, leastWallMm, marginMm } = judgement;
  const candidate: Candidate = {
    pose,
    plugs: plugs.length,
    marginMm: Math.min(marginMm, leastMm - reserveMm),
    leastWallMm,
    saddleSpareMm: leastMm,
    onLine: true,
  };
  const why = say`the place you gave, as it needs no more plugs than the best one; least saddle travel left ${mm(leastMm)}. ${placed.why}`;
  return { ...placed, pose, candidate, why, holes: holesAtPose(placed.pattern, pose), judgement };
}

/** The owner's own place, judged; it is kept where it needs no more plugs than the best and lies in the window. */
function wishOf(instrument: Instrument, placed: PlacedPiece, scene: HoleScene, reserveMm: number): Wish | undefined {
  const chosen = instrument.bridge?.chosenPlace;
  if (!chosen?.known) return undefined;
  // A bar on posts is wished for at a place, not at a yaw: it keeps the one that its saddles want.
  const yawDegrees =
    instrument.bridge?.kind === "two posts" ? (placed.pose?.yawDegrees ?? bestYaw(placed.saddles, reserveMm)) : 0;
  const pose: Pose = { placeMm: chosen.value, sideMm: 0 - carriedAsideMm(placed.saddles, yawDegrees), yawDegrees };
  const judgement = judgeHoles({ ...scene, newHoles: holesAtPose(placed.pattern, pose) });
  const window = windowOf(placed.saddles, reserveMm, yawDegrees);
  const insideWindow = chosen.value >= window.minMm - 1e-9 && chosen.value <= window.maxMm + 1e-9;
  const plugs = placed.candidate?.plugs ?? Number.POSITIVE_INFINITY;
  return {
    placeMm: chosen.value,
    pose,
    judgement,
    insideWindow,
    kept: insideWindow && judgement.allowed && judgement.plugs.length <= plugs,
  };
}

/** A separate tailpiece stands behind the bar by its stated distance, square and in line with the bar's saddles. */
function tailpieceOf(
  bridge: Extract<BridgeModel, { known: true }>["bridge"],
  bar: PlacedPiece,
  scene: HoleScene,
): { readonly pieces: PlacedPiece[]; readonly missing: readonly Quantity[] } {
  const tail = bridge.tailpiece;
  if (!tail) return { pieces: [], missing: [] };
  const { holes: pattern, made, missing } = patternOf(tail, "two posts", false);
  if (!tail.distance.known) return { pieces: [], missing: [tail.distance, ...missing] };
  if (!bar.pose) return { pieces: [], missing };
  const sideMm = bar.pose.sideMm + carriedAsideMm(bar.saddles, bar.pose.yawDegrees);
  const pose: Pose = { placeMm: bar.pose.placeMm + tail.distance.value, sideMm, yawDegrees: 0 };
  const holes = holesAtPose(pattern, pose);
  // Its posts keep away from the bar's as well.
  const judgement = judgeHoles({
    ...scene,
    obstacles: [...scene.obstacles, ...bar.holes.map(newHoleSolid)],
    newHoles: holes,
  });
  const window: PlateWindow = {
    minMm: pose.placeMm,
    maxMm: pose.placeMm,
    widthMm: 0,
    bindingMinIndex: 0,
    bindingMaxIndex: 0,
  };
  return {
    pieces: [{ piece: tail, saddles: [], window, pattern, made, pose, why: bar.why, holes, judgement }],
    missing,
  };
}

/** Parts places that are otherwise alike: the saddles' own odds, in closed form; walls are alike there by definition. */
function saddleOdds(instrument: Instrument, saddles: readonly SaddleCase[], pose: Pose, reserveMm: number): number {
  const { drillingDoubt } = instrument.workshop;
  const line = Math.max(...saddles.map((saddle) => standardUncertainty(saddle.end)));
  const stringMm = Math.max(...saddles.map((saddle) => standardUncertainty(saddle.setback)));
  const sharedMm = Math.hypot(line, drillingDoubt.known ? drillingDoubt.value : 0);
  return reserveProbability({ ...numbersOf(saddles), placeMm: pose.placeMm, reserveMm, doubt: { sharedMm, stringMm } });
}
