/** Where the wood between two things is thinnest, so that a drawing can point at it. Derived: nearest points in plan. */
import {
  type BodyPoint,
  drilledHole,
  type HoleScene,
  type NewHole,
  newHoleSolid,
  type PlugNeeded,
  plugSolid,
  type Solid,
  wallMm,
} from "../bridge/index.ts";

/** The wood between two things, or their overlap where `wallMm` is negative. */
export interface WallPlace {
  readonly aId: string;
  readonly bId: string;
  readonly wallMm: number;
  /** Points of the two surfaces that face each other, seen from above. */
  readonly from: BodyPoint;
  readonly to: BodyPoint;
}

export function wallPlace(a: Solid, b: Solid, wall = wallMm(a, b)): WallPlace {
  const first = nearestOn(b, middleOf(a));
  const from = nearestOn(a, first);
  return { aId: a.id, bId: b.id, wallMm: wall, from, to: nearestOn(b, from) };
}

/** The two things a judgement names, found again; of a rout and its ears the one that is nearer. */
export function wallBetween(
  between: readonly [string, string],
  wall: number,
  scene: HoleScene,
  holes: readonly NewHole[],
  plugs: readonly PlugNeeded[],
): WallPlace | undefined {
  const [as, bs] = between.map((id) => solidsOf(id, scene, holes, plugs)) as [Solid[], Solid[]];
  const pairs = as.flatMap((a) => bs.map((b) => ({ a, b, apart: wallMm(a, b) })));
  const least = pairs.sort((one, other) => one.apart - other.apart)[0];
  return least && wallPlace(least.a, least.b, wall);
}

function solidsOf(id: string, scene: HoleScene, holes: readonly NewHole[], plugs: readonly PlugNeeded[]): Solid[] {
  const made = holes.find((hole) => hole.id === id);
  if (made) return [newHoleSolid(made)];
  const plug = plugs.find((one) => one.oldId === id);
  if (plug) return [plugSolid(plug)];
  const old = scene.oldHoles.find((hole) => hole.id === id);
  if (old) return [drilledHole({ ...old, diameterMm: old.plug?.diameterMm ?? old.diameterMm })];
  return scene.obstacles.filter((obstacle) => obstacle.id === id);
}

function middleOf(solid: Solid): BodyPoint {
  switch (solid.kind) {
    case "column":
      return { uMm: solid.u, yMm: solid.y };
    case "channel":
      return { uMm: (solid.from[0] + solid.to[0]) / 2, yMm: (solid.from[1] + solid.to[1]) / 2 };
    case "tail line":
      return { uMm: solid.uMm, yMm: 0 };
    case "outline":
      return { uMm: solid.points[0]?.[0] ?? 0, yMm: solid.points[0]?.[1] ?? 0 };
  }
}

/** Point of a solid's surface nearest to a point outside it; a point within its core is kept as it is. */
function nearestOn(solid: Solid, at: BodyPoint): BodyPoint {
  switch (solid.kind) {
    case "column": {
      const du = at.uMm - solid.u;
      const dy = at.yMm - solid.y;
      const along = clamp(du * solid.cos + dy * solid.sin, solid.halfU);
      const across = clamp(dy * solid.cos - du * solid.sin, solid.halfY);
      const core = {
        uMm: solid.u + along * solid.cos - across * solid.sin,
        yMm: solid.y + across * solid.cos + along * solid.sin,
      };
      return toward(core, at, solid.radiusMm);
    }
    case "channel": {
      const [u0, y0] = solid.from;
      const [du, dy] = [solid.to[0] - u0, solid.to[1] - y0];
      const square = du * du + dy * dy;
      const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((at.uMm - u0) * du + (at.yMm - y0) * dy) / square));
      return toward({ uMm: u0 + t * du, yMm: y0 + t * dy }, at, solid.radiusMm);
    }
    case "tail line":
      return { uMm: solid.uMm, yMm: at.yMm };
    case "outline":
      return at;
  }
}

function clamp(value: number, half: number): number {
  return Math.min(half, Math.max(-half, value));
}

function toward(core: BodyPoint, at: BodyPoint, radiusMm: number): BodyPoint {
  const du = at.uMm - core.uMm;
  const dy = at.yMm - core.yMm;
  const apart = Math.hypot(du, dy);
  if (apart === 0) return at;
  return { uMm: core.uMm + (du / apart) * radiusMm, yMm: core.yMm + (dy / apart) * radiusMm };
}
