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

export class QuickJudge {
  private readonly need: number;
  private readonly old: readonly OldState[];
  private readonly solids: readonly Movable[];
  private readonly screwsOnly: boolean;
  /** Least wall between the pattern's own holes: the same at every pose. */
  private readonly ownWall: number;
  private readonly newU: Float64Array;
  private readonly newY: Float64Array;
  /** Both radii, and the square of the distance below which the wall is under its limit; old × new. */
  private readonly reach: Float64Array;
  private readonly nearSquare: Float64Array;
  /** 1: this old hole is to be plugged. Wiped at the start of every pose. */
  private readonly mark: Uint8Array;
  /** The old hole that ended the pose before: likely to end the next one too, so it is asked first. */
  private askFirst = 0;
  /** Stretches of places that one old hole blocks, as indexes, first and last in turn. */
  private readonly stretches: number[] = [];

  constructor(
    private readonly pattern: readonly PatternHole[],
    private readonly scene: HoleScene,
  ) {
    this.need = scene.limits.wallMm;
    this.old = scene.oldHoles.map((hole) => oldState(hole, scene));
    this.solids = pattern.map((hole) => movable(hole));
    this.screwsOnly = pattern.every((hole) => hole.purpose === "screw");
    this.ownWall = leastOwnWall(this.solids);
    this.newU = new Float64Array(pattern.length);
    this.newY = new Float64Array(pattern.length);
    this.reach = Float64Array.from(
      this.old.flatMap((hole) => this.solids.map((solid) => hole.radius + solid.radiusMm)),
    );
    this.nearSquare = this.reach.map((both) => Math.max(0, both + this.need - ROUNDING_MM) ** 2);
    this.mark = new Uint8Array(this.old.length);
  }

  /**
   * Judges one pose into `answer`. Stops early, with `allowed` false, at the first conflict or once more than
   * `mostPlugs` are needed.
   */
  judge(placeMm: number, sideMm: number, cos: number, sin: number, mostPlugs: number, answer: QuickAnswer): void {
    answer.plugs = 0;
    answer.allowed = false;
    answer.marginMm = Number.NEGATIVE_INFINITY;
    this.mark.fill(0);
    this.placeHoles(placeMm, sideMm, cos, sin);
    if (!this.marksPlugs(mostPlugs, answer)) return;
    const least = Math.min(this.leastClear(), this.leastOfPlugs(), this.ownWall, this.leastToObstacles());
    answer.marginMm = least - this.need;
    answer.allowed = answer.marginMm >= -ROUNDING_MM;
  }

  /**
   * Least number of plugs at evenly spaced places of one side and yaw, CONFLICT or more where a plug would not do: a
   * bound from the stretches of u that each pair of holes blocks. No pose needs fewer; it may need more or be refused.
   *
   * @param fewest one longer than the places
   */
  fewestPlugs(places: EvenPlaces, sideMm: number, cos: number, sin: number, fewest: Int32Array): void {
    fewest.fill(0, 0, places.count + 1);
    this.placeHoles(0, sideMm, cos, sin);
    for (let j = 0; j < this.old.length; j++) {
      const there = this.old[j] as OldState;
      this.findStretches(j, places, false);
      addStretches(this.stretches, CONFLICT, fewest);
      if (there.plugged && there.soundPlug) continue;
      this.findStretches(j, places, true);
      addStretches(this.stretches, there.plugged || Number.isNaN(there.plugRadius) ? CONFLICT : 1, fewest);
    }
    for (let n = 1; n < places.count; n++) fewest[n] = (fewest[n] as number) + (fewest[n - 1] as number);
  }

  private placeHoles(placeMm: number, sideMm: number, cos: number, sin: number): void {
    const { pattern, newU, newY } = this;
    for (let k = 0; k < pattern.length; k++) {
      const { pMm, qMm } = pattern[k] as PatternHole;
      newU[k] = placeMm + pMm * cos - qMm * sin;
      newY[k] = sideMm + qMm * cos + pMm * sin;
    }
  }

  private squareApart(there: OldState, k: number): number {
    const du = (this.newU[k] as number) - there.u;
    const dy = (this.newY[k] as number) - there.y;
    return du * du + dy * dy;
  }

  /** Marks the old holes to be plugged. False at the first conflict or when more than `mostPlugs` are needed. */
  private marksPlugs(mostPlugs: number, answer: QuickAnswer): boolean {
    const { old, pattern, mark, nearSquare } = this;
    for (let n = 0; n < old.length; n++) {
      const j = (this.askFirst + n) % old.length;
      const there = old[j] as OldState;
      for (let k = 0; k < pattern.length; k++) {
        const square = this.squareApart(there, k);
        if (square >= (nearSquare[j * pattern.length + k] as number)) continue;
        if (this.isConflict(j, k, square)) {
          this.askFirst = j;
          return false;
        }
        if (this.screwsOnly && mark[j] === 1) break;
      }
      answer.plugs += mark[j] as number;
      if (answer.plugs > mostPlugs) {
        this.askFirst = j;
        return false;
      }
    }
    return true;
  }

  /** What a new hole near an old one means: true if it is a conflict. Marks the old hole if it is to be plugged. */
  private isConflict(j: number, k: number, square: number): boolean {
    const there = this.old[j] as OldState;
    const hole = this.pattern[k] as PatternHole;
    const screw = hole.purpose === "screw";
    if (there.plugged) return !screw || !there.soundPlug;
    if (isReused(hole, 2 * there.radius, Math.sqrt(square), this.scene.limits)) return false;
    if (!screw || Number.isNaN(there.plugRadius)) return true;
    this.mark[j] = 1;
    return false;
  }

  /** Least wall to the old holes that stay as they are; a hole used again has none. */
  private leastClear(): number {
    const { old, pattern, mark, nearSquare, reach } = this;
    let least = Number.POSITIVE_INFINITY;
    for (let j = 0; j < old.length; j++) {
      if (mark[j] === 1) continue;
      const there = old[j] as OldState;
      for (let k = 0; k < pattern.length; k++) {
        if (there.plugged && (pattern[k] as PatternHole).purpose === "screw") continue;
        const square = this.squareApart(there, k);
        if (square < (nearSquare[j * pattern.length + k] as number)) continue;
        least = Math.min(least, Math.sqrt(square) - (reach[j * pattern.length + k] as number));
      }
    }
    return least;
  }

  private leastOfPlugs(): number {
    const { old, pattern, mark, solids } = this;
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
        least = Math.min(least, Math.sqrt(this.squareApart(plug, k)) - radiusMm - plug.plugRadius);
      }
    }
    return least;
  }

  private leastToObstacles(): number {
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < this.solids.length; k++) {
      const solid = this.solids[k] as Movable;
      solid.u = this.newU[k] as number;
      solid.y = this.newY[k] as number;
      for (const obstacle of this.scene.obstacles) least = Math.min(least, wallMm(solid, obstacle));
    }
    return least;
  }

  private findStretches(j: number, { firstMm, stepMm, count }: EvenPlaces, screws: boolean): void {
    const { pattern, stretches, scene } = this;
    const there = this.old[j] as OldState;
    stretches.length = 0;
    for (let k = 0; k < pattern.length; k++) {
      const hole = pattern[k] as PatternHole;
      if ((hole.purpose === "screw") !== screws) continue;
      const dy = (this.newY[k] as number) - there.y;
      const over = (this.nearSquare[j * pattern.length + k] as number) - dy * dy;
      if (over <= 0) continue;
      // A hole that might be used again blocks nothing for certain.
      if (isReused(hole, 2 * there.radius, Math.abs(dy), scene.limits)) continue;
      const middle = (there.u - (this.newU[k] as number) - firstMm) / stepMm;
      const half = Math.sqrt(over) / stepMm - SAFE_STEPS;
      const from = Math.max(0, Math.ceil(middle - half));
      const to = Math.min(count - 1, Math.floor(middle + half));
      if (from <= to) stretches.push(from, to);
    }
  }
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
