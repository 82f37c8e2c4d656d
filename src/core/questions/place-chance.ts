/**
 * How likely is it that the pieces of a bridge, drilled at their places, keep every saddle's reserve and every wall?
 *
 * One shift for the scale line on the body, one for each piece as it ends up fixed (along and across alike, by the way
 * of drilling), one setback error a string, the old holes' own doubt; the scale line's doubt does not enter the walls,
 * because old and new holes are marked from the same place on the body.
 * Left out: doubt of where routs and wire channels lie.
 */
import {
  type Column,
  holesAtPose,
  newHoleSolid,
  type PatternHole,
  type Pose,
  type Solid,
  wallMm,
} from "../bridge/index.ts";
import { DRILLING_U_MM, type DrillMethod, type Hole } from "../job/index.ts";
import { type JointProblem, jointly, type Numbers, type Problem } from "../ledger/index.ts";
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

type Formula = (x: Numbers) => number;

/** Every saddle end and every wall of all pieces at their places, as one problem for the ledger: the least decides. */
export function placeProblem(cases: readonly ChanceCase[]): Problem & JointProblem {
  const leaves: Record<string, Quantity> = {};
  const margins: Record<string, Formula> = {};
  cases.forEach((given, index) => {
    addPiece(given, leaves, margins, cases.length > 1 ? `${index + 1}.` : "");
  });
  const execution = Object.keys(leaves).filter((name) => /(^|\.)(along|across)$/.test(name));
  return jointly({ leaves, unit: "mm", margins, execution });
}

/** Adds the piece's leaves and margins, their names led by `prefix`. */
function addPiece(
  given: ChanceCase,
  leaves: Record<string, Quantity>,
  margins: Record<string, Formula>,
  prefix: string,
): void {
  const { saddles, pose, walls, reserveMm, wallMm: need } = given;
  const along = `${prefix}along`;
  const across = `${prefix}across`;
  leaves[along] = execution(along, "along", given);
  leaves[across] = execution(across, "across", given);
  const yaw = (pose.yawDegrees * Math.PI) / 180;
  const cos = Math.cos(yaw);
  const sin = Math.sin(yaw);
  saddles.forEach((saddle, index) => {
    const [end, setback, from, to] = ["end", "setback", "from", "to"].map((name) => `${prefix}${name}${index}`) as [
      string,
      string,
      string,
      string,
    ];
    Object.assign(leaves, { [end]: saddle.end, [setback]: saddle.setback, [from]: saddle.from, [to]: saddle.to });
    const askew = saddle.q.value * sin;
    const contact = (x: Numbers) =>
      ((x[end] as number) + (x[setback] as number) - pose.placeMm - (x[along] as number) + askew) / cos;
    margins[`${prefix}front${index}`] = (x) => contact(x) - (x[from] as number) - reserveMm;
    margins[`${prefix}rear${index}`] = (x) => (x[to] as number) - reserveMm - contact(x);
  });
  walls.forEach(({ hole, old }, index) => {
    const [u, y, diameter] = ["oldU", "oldY", "oldD"].map((name) => `${prefix}${name}${index}`) as [
      string,
      string,
      string,
    ];
    Object.assign(leaves, { [u]: old.at.u, [y]: old.at.y, [diameter]: old.diameter });
    const holeU = pose.placeMm + hole.pMm * cos - hole.qMm * sin;
    const holeY = pose.sideMm + hole.qMm * cos + hole.pMm * sin;
    const wanted = Math.max(hole.pilotMm, hole.threadMm) / 2 + need;
    margins[`${prefix}wall${index}`] = (x) => {
      const du = holeU + (x[along] as number) - (x[u] as number);
      const dy = holeY + (x[across] as number) - (x[y] as number);
      return Math.sqrt(du * du + dy * dy) - (x[diameter] as number) / 2 - wanted;
    };
  });
  given.obstacles.forEach(({ hole, obstacle }, index) => {
    const solid = movable(hole);
    const holeU = pose.placeMm + hole.pMm * cos - hole.qMm * sin;
    const holeY = pose.sideMm + hole.qMm * cos + hole.pMm * sin;
    margins[`${prefix}near${index}`] = (x) => {
      solid.u = holeU + (x[along] as number);
      solid.y = holeY + (x[across] as number);
      return wallMm(solid, obstacle) - need;
    };
  });
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
  const doubt =
    u === 0
      ? []
      : [{ id: `settings.drilling.${name}`, u, shape: "normal" as const, what: `how the ${words} runs, ${direction}` }];
  return { known: true, path, kind: "length", value: 0, origin: "assumed", said: "", doubt };
}

export const DRILL_METHODS: readonly DrillMethod[] = [
  "hand drill",
  "drill press",
  "self-centring bit through the plate",
];

export function drillingU(method: DrillMethod): number {
  return DRILLING_U_MM[method];
}
