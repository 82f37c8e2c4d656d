/**
 * How likely is it that the pieces of a bridge, drilled at their places, keep every saddle's reserve and every wall?
 *
 * One shift for the scale line on the body, one for each piece as it ends up fixed (along and across alike, by the way
 * of drilling), one setback error a string, the old holes' own doubt; the scale line's doubt does not enter the walls,
 * because old and new holes are marked from the same place on the body.
 * Left out: doubt of where routs and wire channels lie.
 */
import { type Column, holesAtPose, newHoleSolid, type PatternHole, type Pose, type Solid, wallMm } from "../bridge/index.ts";
import { DRILLING_U_MM, type DrillMethod, type Hole } from "../job/index.ts";
import type { Numbers, Problem } from "../ledger/index.ts";
import type { Known, Quantity } from "../quantity/index.ts";
import type { SaddleCase } from "./bridge-model.ts";

export interface WallCase {
  readonly hole: PatternHole;
  readonly old: Hole;
}

/** A new hole near something that cannot be plugged. */
export interface ObstacleCase {
  readonly hole: PatternHole;
  readonly obstacle: Solid;
}

export interface ChanceCase {
  readonly saddles: readonly SaddleCase[];
  readonly pose: Pose;
  readonly reserveMm: number;
  readonly walls: readonly WallCase[];
  readonly obstacles: readonly ObstacleCase[];
  readonly wallMm: number;
  /** Standard uncertainty of where the piece ends up, along and across. */
  readonly drillingUMm: number;
  readonly drillingWords: string;
}

/** The least margin of all pieces at their places as a problem for the ledger. */
export function placeProblem(cases: readonly ChanceCase[]): Problem {
  const leaves: Record<string, Quantity> = {};
  const formulas = cases.map((given, index) => pieceFormula(given, leaves, cases.length > 1 ? `${index + 1}.` : ""));
  return {
    leaves,
    unit: "mm",
    margin: (x) => {
      let least = Number.POSITIVE_INFINITY;
      for (const formula of formulas) least = Math.min(least, formula(x));
      return least;
    },
    execution: Object.keys(leaves).filter((name) => /(^|\.)(along|across)$/.test(name)),
  };
}

/** Adds the piece's leaves, their names led by `prefix`, and gives its margin over them. */
function pieceFormula(given: ChanceCase, leaves: Record<string, Quantity>, prefix: string): (x: Numbers) => number {
  const { saddles, pose, walls, reserveMm, wallMm: need } = given;
  const along = `${prefix}along`;
  const across = `${prefix}across`;
  leaves[along] = execution(along, "along", given);
  leaves[across] = execution(across, "across", given);
  const runs = saddles.map((saddle, index) => {
    const [end, setback, from, to] = ["end", "setback", "from", "to"].map((name) => `${prefix}${name}${index}`) as [string, string, string, string];
    Object.assign(leaves, { [end]: saddle.end, [setback]: saddle.setback, [from]: saddle.from, [to]: saddle.to });
    return { end, setback, from, to, q: saddle.q.value };
  });
  const pairs = walls.map(({ hole, old }, index) => {
    const [u, y, diameter] = ["oldU", "oldY", "oldD"].map((name) => `${prefix}${name}${index}`) as [string, string, string];
    Object.assign(leaves, { [u]: old.at.u, [y]: old.at.y, [diameter]: old.diameter });
    return { u, y, diameter, hole, radius: Math.max(hole.pilotMm, hole.threadMm) / 2 };
  });
  const near = given.obstacles.map(({ hole, obstacle }) => ({ hole, obstacle, solid: movable(hole) }));
  const yaw = (pose.yawDegrees * Math.PI) / 180;
  const cos = Math.cos(yaw);
  const sin = Math.sin(yaw);
  return (x) => {
    const place = pose.placeMm + (x[along] as number);
    const side = pose.sideMm + (x[across] as number);
    let least = Number.POSITIVE_INFINITY;
    for (const run of runs) {
      const p = ((x[run.end] as number) + (x[run.setback] as number) - place + run.q * sin) / cos;
      const front = p - (x[run.from] as number) - reserveMm;
      const rear = (x[run.to] as number) - reserveMm - p;
      if (front < least) least = front;
      if (rear < least) least = rear;
    }
    for (const { u, y, diameter, hole, radius } of pairs) {
      const du = place + hole.pMm * cos - hole.qMm * sin - (x[u] as number);
      const dy = side + hole.qMm * cos + hole.pMm * sin - (x[y] as number);
      const wall = Math.sqrt(du * du + dy * dy) - radius - (x[diameter] as number) / 2 - need;
      if (wall < least) least = wall;
    }
    for (const { hole, obstacle, solid } of near) {
      solid.u = place + hole.pMm * cos - hole.qMm * sin;
      solid.y = side + hole.qMm * cos + hole.pMm * sin;
      const wall = wallMm(solid, obstacle) - need;
      if (wall < least) least = wall;
    }
    return least;
  };
}

/** One solid moved about, so that a draw makes nothing new. */
function movable(hole: PatternHole): { -readonly [Key in keyof Column]: Column[Key] } {
  const [there] = holesAtPose([hole], { placeMm: 0, sideMm: 0, yawDegrees: 0 });
  // One hole in, one hole out.
  return { ...newHoleSolid(there as NonNullable<typeof there>) };
}

/** Errors of one piece carry its name: two pieces do not share them. */
function execution(name: string, direction: string, { drillingUMm: u, drillingWords: words }: ChanceCase): Known {
  const path = `settings.drilling.${direction}`;
  const doubt = u === 0 ? [] : [{ id: `settings.drilling.${name}`, u, shape: "normal" as const, what: `how the ${words} runs, ${direction}` }];
  return { known: true, path, kind: "length", value: 0, origin: "assumed", said: "", doubt };
}

export const DRILL_METHODS: readonly DrillMethod[] = ["hand drill", "drill press", "self-centring bit through the plate"];

export function drillingU(method: DrillMethod): number {
  return DRILLING_U_MM[method];
}
