/**
 * The judgement of `judgeHoles` for one pattern at many poses: only the number of plugs, the margin and whether there
 * is a conflict, from arrays made once. A test holds the two to the same answer.
 */
import { ROUNDING_MM } from "./frame.ts";
import type { HoleScene, PatternHole } from "./holes.ts";
import { isReused, newDiameterMm, plugForMm } from "./holes.ts";
import { plugSolid } from "./judge.ts";
import { type Column, wallMm } from "./solids.ts";

export interface QuickAnswer {
  plugs: number;
  /** Least wall that must hold, less the limit; Infinity if there is none. */
  marginMm: number;
  allowed: boolean;
}

export interface QuickJudge {
  /**
   * Judges one pose into `answer`. Stops early, with `allowed` false, at the first conflict or once more than
   * `mostPlugs` are needed.
   */
  judge(placeMm: number, sideMm: number, cos: number, sin: number, mostPlugs: number, answer: QuickAnswer): void;
  /**
   * Least number of plugs at evenly spaced places of one side and yaw, or CONFLICT where a plug would not do: a bound
   * from the stretches of u that each pair of holes blocks. A pose may need no fewer, but may still be refused.
   */
  fewestPlugs(places: EvenPlaces, sideMm: number, cos: number, sin: number, fewest: Int32Array): void;
}

export interface EvenPlaces {
  readonly firstMm: number;
  readonly stepMm: number;
  readonly count: number;
}

export const CONFLICT = 1000;

interface OldState {
  readonly u: number;
  readonly y: number;
  /** Of the hole, or of the plug that is there already. */
  readonly radius: number;
  /** Of the plug it would take; NaN if there is none of the size. */
  readonly plugRadius: number;
  readonly plugged: boolean;
  readonly soundPlug: boolean;
  /** Least wall from its plug to anything that cannot be plugged. */
  readonly plugToObstacle: number;
}

export function quickJudge(pattern: readonly PatternHole[], scene: HoleScene): QuickJudge {
  const { limits, obstacles } = scene;
  const need = limits.wallMm;
  const old = scene.oldHoles.map((hole) => oldState(hole, scene));
  const solids = pattern.map((hole) => movable(hole));
  const screwsOnly = pattern.every((hole) => hole.purpose === "screw");
  const between = leastOwnWall(solids);
  const oldU = Float64Array.from(old, (hole) => hole.u);
  const oldY = Float64Array.from(old, (hole) => hole.y);
  const newU = new Float64Array(pattern.length);
  const newY = new Float64Array(pattern.length);
  /** Both radii, and the square of the distance below which the wall is under its limit; old × new. */
  const reach = Float64Array.from(old.flatMap((hole) => solids.map((solid) => hole.radius + solid.radiusMm)));
  const nearSquare = reach.map((both) => Math.max(0, both + need - ROUNDING_MM) ** 2);
  /** 1: this old hole is to be plugged. Wiped at the start of every pose. */
  const mark = new Uint8Array(old.length);
  /** The old hole that ended the pose before: likely to end the next one too, so it is asked first. */
  let askFirst = 0;

  const squareApart = (j: number, k: number): number => {
    const du = (newU[k] as number) - (oldU[j] as number);
    const dy = (newY[k] as number) - (oldY[j] as number);
    return du * du + dy * dy;
  };

  /** What a new hole near an old one means: true if it is a conflict. Marks the old hole if it is to be plugged. */
  const isConflict = (j: number, k: number, square: number): boolean => {
    const there = old[j] as OldState;
    const hole = pattern[k] as PatternHole;
    const screw = hole.purpose === "screw";
    if (there.plugged) return !screw || !there.soundPlug;
    if (isReused(hole, 2 * there.radius, Math.sqrt(square), limits)) return false;
    if (!screw || Number.isNaN(there.plugRadius)) return true;
    mark[j] = 1;
    return false;
  };

  /** Marks the old holes to be plugged. False at the first conflict or when more than `mostPlugs` are needed. */
  const marksPlugs = (mostPlugs: number, answer: QuickAnswer): boolean => {
    for (let n = 0; n < old.length; n++) {
      const j = (askFirst + n) % old.length;
      for (let k = 0; k < pattern.length; k++) {
        const square = squareApart(j, k);
        if (square >= (nearSquare[j * pattern.length + k] as number)) continue;
        if (isConflict(j, k, square)) {
          askFirst = j;
          return false;
        }
        if (screwsOnly && mark[j] === 1) break;
      }
      answer.plugs += mark[j] as number;
      if (answer.plugs > mostPlugs) {
        askFirst = j;
        return false;
      }
    }
    return true;
  };

  /** Least wall to the old holes that stay as they are; a hole used again has none. */
  const leastClear = (): number => {
    let least = Number.POSITIVE_INFINITY;
    for (let j = 0; j < old.length; j++) {
      if (mark[j] === 1) continue;
      const { plugged } = old[j] as OldState;
      for (let k = 0; k < pattern.length; k++) {
        if (plugged && (pattern[k] as PatternHole).purpose === "screw") continue;
        const square = squareApart(j, k);
        if (square < (nearSquare[j * pattern.length + k] as number)) continue;
        least = Math.min(least, Math.sqrt(square) - (reach[j * pattern.length + k] as number));
      }
    }
    return least;
  };

  const leastOfPlugs = (): number => {
    let least = Number.POSITIVE_INFINITY;
    for (let j = 0; j < old.length; j++) {
      if (mark[j] === 0) continue;
      const plug = old[j] as OldState;
      least = Math.min(least, plug.plugToObstacle);
      for (let m = 0; m < old.length; m++) {
        if (m === j) continue;
        const other = old[m] as OldState;
        const radius = mark[m] === 1 ? other.plugRadius : other.radius;
        least = Math.min(least, Math.hypot(plug.u - other.u, plug.y - other.y) - plug.plugRadius - radius);
      }
      for (let k = 0; k < pattern.length; k++) {
        if ((pattern[k] as PatternHole).purpose === "screw") continue;
        const { radiusMm } = solids[k] as Movable;
        least = Math.min(least, Math.sqrt(squareApart(j, k)) - radiusMm - plug.plugRadius);
      }
    }
    return least;
  };

  const leastToObstacles = (): number => {
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < solids.length; k++) {
      const solid = solids[k] as Movable;
      solid.u = newU[k] as number;
      solid.y = newY[k] as number;
      for (const obstacle of obstacles) least = Math.min(least, wallMm(solid, obstacle));
    }
    return least;
  };

  const placeHoles = (placeMm: number, sideMm: number, cos: number, sin: number): void => {
    for (let k = 0; k < pattern.length; k++) {
      const { pMm, qMm } = pattern[k] as PatternHole;
      newU[k] = placeMm + pMm * cos - qMm * sin;
      newY[k] = sideMm + qMm * cos + pMm * sin;
    }
  };

  /** Stretches of u that one old hole blocks, as indexes of places, first and last in turn. */
  const stretches: number[] = [];
  const stretchesOf = (j: number, { firstMm, stepMm, count }: EvenPlaces, screws: boolean): void => {
    stretches.length = 0;
    for (let k = 0; k < pattern.length; k++) {
      const hole = pattern[k] as PatternHole;
      if ((hole.purpose === "screw") !== screws) continue;
      const dy = (newY[k] as number) - (oldY[j] as number);
      const over = (nearSquare[j * pattern.length + k] as number) - dy * dy;
      if (over <= 0) continue;
      // A hole that might be used again blocks nothing for certain.
      if (isReused(hole, 2 * (old[j] as OldState).radius, Math.abs(dy), limits)) continue;
      const middle = ((oldU[j] as number) - (newU[k] as number) - firstMm) / stepMm;
      const half = Math.sqrt(over) / stepMm - SAFE_STEPS;
      const from = Math.max(0, Math.ceil(middle - half));
      const to = Math.min(count - 1, Math.floor(middle + half));
      if (from <= to) stretches.push(from, to);
    }
  };

  return {
    judge(placeMm, sideMm, cos, sin, mostPlugs, answer) {
      answer.plugs = 0;
      answer.allowed = false;
      answer.marginMm = Number.NEGATIVE_INFINITY;
      mark.fill(0);
      placeHoles(placeMm, sideMm, cos, sin);
      if (!marksPlugs(mostPlugs, answer)) return;
      const least = Math.min(leastClear(), leastOfPlugs(), between, leastToObstacles());
      answer.marginMm = least - need;
      answer.allowed = answer.marginMm >= -ROUNDING_MM;
    },
    fewestPlugs(places, sideMm, cos, sin, fewest) {
      fewest.fill(0, 0, places.count + 1);
      placeHoles(0, sideMm, cos, sin);
      for (let j = 0; j < old.length; j++) {
        const there = old[j] as OldState;
        stretchesOf(j, places, false);
        addStretches(stretches, CONFLICT, fewest);
        if (there.plugged && there.soundPlug) continue;
        stretchesOf(j, places, true);
        addStretches(stretches, there.plugged || Number.isNaN(there.plugRadius) ? CONFLICT : 1, fewest);
      }
      for (let n = 1; n < places.count; n++) fewest[n] = (fewest[n] as number) + (fewest[n - 1] as number);
    },
  };
}

/** Keeps the bound on the safe side of rounding. */
const SAFE_STEPS = 1e-6;

/** Adds `by` once to every place that any of the stretches covers, as differences from place to place. */
function addStretches(stretches: number[], by: number, differences: Int32Array): void {
  let next = 0;
  let done = -1;
  while (next >= 0) {
    // Few stretches: the one that starts first beyond what is done is found by looking at all.
    next = -1;
    for (let i = 0; i < stretches.length; i += 2) {
      if ((stretches[i + 1] as number) > done && (next < 0 || (stretches[i] as number) < (stretches[next] as number)))
        next = i;
    }
    if (next < 0) return;
    const from = Math.max(done + 1, stretches[next] as number);
    done = stretches[next + 1] as number;
    differences[from] = (differences[from] as number) + by;
    differences[done + 1] = (differences[done + 1] as number) - by;
  }
}

type Movable = { -readonly [Key in keyof Column]: Column[Key] };

function movable(hole: PatternHole): Movable {
  const radiusMm = newDiameterMm(hole) / 2;
  const bottomZMm = hole.depthMm === "through" ? Number.NEGATIVE_INFINITY : -hole.depthMm;
  return {
    kind: "column",
    id: hole.id,
    u: hole.pMm,
    y: hole.qMm,
    cos: 1,
    sin: 0,
    halfU: 0,
    halfY: 0,
    radiusMm,
    topZMm: Number.POSITIVE_INFINITY,
    bottomZMm,
  };
}

function leastOwnWall(solids: readonly Movable[]): number {
  let least = Number.POSITIVE_INFINITY;
  solids.forEach((solid, k) => {
    for (const other of solids.slice(k + 1)) least = Math.min(least, wallMm(solid, other));
  });
  return least;
}

function oldState(hole: HoleScene["oldHoles"][number], scene: HoleScene): OldState {
  const plugMm = hole.plug ? undefined : plugForMm(hole.diameterMm, scene.limits);
  const solid =
    plugMm === undefined
      ? undefined
      : plugSolid({ oldId: hole.id, uMm: hole.uMm, yMm: hole.yMm, plugDiameterMm: plugMm, depthMm: hole.depthMm });
  return {
    u: hole.uMm,
    y: hole.yMm,
    radius: (hole.plug?.diameterMm ?? hole.diameterMm) / 2,
    plugRadius: plugMm === undefined ? Number.NaN : plugMm / 2,
    plugged: hole.plug !== undefined,
    soundPlug: hole.plug?.cured === true && hole.plug.matched,
    plugToObstacle: solid
      ? Math.min(Number.POSITIVE_INFINITY, ...scene.obstacles.map((obstacle) => wallMm(solid, obstacle)))
      : Number.POSITIVE_INFINITY,
  };
}
