/**
 * How likely is it that a piece of the bridge, drilled at a place, keeps every saddle's reserve and every wall?
 *
 * One shift for the scale line on the body, one for the piece as it ends up fixed (along and across alike, by the way
 * of drilling), one setback error a string, the old holes' own doubt; the scale line's doubt does not enter the walls,
 * because old and new holes are marked from the same place on the body.
 */
import { type PatternHole, type Pose } from "../bridge/index.ts";
import { DRILLING_U_MM, type DrillMethod, type Hole } from "../job/index.ts";
import { type Numbers, type Problem } from "../ledger/index.ts";
import type { Known, Quantity } from "../quantity/index.ts";
import type { SaddleCase } from "./bridge-model.ts";

export interface WallCase {
  readonly hole: PatternHole;
  readonly old: Hole;
}

export interface ChanceCase {
  readonly saddles: readonly SaddleCase[];
  readonly pose: Pose;
  readonly reserveMm: number;
  readonly walls: readonly WallCase[];
  readonly wallMm: number;
  /** Standard uncertainty of where the piece ends up, along and across. */
  readonly drillingUMm: number;
  readonly drillingWords: string;
}

/** The margin of one piece at one place as a problem for the ledger. */
export function placeProblem(given: ChanceCase): Problem {
  const { saddles, pose, walls } = given;
  const leaves: Record<string, Quantity> = {
    along: execution("along", given.drillingUMm, given.drillingWords),
    across: execution("across", given.drillingUMm, given.drillingWords),
  };
  const runs = saddles.map((saddle, index) => {
    const keys = { end: `end${index}`, setback: `setback${index}`, from: `from${index}`, to: `to${index}`, across: saddle.q.value };
    Object.assign(leaves, { [keys.end]: saddle.end, [keys.setback]: saddle.setback, [keys.from]: saddle.from, [keys.to]: saddle.to });
    return keys;
  });
  const pairs = walls.map(({ hole, old }, index) => {
    const keys = { u: `oldU${index}`, y: `oldY${index}`, diameter: `oldD${index}`, hole, radius: Math.max(hole.pilotMm, hole.threadMm) / 2 };
    Object.assign(leaves, { [keys.u]: old.at.u, [keys.y]: old.at.y, [keys.diameter]: old.diameter });
    return keys;
  });
  const yaw = (pose.yawDegrees * Math.PI) / 180;
  const cos = Math.cos(yaw);
  const sin = Math.sin(yaw);
  const { reserveMm, wallMm } = given;
  const margin = (x: Numbers): number => {
    const place = pose.placeMm + (x.along as number);
    const side = pose.sideMm + (x.across as number);
    let least = Number.POSITIVE_INFINITY;
    for (const run of runs) {
      const p = ((x[run.end] as number) + (x[run.setback] as number) - place + run.across * sin) / cos;
      const front = p - (x[run.from] as number) - reserveMm;
      const rear = (x[run.to] as number) - reserveMm - p;
      if (front < least) least = front;
      if (rear < least) least = rear;
    }
    for (const pair of pairs) {
      const du = place + pair.hole.pMm * cos - pair.hole.qMm * sin - (x[pair.u] as number);
      const dy = side + pair.hole.qMm * cos + pair.hole.pMm * sin - (x[pair.y] as number);
      const wall = Math.sqrt(du * du + dy * dy) - pair.radius - (x[pair.diameter] as number) / 2 - wallMm;
      if (wall < least) least = wall;
    }
    return least;
  };
  return { leaves, margin, unit: "mm", execution: ["along", "across"] };
}

function execution(direction: string, u: number, words: string): Known {
  const path = `settings.drilling.${direction}`;
  return { known: true, path, kind: "length", value: 0, origin: "assumed", said: "", doubt: u === 0 ? [] : [{ id: path, u, shape: "normal", what: `how the ${words} runs, ${direction}` }] };
}

export const DRILL_METHODS: readonly DrillMethod[] = ["hand drill", "drill press", "self-centring bit through the plate"];

export function drillingU(method: DrillMethod): number {
  return DRILLING_U_MM[method];
}
