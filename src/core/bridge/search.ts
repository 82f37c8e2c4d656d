/**
 * Where a bridge with given holes should stand.
 *
 * What is compared: poses on a grid that a person can mark (0.1 in u and y; yaw in steps that move the outermost hole
 * by 0.1), inside the saddles' window, judged by the rules of `judgeHoles`. The order of preference:
 *  1. no conflict, every saddle keeps its reserve;
 *  2. fewest plugs (acts that cannot be undone);
 *  3. on the centre line and square, unless leaving it saves a plug (a part whose yaw is free need not be square);
 *  4. the greatest least of: wall beyond its limit, and saddle travel beyond its reserve;
 *  5. the probability, if a function for it is given; then the place nearest the window's middle.
 * The whole grid is weighed; poses that are bound to need more plugs than the best so far are dropped unseen, so the
 * answer is the best of the grid and not a guess. The runner-up is the next best that differs in kind: another number
 * of plugs, or a place at least 1.0 away.
 * Left out: places between the grid's points; as runner-up, a pose off the line that saves no plug.
 */
import { requireFinite, requirePositive } from "../checks.ts";
import { InputError } from "../errors.ts";
import { figure, mm, type Phrase, say } from "../quantity/index.ts";
import { type Pose, RADIANS_PER_DEGREE, ROUNDING_MM } from "./frame.ts";
import { type HoleScene, newDiameterMm, type PatternHole, refuseNewHoles, refuseScene } from "./holes.ts";
import { type QuickAnswer, QuickJudge } from "./quick-judge.ts";
import { leastSaddleSpareTurnedMm, type PlacedSaddleSet, type PlateWindow, windowAtYaw } from "./window.ts";

export interface PlaceSearch extends HoleScene {
  readonly saddles: PlacedSaddleSet;
  readonly reserveMm: number;
  readonly pattern: readonly PatternHole[];
  /** How far off the centre line the part may stand; on the line only unless given. */
  readonly side?: { readonly fromMm: number; readonly toMm: number };
  /** How far it may be turned; square only unless given. */
  readonly yawLimitDegrees?: number;
  /** The yaw is free to choose (two posts): turning is no fault in itself. */
  readonly yawIsFree?: boolean;
  /**
   * p of the point that is kept to its side when the part is turned: the front edge's middle unless given. A bar turned
   * about its front edge would carry its saddles off the centre line.
   */
  readonly turnsAboutMm?: number;
  /** Further bound on the place, e.g. so that the old plate's mark stays covered. */
  readonly place?: { readonly fromMm: number; readonly toMm: number };
  /** What a person can mark; 0.1 unless stated. */
  readonly stepMm?: number;
  /** Asked only to part poses that are otherwise alike, and for the two that are returned. */
  readonly probability?: (pose: Pose) => number;
}

export interface Candidate {
  readonly pose: Pose;
  readonly plugs: number;
  /** Least of wall beyond its limit and travel beyond its reserve. */
  readonly marginMm: number;
  /** Least wall that must hold, limit not taken off; Infinity if there is none. */
  readonly leastWallMm: number;
  /** Least travel left at a saddle, reserve not taken off. */
  readonly saddleSpareMm: number;
  readonly onLine: boolean;
  readonly probability?: number;
}

export interface PlaceFound {
  /** Window of the square part; `widthMm` below 0 if it is empty. */
  readonly window: PlateWindow;
  /** Undefined if no pose of the grid is allowed. */
  readonly chosen: Candidate | undefined;
  readonly runnerUp: Candidate | undefined;
  readonly why: Phrase;
  readonly posesTried: number;
}

const STEP_MM = 0.1;
const CLEARLY_APART_MM = 1;
/** Margins closer than this are alike. */
const ALIKE_MM = 1e-6;
/** Larger than any number of grid places. */
const PLACES_PER_KIND = 1e8;

/**
 * Finds the best pose of the grid.
 *
 * @throws InputError for lists that do not belong together, or a step that is not above 0
 */
export function searchPlace(search: PlaceSearch): PlaceFound {
  refuseScene(search);
  refuseNewHoles(search.pattern, "pattern");
  requirePositive(search.stepMm ?? STEP_MM, "stepMm", "mm", "Give what can be marked on the body, 0.1 as a rule");
  const window = windowAtYaw({ ...search.saddles, reserveMm: search.reserveMm, yawDegrees: 0 });
  const trial = new Trial(search, (window.minMm + window.maxMm) / 2);
  trial.tryPoses([0], search.yawIsFree ? yawGrid(search) : [0], false);
  // Leaving the line is worth a look only if it can save a plug.
  if (trial.best === undefined || trial.best.plugs > 0) trial.tryPoses(sideGrid(search), yawGrid(search), true);
  const chosen = trial.best && trial.withProbability(trial.best);
  const runnerUp = chosen && trial.runnerUp(chosen);
  return { window, chosen, runnerUp, why: whyPhrase(window, chosen, runnerUp), posesTried: trial.tried };
}

/** Is `a` to be preferred to `b`? The order of the file head, without the ties. */
export function isBetter(a: Candidate, b: Candidate, middleMm: number): boolean {
  if (a.plugs !== b.plugs) return a.plugs < b.plugs;
  if (a.onLine !== b.onLine) return a.onLine;
  if (Math.abs(a.marginMm - b.marginMm) > ALIKE_MM) return a.marginMm > b.marginMm;
  if (a.probability !== undefined && b.probability !== undefined && a.probability !== b.probability)
    return a.probability > b.probability;
  return Math.abs(a.pose.placeMm - middleMm) < Math.abs(b.pose.placeMm - middleMm);
}

class Trial {
  tried = 0;
  best: Candidate | undefined;
  /** Best of every number of plugs at every place of the grid: what a runner-up is taken from. */
  private readonly bestByKind = new Map<number, Candidate>();
  private readonly judge: QuickJudge;
  private readonly answer: QuickAnswer = { plugs: 0, marginMm: 0, allowed: false };
  private readonly stepMm: number;

  constructor(
    private readonly search: PlaceSearch,
    private readonly middleMm: number,
  ) {
    this.judge = new QuickJudge(search.pattern, search);
    this.stepMm = search.stepMm ?? STEP_MM;
  }

  /** @param onlyBetter drop every pose that cannot become the best */
  tryPoses(sides: readonly number[], yaws: readonly number[], onlyBetter: boolean): void {
    const { saddles } = this.search;
    const { targetsMm, fromMm, toMm, acrossMm } = saddles;
    for (const yawDegrees of yaws) {
      const yaw = yawDegrees * RADIANS_PER_DEGREE;
      const cos = Math.cos(yaw);
      const sin = Math.sin(yaw);
      const places = placeGrid(this.search, yawDegrees);
      const even = { firstMm: places[0] ?? 0, stepMm: this.stepMm, count: places.length };
      const spares = places.map((place) => leastSaddleSpareTurnedMm(place, yaw, targetsMm, fromMm, toMm, acrossMm));
      const fewest = new Int32Array(places.length + 1);
      const carriedMm = (this.search.turnsAboutMm ?? 0) * sin;
      for (const offLineMm of sides) {
        const sideMm = offLineMm - carriedMm;
        this.tried += places.length;
        if (onlyBetter) this.judge.fewestPlugs(even, sideMm, cos, sin, fewest);
        for (let n = 0; n < places.length; n++) {
          const most = onlyBetter ? this.mostUseful() : Number.POSITIVE_INFINITY;
          if ((fewest[n] as number) > most) continue;
          const placeMm = places[n] as number;
          this.judge.judge(placeMm, sideMm, cos, sin, most, this.answer);
          if (this.answer.allowed) this.weigh({ placeMm, sideMm, yawDegrees }, offLineMm === 0, spares[n] as number);
        }
      }
    }
  }

  /** Off the line a pose must save a plug against one on it. */
  private mostUseful(): number {
    if (this.best === undefined) return Number.POSITIVE_INFINITY;
    return this.best.onLine ? this.best.plugs - 1 : this.best.plugs;
  }

  private weigh(pose: Pose, middleOnLine: boolean, saddleSpareMm: number): void {
    const { search, answer } = this;
    const { placeMm } = pose;
    const onLine = middleOnLine && (pose.yawDegrees === 0 || search.yawIsFree === true);
    const marginMm = Math.min(answer.marginMm, saddleSpareMm - search.reserveMm);
    const kind = answer.plugs * PLACES_PER_KIND + Math.round(placeMm / this.stepMm);
    const rival = this.bestByKind.get(kind);
    // Most poses are worse than one seen at the same place: nothing is made of them.
    if (rival?.onLine && !onLine) return;
    if (rival && rival.onLine === onLine && marginMm < rival.marginMm - ALIKE_MM) return;
    const candidate: Candidate = {
      pose,
      plugs: answer.plugs,
      marginMm,
      leastWallMm: answer.marginMm + search.limits.wallMm,
      saddleSpareMm,
      onLine,
    };
    if (rival === undefined || this.beats(candidate, rival)) this.bestByKind.set(kind, candidate);
    if (this.best === undefined || this.beats(candidate, this.best)) this.best = candidate;
  }

  /** The probability is asked for only where everything before it is alike. */
  private beats(a: Candidate, b: Candidate): boolean {
    const alike = a.plugs === b.plugs && a.onLine === b.onLine && Math.abs(a.marginMm - b.marginMm) <= ALIKE_MM;
    return alike
      ? isBetter(this.withProbability(a), this.withProbability(b), this.middleMm)
      : isBetter(a, b, this.middleMm);
  }

  withProbability(candidate: Candidate): Candidate {
    const { probability } = this.search;
    if (probability === undefined || candidate.probability !== undefined) return candidate;
    return { ...candidate, probability: probability(candidate.pose) };
  }

  runnerUp(chosen: Candidate): Candidate | undefined {
    let second: Candidate | undefined;
    for (const candidate of this.bestByKind.values()) {
      const differs =
        candidate.plugs !== chosen.plugs ||
        Math.abs(candidate.pose.placeMm - chosen.pose.placeMm) >= CLEARLY_APART_MM - ALIKE_MM;
      if (differs && (second === undefined || isBetter(candidate, second, this.middleMm))) second = candidate;
    }
    return second && this.withProbability(second);
  }
}

/** Numbers a person can mark between two bounds; the middle if there is none. */
function grid(fromMm: number, toMm: number, stepMm: number): number[] {
  if (!(toMm >= fromMm)) return [];
  const first = Math.ceil(fromMm / stepMm - ALIKE_MM);
  const last = Math.floor(toMm / stepMm + ALIKE_MM);
  if (last < first) return [(fromMm + toMm) / 2];
  const places: number[] = [];
  for (let n = first; n <= last; n++) places.push(Number((n * stepMm).toFixed(6)));
  return places;
}

function placeGrid(search: PlaceSearch, yawDegrees: number): number[] {
  const { minMm, maxMm } = windowAtYaw({ ...search.saddles, reserveMm: search.reserveMm, yawDegrees });
  const fromMm = Math.max(minMm, search.place?.fromMm ?? Number.NEGATIVE_INFINITY);
  const toMm = Math.min(maxMm, search.place?.toMm ?? Number.POSITIVE_INFINITY);
  // A grid point that rounding puts a hair outside the window would fail the direct check.
  return grid(fromMm, toMm, search.stepMm ?? STEP_MM).filter(
    (place) => place >= fromMm - ROUNDING_MM && place <= toMm + ROUNDING_MM,
  );
}

function sideGrid(search: PlaceSearch): number[] {
  const fromMm = search.side?.fromMm ?? 0;
  const toMm = search.side?.toMm ?? 0;
  requireFinite(fromMm, "side.fromMm", "mm", "Give how far the part may stand off the centre line");
  requireFinite(toMm, "side.toMm", "mm", "Give how far the part may stand off the centre line");
  if (toMm < fromMm)
    throw new InputError("side.toMm", `must not be below side.fromMm, got ${toMm} below ${fromMm}`, "Swap the two");
  return nearestFirst(grid(fromMm, toMm, search.stepMm ?? STEP_MM));
}

function yawGrid(search: PlaceSearch): number[] {
  const limit = search.yawLimitDegrees ?? 0;
  requireFinite(limit, "yawLimitDegrees", "°", "Give how far the part may be turned");
  const reach = Math.max(1, ...search.pattern.map((hole) => Math.hypot(hole.pMm, hole.qMm) + newDiameterMm(hole) / 2));
  const step = (search.stepMm ?? STEP_MM) / reach / RADIANS_PER_DEGREE;
  const steps = Math.floor(Math.abs(limit) / step + ALIKE_MM);
  return nearestFirst(Array.from({ length: 2 * steps + 1 }, (_, n) => (n - steps) * step));
}

/** Small departures first: the best is found early and the rest is dropped sooner. */
function nearestFirst(values: readonly number[]): number[] {
  return [...values].sort((a, b) => Math.abs(a) - Math.abs(b));
}

function whyPhrase(window: PlateWindow, chosen: Candidate | undefined, runnerUp: Candidate | undefined): Phrase {
  if (chosen === undefined) {
    return window.widthMm < 0
      ? say`no place lets every saddle reach its setback: the window is empty by ${mm(-window.widthMm)}`
      : say`at every place of the window a new hole or a plug comes too near something that cannot be moved`;
  }
  const tight = chosen.leastWallMm === Number.POSITIVE_INFINITY ? say`` : say`, least wall ${mm(chosen.leastWallMm)}`;
  const off = chosen.onLine
    ? say``
    : say`, ${mm(chosen.pose.sideMm, 1)} to the side and turned ${figure(chosen.pose.yawDegrees, "°", 2)}`;
  const first = say`${plugWords(chosen.plugs)} at ${mm(chosen.pose.placeMm, 1)}${off}${tight}, least saddle travel left ${mm(chosen.saddleSpareMm)}`;
  if (runnerUp === undefined) return first;
  return say`${first}; next best ${mm(runnerUp.pose.placeMm, 1)} with ${plugWords(runnerUp.plugs)}`;
}

function plugWords(plugs: number): string {
  return plugs === 0 ? "no plug" : plugs === 1 ? "1 plug" : `${plugs} plugs`;
}
