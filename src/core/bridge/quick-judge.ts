/**
 * The judgement of `judgeHoles` for one pattern at many poses: only the number of plugs, the margin and whether there
 * is a conflict, from arrays made once. A test holds the two to the same answer.
 */
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
}

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
  const radii = pattern.map((hole) => newDiameterMm(hole) / 2);
  const solids = pattern.map((hole) => movable(hole));
  const between = leastOwnWall(solids);
  /** 1: this old hole is to be plugged. Wiped at the start of every pose. */
  const mark = new Uint8Array(old.length);

  /** Marks the old holes to be plugged; returns the least wall that must hold, or NaN for a conflict. */
  const meetOld = (mostPlugs: number, answer: QuickAnswer): number => {
    let least = Number.POSITIVE_INFINITY;
    for (let j = 0; j < old.length; j++) {
      const there = old[j] as OldState;
      let leastClear = Number.POSITIVE_INFINITY;
      for (let k = 0; k < solids.length; k++) {
        const hole = pattern[k] as PatternHole;
        const solid = solids[k] as Movable;
        const apart = Math.sqrt((solid.u - there.u) ** 2 + (solid.y - there.y) ** 2);
        const wall = apart - (radii[k] as number) - there.radius;
        const screw = hole.purpose === "screw";
        if (there.plugged) {
          if (!screw) least = Math.min(least, wall);
          if (wall < need && (!screw || !there.soundPlug)) return Number.NaN;
        } else if (wall < need) {
          if (apart <= REUSE_CHECK_MM && isReused(hole, 2 * there.radius, apart, limits)) continue;
          if (!screw || Number.isNaN(there.plugRadius)) return Number.NaN;
          if (mark[j] === 0) {
            mark[j] = 1;
            answer.plugs++;
            if (answer.plugs > mostPlugs) return Number.NaN;
          }
        } else {
          leastClear = Math.min(leastClear, wall);
        }
      }
      if (mark[j] === 0) least = Math.min(least, leastClear);
    }
    return least;
  };

  const keepPlugsApart = (leastSoFar: number): number => {
    let least = leastSoFar;
    for (let j = 0; j < old.length; j++) {
      if (mark[j] === 0) continue;
      const plug = old[j] as OldState;
      least = Math.min(least, plug.plugToObstacle);
      for (let m = 0; m < old.length; m++) {
        if (m === j) continue;
        const other = old[m] as OldState;
        const reach = mark[m] === 1 ? other.plugRadius : other.radius;
        least = Math.min(least, Math.sqrt((plug.u - other.u) ** 2 + (plug.y - other.y) ** 2) - plug.plugRadius - reach);
      }
      for (let k = 0; k < solids.length; k++) {
        if ((pattern[k] as PatternHole).purpose === "screw") continue;
        const solid = solids[k] as Movable;
        const apart = Math.sqrt((solid.u - plug.u) ** 2 + (solid.y - plug.y) ** 2);
        least = Math.min(least, apart - (radii[k] as number) - plug.plugRadius);
      }
    }
    return least;
  };

  return {
    judge(placeMm, sideMm, cos, sin, mostPlugs, answer) {
      answer.plugs = 0;
      answer.allowed = false;
      answer.marginMm = Number.NEGATIVE_INFINITY;
      mark.fill(0);
      for (let k = 0; k < solids.length; k++) {
        const { pMm, qMm } = pattern[k] as PatternHole;
        const solid = solids[k] as Movable;
        solid.u = placeMm + pMm * cos - qMm * sin;
        solid.y = sideMm + qMm * cos + pMm * sin;
      }
      let least = meetOld(mostPlugs, answer);
      if (Number.isNaN(least)) return;
      least = Math.min(keepPlugsApart(least), between);
      for (const solid of solids) for (const obstacle of obstacles) least = Math.min(least, wallMm(solid, obstacle));
      answer.marginMm = least - need;
      answer.allowed = least >= need;
    },
  };
}

/** No limit for reuse is larger than this; it only spares the call. */
const REUSE_CHECK_MM = 5;

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
