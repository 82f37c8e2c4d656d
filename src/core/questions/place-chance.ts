/**
 * How likely is it that the pieces of a bridge, drilled at their places, keep every saddle's reserve and every wall?
 *
 * One shift for the scale line on the body, one for each piece as it ends up fixed (along and across alike, by the way
 * of drilling), one setback error a string, the doubt of the piece's own holes (a row's p is one error) and of the old
 * ones, and of where routs, wire channels and the tail edge lie; the scale line's doubt does not enter the walls, because
 * old and new holes are marked from the same place on the body.
 * Left out: doubt of how large and how far turned routs are.
 */
import {
  type Channel,
  type Column,
  holesAtPose,
  newHoleSolid,
  type PatternHole,
  type Pose,
  type Solid,
  wallMm,
} from "../bridge/index.ts";
import { DRILLING_U_MM, type DrillMethod, type Hole } from "../job/index.ts";
import { type JointProblem, jointly, type Numbers, over, type Places, type Problem } from "../ledger/index.ts";
import type { Known, Quantity } from "../quantity/index.ts";
import type { MadeHole, SaddleCase } from "./bridge-model.ts";

export interface WallCase {
  readonly hole: PatternHole;
  readonly made: MadeHole;
  readonly old: Hole;
}

/** A new hole near something that cannot be plugged. */
export interface ObstacleCase {
  readonly hole: PatternHole;
  readonly made: MadeHole;
  readonly obstacle: Solid;
  /** Where it lies, as read: u and y, of both ends for a channel; u alone for the tail edge. */
  readonly places: readonly Known[];
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
    const contact = (x: Float64Array, at: Places<"end" | "setback" | "along">) =>
      ((x[at.end] as number) + (x[at.setback] as number) - pose.placeMm - (x[at.along] as number) + askew) / cos;
    const reads = { end, setback, along };
    margins[`${prefix}front${index}`] = over(
      { ...reads, from },
      (x, at) => contact(x, at) - (x[at.from] as number) - reserveMm,
    );
    margins[`${prefix}rear${index}`] = over(
      { ...reads, to },
      (x, at) => (x[at.to] as number) - reserveMm - contact(x, at),
    );
  });
  walls.forEach(({ made, old }, index) => {
    const [u, y, diameter] = ["oldU", "oldY", "oldD"].map((name) => `${prefix}${name}${index}`) as [
      string,
      string,
      string,
    ];
    Object.assign(leaves, { [u]: old.at.u, [y]: old.at.y, [diameter]: old.diameter });
    const reads = { ...madeLeaves(made, leaves), along, across, u, y, diameter };
    margins[`${prefix}wall${index}`] = over(reads, (x, at) => {
      const pMm = x[at.p] as number;
      const qMm = x[at.q] as number;
      const du = pose.placeMm + pMm * cos - qMm * sin + (x[at.along] as number) - (x[at.u] as number);
      const dy = pose.sideMm + qMm * cos + pMm * sin + (x[at.across] as number) - (x[at.y] as number);
      return Math.sqrt(du * du + dy * dy) - ((x[at.diameter] as number) + (x[at.size] as number)) / 2 - need;
    });
  });
  given.obstacles.forEach(({ hole, made, obstacle, places }, index) => {
    const solid = movable(hole);
    const there = movableObstacle(obstacle);
    const [first = "", second = "", third = "", fourth = ""] = places.map((place) => shared(place, leaves));
    const reads = { ...madeLeaves(made, leaves), along, across, first, second, third, fourth };
    margins[`${prefix}near${index}`] = over(reads, (x, at) => {
      const pMm = x[at.p] as number;
      const qMm = x[at.q] as number;
      solid.u = pose.placeMm + pMm * cos - qMm * sin + (x[at.along] as number);
      solid.y = pose.sideMm + qMm * cos + pMm * sin + (x[at.across] as number);
      solid.radiusMm = (x[at.size] as number) / 2;
      moveTo(there, x, at);
      // A round hole and a straight edge: plain arithmetic.
      if (there.kind === "tail line") return there.uMm - solid.u - solid.radiusMm - need;
      return wallMm(solid, there) - need;
    });
  });
}

/** A value that several holes or pieces share is one leaf, named by its path. */
function shared(quantity: Known, leaves: Record<string, Quantity>): string {
  leaves[quantity.path] = quantity;
  return quantity.path;
}

function madeLeaves({ p, q, size }: MadeHole, leaves: Record<string, Quantity>) {
  return { p: shared(p, leaves), q: shared(q, leaves), size: shared(size, leaves) };
}

type Movable<T> = { -readonly [Key in keyof T]: T[Key] };

/** One solid moved about, so that a draw makes nothing new. */
function movable(hole: PatternHole): Movable<Column> {
  const [there] = holesAtPose([hole], { placeMm: 0, sideMm: 0, yawDegrees: 0 });
  // One hole in, one hole out.
  return { ...newHoleSolid(there as NonNullable<typeof there>) };
}

type MovableObstacle =
  | Movable<Column>
  | (Omit<Channel, "from" | "to"> & { readonly from: [number, number, number]; readonly to: [number, number, number] })
  | Movable<Extract<Solid, { readonly kind: "tail line" }>>
  | Extract<Solid, { readonly kind: "outline" }>;

function movableObstacle(obstacle: Solid): MovableObstacle {
  return obstacle.kind === "channel"
    ? { ...obstacle, from: [...obstacle.from], to: [...obstacle.to] }
    : { ...obstacle };
}

function moveTo(there: MovableObstacle, x: Float64Array, at: Places<"first" | "second" | "third" | "fourth">): void {
  if (there.kind === "column") {
    there.u = x[at.first] as number;
    there.y = x[at.second] as number;
  } else if (there.kind === "channel") {
    there.from[0] = x[at.first] as number;
    there.from[1] = x[at.second] as number;
    there.to[0] = x[at.third] as number;
    there.to[1] = x[at.fourth] as number;
  } else if (there.kind === "tail line") there.uMm = x[at.first] as number;
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
