/**
 * Which old holes a set of new ones needs plugged, and where plugs do not help.
 *
 * Rules (common practice, no published standard):
 *  - wood between a new hole and an open old one: at least the limit, else the old hole is plugged first;
 *  - a new screw may stand in a glued, cured, grain-matched plug, across its edge or beside it: the run-in is stated;
 *  - any other new hole keeps the limit from every plug, so a plug does not cure an old hole too near to it;
 *  - a plug keeps the limit from every other plug, open hole, rout, channel and the body's edge;
 *  - a new hole keeps the limit from everything that cannot be plugged, and from the other new holes.
 * New holes count with the larger of pilot and thread, old ones as they are, plugs with the plug's diameter.
 * Left out: run of the grain between plugs; the strength of the screw (the fit area's lead holes).
 */
import { ROUNDING_MM } from "./frame.ts";
import type { HoleScene, NewHole, OldHole } from "./holes.ts";
import { isReused, newDiameterMm, plugForMm, refuseNewHoles, refuseScene } from "./holes.ts";
import { type Column, drilledHole, type Solid, wallMm } from "./solids.ts";

export interface HoleWall {
  readonly newId: string;
  readonly otherId: string;
  /** As things stand now; negative is an overlap. */
  readonly wallMm: number;
}

export interface RunIn {
  readonly newId: string;
  /** How far the new hole reaches into the plug; 0 or less: it stands beside it. */
  readonly runInMm: number;
  /** The whole of the new hole lies in the plug. */
  readonly whole: boolean;
}

export interface PlugNeeded {
  readonly oldId: string;
  readonly uMm: number;
  readonly yMm: number;
  readonly holeDiameterMm: number;
  readonly plugDiameterMm: number;
  readonly depthMm: number | "through";
  /** Wall to the new hole that asks for the plug, before plugging. */
  readonly wallMm: number;
  readonly runIns: readonly RunIn[];
}

export type ConflictRule =
  | "new hole too near an old one that a plug would not cure"
  | "new hole too near a plug"
  | "plug too near a plug"
  | "plug too near an open hole"
  | "plug too near what cannot be plugged"
  | "new hole too near what cannot be plugged"
  | "new holes too near one another"
  | "plug not cured or not matched"
  | "no plug of the size needed";

export interface Conflict {
  readonly rule: ConflictRule;
  readonly aId: string;
  readonly bId: string;
  readonly wallMm: number;
  readonly needMm: number;
  /** How deep the new hole would cut a plug of the size the old hole takes. */
  readonly plugCutMm?: number;
}

export interface Judgement {
  /** No conflicts: it can be done with the plugs named. */
  readonly allowed: boolean;
  /** Every new hole against every old one and every obstacle, as found. */
  readonly walls: readonly HoleWall[];
  readonly leastWallNow: HoleWall | undefined;
  readonly plugs: readonly PlugNeeded[];
  readonly reused: readonly { readonly newId: string; readonly oldId: string; readonly apartMm: number }[];
  /** Screws that come to stand in plugs that are there already. */
  readonly inOldPlugs: readonly (RunIn & { readonly oldId: string })[];
  readonly conflicts: readonly Conflict[];
  /** Least wall that must hold once the plugs are in (a screw in its plug is not counted), and between what. */
  readonly leastWallMm: number;
  readonly leastBetween: readonly [string, string] | undefined;
  /** Least wall less the limit; Infinity if there is nothing to keep away from. */
  readonly marginMm: number;
}

/**
 * Judges a set of new holes on the body.
 *
 * @throws InputError for a diameter, depth or place that is no number
 */
export function judgeHoles(input: HoleScene & { readonly newHoles: readonly NewHole[] }): Judgement {
  refuseScene(input);
  refuseNewHoles(input.newHoles, "newHoles");
  const book = new Book(input.limits.wallMm);
  const found = meetOldHoles(input, book);
  keepPlugsApart(input, found.plugs, book);
  keepFromObstacles(input, book);
  const walls = found.walls.concat(book.obstacleWalls);
  return {
    allowed: book.conflicts.length === 0,
    walls,
    leastWallNow: walls.reduce<HoleWall | undefined>(
      (least, wall) => (least && least.wallMm <= wall.wallMm ? least : wall),
      undefined,
    ),
    plugs: found.plugs,
    reused: found.reused,
    inOldPlugs: found.inOldPlugs,
    conflicts: book.conflicts,
    leastWallMm: book.leastMm,
    leastBetween: book.between,
    marginMm: book.leastMm - input.limits.wallMm,
  };
}

/** Collects what must hold: the least wall, and every wall that is under the limit. */
class Book {
  readonly conflicts: Conflict[] = [];
  readonly obstacleWalls: HoleWall[] = [];
  leastMm = Number.POSITIVE_INFINITY;
  between: readonly [string, string] | undefined;

  constructor(readonly needMm: number) {}

  mustHold(rule: ConflictRule, aId: string, bId: string, wall: number, plugCutMm?: number): void {
    if (wall < this.leastMm) {
      this.leastMm = wall;
      this.between = [aId, bId];
    }
    if (wall >= this.needMm - ROUNDING_MM) return;
    const conflict = { rule, aId, bId, wallMm: wall, needMm: this.needMm };
    this.conflicts.push(plugCutMm === undefined ? conflict : { ...conflict, plugCutMm });
  }

  refuse(rule: ConflictRule, aId: string, bId: string, wall: number): void {
    this.conflicts.push({ rule, aId, bId, wallMm: wall, needMm: this.needMm });
  }
}

function apartMm(
  a: { readonly uMm: number; readonly yMm: number },
  b: { readonly uMm: number; readonly yMm: number },
): number {
  return Math.hypot(a.uMm - b.uMm, a.yMm - b.yMm);
}

function runIn(newHole: NewHole, old: OldHole, plugDiameterMm: number): RunIn {
  const apart = apartMm(newHole, old);
  const radius = newDiameterMm(newHole) / 2;
  return {
    newId: newHole.id,
    runInMm: plugDiameterMm / 2 + radius - apart,
    whole: apart + radius <= plugDiameterMm / 2,
  };
}

interface Met {
  readonly walls: HoleWall[];
  readonly plugs: PlugNeeded[];
  reused: { newId: string; oldId: string; apartMm: number }[];
  readonly inOldPlugs: (RunIn & { oldId: string })[];
}

/** Both are open at the top, so they meet in plan at whatever depth. */
function meetOldHoles(input: HoleScene & { readonly newHoles: readonly NewHole[] }, book: Book): Met {
  const met: Met = { walls: [], plugs: [], reused: [], inOldPlugs: [] };
  for (const old of input.oldHoles) {
    const near: { hole: NewHole; wall: number }[] = [];
    const clear: { hole: NewHole; wall: number }[] = [];
    for (const hole of input.newHoles) {
      const apart = apartMm(hole, old);
      const wall = apart - newDiameterMm(hole) / 2 - (old.plug?.diameterMm ?? old.diameterMm) / 2;
      met.walls.push({ newId: hole.id, otherId: old.id, wallMm: wall });
      if (old.plug) meetOldPlug(hole, old, old.plug, wall, met, book);
      else if (isReused(hole, old.diameterMm, apart, input.limits))
        met.reused.push({ newId: hole.id, oldId: old.id, apartMm: apart });
      else if (wall < input.limits.wallMm - ROUNDING_MM) near.push({ hole, wall });
      else clear.push({ hole, wall });
    }
    settleOpenHole(input, old, near, clear, met, book);
  }
  return met;
}

function meetOldPlug(
  hole: NewHole,
  old: OldHole,
  plug: NonNullable<OldHole["plug"]>,
  wall: number,
  met: Met,
  book: Book,
): void {
  if (hole.purpose !== "screw") {
    book.mustHold("new hole too near a plug", hole.id, old.id, wall);
  } else if (wall < book.needMm - ROUNDING_MM) {
    met.inOldPlugs.push({ oldId: old.id, ...runIn(hole, old, plug.diameterMm) });
    if (!plug.cured || !plug.matched) book.refuse("plug not cured or not matched", hole.id, old.id, wall);
  }
}

function settleOpenHole(
  input: HoleScene & { readonly newHoles: readonly NewHole[] },
  old: OldHole,
  near: readonly { hole: NewHole; wall: number }[],
  clear: readonly { hole: NewHole; wall: number }[],
  met: Met,
  book: Book,
): void {
  const plugMm = plugForMm(old.diameterMm, input.limits);
  for (const { hole, wall } of near) {
    if (hole.purpose === "screw") continue;
    const plugCutMm = plugMm === undefined ? undefined : runIn(hole, old, plugMm).runInMm;
    book.mustHold("new hole too near an old one that a plug would not cure", hole.id, old.id, wall, plugCutMm);
  }
  const asking = near.filter(({ hole }) => hole.purpose === "screw");
  const first = asking.reduce<{ hole: NewHole; wall: number } | undefined>(
    (least, one) => (least && least.wall <= one.wall ? least : one),
    undefined,
  );
  if (first === undefined) {
    for (const { hole, wall } of clear)
      book.mustHold("new hole too near an old one that a plug would not cure", hole.id, old.id, wall);
    return;
  }
  if (plugMm === undefined) {
    book.refuse("no plug of the size needed", first.hole.id, old.id, first.wall);
    return;
  }
  // A hole that must be plugged for one screw cannot serve another as it stands.
  met.reused = met.reused.filter((used) => used.oldId !== old.id);
  met.plugs.push({
    oldId: old.id,
    uMm: old.uMm,
    yMm: old.yMm,
    holeDiameterMm: old.diameterMm,
    plugDiameterMm: plugMm,
    depthMm: old.depthMm,
    wallMm: first.wall,
    runIns: asking.map(({ hole }) => runIn(hole, old, plugMm)),
  });
}

/** Plugs against one another, against holes that stay open, against plugs there already, new holes and obstacles. */
function keepPlugsApart(
  input: HoleScene & { readonly newHoles: readonly NewHole[] },
  plugs: readonly PlugNeeded[],
  book: Book,
): void {
  const plugged = new Set(plugs.map((plug) => plug.oldId));
  plugs.forEach((plug, i) => {
    for (const other of plugs.slice(i + 1)) {
      book.mustHold(
        "plug too near a plug",
        plug.oldId,
        other.oldId,
        apartMm(plug, other) - (plug.plugDiameterMm + other.plugDiameterMm) / 2,
      );
    }
    for (const old of input.oldHoles) {
      if (plugged.has(old.id)) continue;
      const wall = apartMm(plug, old) - (plug.plugDiameterMm + (old.plug?.diameterMm ?? old.diameterMm)) / 2;
      book.mustHold(old.plug ? "plug too near a plug" : "plug too near an open hole", plug.oldId, old.id, wall);
    }
    for (const hole of input.newHoles) {
      if (hole.purpose === "screw") continue;
      book.mustHold(
        "new hole too near a plug",
        hole.id,
        plug.oldId,
        apartMm(plug, hole) - (plug.plugDiameterMm + newDiameterMm(hole)) / 2,
      );
    }
    const solid = plugSolid(plug);
    for (const obstacle of input.obstacles) {
      book.mustHold("plug too near what cannot be plugged", plug.oldId, obstacle.id, wallMm(solid, obstacle));
    }
  });
}

export function plugSolid(plug: {
  readonly oldId: string;
  readonly uMm: number;
  readonly yMm: number;
  readonly plugDiameterMm: number;
  readonly depthMm: number | "through";
}): Column {
  return drilledHole({
    id: plug.oldId,
    uMm: plug.uMm,
    yMm: plug.yMm,
    diameterMm: plug.plugDiameterMm,
    depthMm: plug.depthMm,
  });
}

export function newHoleSolid(hole: NewHole): Column {
  return drilledHole({
    id: hole.id,
    uMm: hole.uMm,
    yMm: hole.yMm,
    diameterMm: newDiameterMm(hole),
    depthMm: hole.depthMm,
  });
}

function keepFromObstacles(input: HoleScene & { readonly newHoles: readonly NewHole[] }, book: Book): void {
  const solids: Solid[] = input.newHoles.map(newHoleSolid);
  solids.forEach((solid, i) => {
    for (const obstacle of input.obstacles) {
      const wall = wallMm(solid, obstacle);
      book.obstacleWalls.push({ newId: solid.id, otherId: obstacle.id, wallMm: wall });
      book.mustHold("new hole too near what cannot be plugged", solid.id, obstacle.id, wall);
    }
    for (const other of solids.slice(i + 1))
      book.mustHold("new holes too near one another", solid.id, other.id, wallMm(solid, other));
  });
}

/**
 * Walls between any new solids and any obstacles in space, and the least of them.
 *
 * @returns pairs in the order new × obstacle
 */
export function leastWall(
  newSolids: readonly Solid[],
  obstacles: readonly Solid[],
): { readonly pairs: readonly HoleWall[]; readonly least: HoleWall | undefined } {
  const pairs = newSolids.flatMap((solid) =>
    obstacles.map((obstacle) => ({ newId: solid.id, otherId: obstacle.id, wallMm: wallMm(solid, obstacle) })),
  );
  return {
    pairs,
    least: pairs.reduce<HoleWall | undefined>(
      (least, pair) => (least && least.wallMm <= pair.wallMm ? least : pair),
      undefined,
    ),
  };
}

/**
 * Least wall between two sets of round holes open at the top, for a sampler: no checks, nothing allocated.
 *
 * @param shiftUMm and @param shiftYMm move the whole of the new set, e.g. by the doubt of drilling
 */
export function leastHoleWallMm(
  newU: ArrayLike<number>,
  newY: ArrayLike<number>,
  newRadius: ArrayLike<number>,
  oldU: ArrayLike<number>,
  oldY: ArrayLike<number>,
  oldRadius: ArrayLike<number>,
  shiftUMm = 0,
  shiftYMm = 0,
): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < newU.length; i++) {
    const u = (newU[i] as number) + shiftUMm;
    const y = (newY[i] as number) + shiftYMm;
    const radius = newRadius[i] as number;
    for (let k = 0; k < oldU.length; k++) {
      const du = u - (oldU[k] as number);
      const dy = y - (oldY[k] as number);
      const wall = Math.sqrt(du * du + dy * dy) - radius - (oldRadius[k] as number);
      if (wall < least) least = wall;
    }
  }
  return least;
}
