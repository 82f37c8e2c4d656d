/** What a routed plate must keep, proved from its points alone, without the router's code. */
import type { Lug, Plate, PlatePoint, RoutedWire } from "../../../src/core/plate/index.ts";

const SPACING_MM = 1.5;
const CORNER_MM = 0.75;
const LUG_CLEAR_MM = 0.5;
const FAN_MM = 2;
/** Rounding of sums; a lug's track may be shared with another's that is 0.1 mm away. */
const HAIR_MM = 1e-6;
const END_MM = 0.02;

type Run = readonly [PlatePoint, PlatePoint];
type Drawn = Pick<RoutedWire, "id" | "from" | "to" | "points">;

/** @returns one sentence for each breach; empty if all rules are kept */
export function breaches(plate: Plate, wires: readonly Drawn[]): string[] {
  const lugs = new Map(plate.lugs.map((lug) => [lug.id, lug]));
  const alone = wires.flatMap((wire) => [...shapeBreaches(wire, lugs), ...standingBreaches(wire, plate)]);
  const pairs = wires.flatMap((one, n) => wires.slice(n + 1).flatMap((other) => pairBreaches(one, other, lugs)));
  return [...alone, ...pairs];
}

function runsOf({ points }: Drawn): Run[] {
  return points.slice(1).map((to, n): Run => [points[n]!, to]);
}

function shapeBreaches(wire: Drawn, lugs: ReadonlyMap<string, Lug>): string[] {
  const runs = runsOf(wire);
  const ends = [
    [wire.points[0]!, lugs.get(wire.from)!],
    [wire.points.at(-1)!, lugs.get(wire.to)!],
  ] as const;
  return [
    ...runs.flatMap(([p, q]) => (p.x === q.x || p.y === q.y ? [] : [`${wire.id} runs aslant`])),
    ...runs.flatMap(([p, q]) => (p.x === q.x && p.y === q.y ? [`${wire.id} has an empty run`] : [])),
    ...ends.flatMap(([p, lug]) =>
      distance(p, lug.at) <= lug.radiusMm + END_MM ? [] : [`${wire.id} ends off ${lug.id}`],
    ),
    ...runs.flatMap((one, n) =>
      runs.slice(n + 2).flatMap((other) => (touching(one, other) ? [`${wire.id} meets itself`] : [])),
    ),
  ];
}

function standingBreaches(wire: Drawn, { bodies, lugs, bounds }: Plate): string[] {
  const own = lugs.filter(({ id }) => id === wire.from || id === wire.to);
  const overLug = lugs
    .filter((lug) => !own.includes(lug))
    .filter((lug) => runsOf(wire).some((run) => toRun(lug.at, run) < lug.radiusMm + LUG_CLEAR_MM - HAIR_MM))
    .map(({ id }) => `${wire.id} runs over lug ${id}`);
  const overBody = bodies.flatMap(({ id, shape }) => {
    const inside = samples(wire).filter((p) => depth(p, shape) > HAIR_MM);
    const allowed = own.filter((lug) => depth(lug.at, shape) > -1);
    const stray = inside.filter((p) => !allowed.some((lug) => isOnWayOut(p, lug)));
    return stray.length > 0 ? [`${wire.id} runs over body ${id}`] : [];
  });
  const outside = wire.points.some(
    ({ x, y }) =>
      x < bounds.left - HAIR_MM ||
      y < bounds.top - HAIR_MM ||
      x > bounds.left + bounds.widthMm + HAIR_MM ||
      y > bounds.top + bounds.heightMm + HAIR_MM,
  );
  return [...overLug, ...overBody, ...(outside ? [`${wire.id} leaves the plate`] : [])];
}

function isOnWayOut(p: PlatePoint, { at, radiusMm, out }: Lug): boolean {
  if (!out || distance(p, at) <= radiusMm) return true;
  const [x, y] = [p.x - at.x, p.y - at.y];
  return x * out.x + y * out.y > -0.1 && Math.abs(x * out.y - y * out.x) <= Math.max(radiusMm, 0.75) + 0.1;
}

function pairBreaches(one: Drawn, other: Drawn, lugs: ReadonlyMap<string, Lug>): string[] {
  const common = [one.from, one.to].filter((id) => id === other.from || id === other.to).map((id) => lugs.get(id)!);
  const say = (what: string): string => `${one.id} and ${other.id} ${what}`;
  const found: string[] = [];
  for (const a of runsOf(one)) {
    for (const b of runsOf(other)) {
      const near = besideEachOther(a, b);
      if (near && near.apartMm < HAIR_MM) found.push(say("share a piece"));
      else if (
        near &&
        near.apartMm < SPACING_MM - HAIR_MM &&
        !common.some((lug) => near.ends.every((p) => isIn(p, lug, FAN_MM)))
      )
        found.push(say(`run ${near.apartMm} mm apart`));
      const crossing = crossingAt(a, b);
      if (crossing && [...lugs.values()].some((lug) => isIn(crossing, lug, LUG_CLEAR_MM - HAIR_MM)))
        found.push(say("cross on a lug"));
    }
  }
  const turns = (wire: Drawn, from: Drawn): boolean =>
    wire.points.some(
      (p) => !common.some((lug) => isIn(p, lug, 0)) && runsOf(from).some((run) => toRun(p, run) < CORNER_MM - HAIR_MM),
    );
  if (turns(one, other) || turns(other, one)) found.push(say("come near at a corner"));
  return found;
}

function isIn(p: PlatePoint, { at, radiusMm }: Lug, beyondMm: number): boolean {
  return distance(p, at) <= radiusMm + beyondMm + HAIR_MM;
}

/** The stretch over which two parallel runs lie beside each other: its ends on both. */
function besideEachOther(a: Run, b: Run): { apartMm: number; ends: PlatePoint[] } | undefined {
  for (const [along, across] of [
    ["x", "y"],
    ["y", "x"],
  ] as const) {
    if (a[0][across] !== a[1][across] || b[0][across] !== b[1][across]) continue;
    const from = Math.max(Math.min(a[0][along], a[1][along]), Math.min(b[0][along], b[1][along]));
    const to = Math.min(Math.max(a[0][along], a[1][along]), Math.max(b[0][along], b[1][along]));
    if (to - from <= HAIR_MM) return undefined;
    const at = (place: number, level: number): PlatePoint =>
      along === "x" ? { x: place, y: level } : { x: level, y: place };
    return {
      apartMm: Math.abs(a[0][across] - b[0][across]),
      ends: [from, to].flatMap((place) => [at(place, a[0][across]), at(place, b[0][across])]),
    };
  }
  return undefined;
}

export function crossingAt(a: Run, b: Run): PlatePoint | undefined {
  const [flat, upright] = a[0].y === a[1].y ? [a, b] : [b, a];
  if (flat[0].y !== flat[1].y || upright[0].x !== upright[1].x) return undefined;
  const [x, y] = [upright[0].x, flat[0].y];
  const between = (value: number, p: number, q: number): boolean =>
    value > Math.min(p, q) + HAIR_MM && value < Math.max(p, q) - HAIR_MM;
  return between(x, flat[0].x, flat[1].x) && between(y, upright[0].y, upright[1].y) ? { x, y } : undefined;
}

function touching(a: Run, b: Run): boolean {
  return [...a].some((p) => toRun(p, b) < HAIR_MM) || [...b].some((p) => toRun(p, a) < HAIR_MM) || !!crossingAt(a, b);
}

function distance(p: PlatePoint, q: PlatePoint): number {
  return Math.hypot(p.x - q.x, p.y - q.y);
}

function toRun(p: PlatePoint, [a, b]: Run): number {
  const square = (b.x - a.x) ** 2 + (b.y - a.y) ** 2;
  const t =
    square === 0 ? 0 : Math.max(0, Math.min(1, ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / square));
  return distance(p, { x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y) });
}

/** Places along a wire, 0.1 mm apart or nearer. */
function samples(wire: Drawn): PlatePoint[] {
  return runsOf(wire).flatMap(([p, q]) => {
    const parts = Math.max(1, Math.ceil(distance(p, q) / 0.1));
    return Array.from({ length: parts + 1 }, (_, n) => ({
      x: p.x + ((q.x - p.x) * n) / parts,
      y: p.y + ((q.y - p.y) * n) / parts,
    }));
  });
}

function depth(p: PlatePoint, shape: Plate["bodies"][number]["shape"]): number {
  if (shape.kind === "circle") return shape.radiusMm - distance(p, shape.centre);
  const turn = (-shape.angleDegrees * Math.PI) / 180;
  const [x, y] = [p.x - shape.centre.x, p.y - shape.centre.y];
  const across = Math.abs(x * Math.cos(turn) - y * Math.sin(turn));
  const down = Math.abs(x * Math.sin(turn) + y * Math.cos(turn));
  return Math.min(shape.widthMm / 2 - across, shape.heightMm / 2 - down);
}
