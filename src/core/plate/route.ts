/**
 * Where the wires run on a drawing of a control plate, so that no crossing can be taken for a joint.
 *
 * Model: rectilinear lines on tracks through the lugs and between them. At first wires may be too near to one another
 * at a price that rises from round to round, until none is (negotiated congestion). What is left then is laid where it
 * finds room or refused. After that each wire, and small groups of wires that cross, are laid again as long as that
 * saves crossings or length.
 * Left out: wires that leave the plate, and the thickness of a wire.
 * Source: McMurchie, Ebeling, FPGA '95, 111-117, for the rising prices (from memory).
 */
import { requirePositive } from "../checks.ts";
import { bench } from "./bench.ts";
import { crossings, type Polyline } from "./crossings.ts";
import type { Prices } from "./find-way.ts";
import { improve } from "./improve.ts";
import { type Lattice, lattice, xOf, yOf } from "./lattice.ts";
import { negotiate } from "./negotiate.ts";
import { isDown, type Way } from "./occupancy.ts";
import { checkPlate, type Plate, type Wire } from "./plate.ts";
import { drawsFrom } from "./random.ts";

const SPACING_MM = 1.5;
const CROSSING_IN_SPACINGS = 20;
const BEND_IN_SPACINGS = 2;
const EFFORT = 1;

export interface RouteOptions {
  /** Least distance of wires that run side by side; 1.5 if left out. */
  readonly spacingMm?: number;
  /** The length of wire that is not too long a way round to save one crossing; 20 spacings if left out. */
  readonly crossingMm?: number;
  /** How long to look for a better drawing, in proportion; 1 if left out. */
  readonly effort?: number;
}

export interface RoutedWire extends Wire {
  /** From lug to lug, corner by corner. */
  readonly points: Polyline;
  readonly lengthMm: number;
}

export interface RefusedWire {
  readonly id: string;
  readonly reason: string;
}

export interface RoutedPlate {
  /** In the order of the plate's wires. */
  readonly wires: readonly RoutedWire[];
  readonly crossings: number;
  readonly lengthMm: number;
  /** Wires for which there was no way. */
  readonly refused: readonly RefusedWire[];
}

/** One for each whole of effort. */
const STARTS = [11, 29, 47, 83];

/** Where a wire finds no way. */
const LEAST_STARTS = 2;

/**
 * Routes the wires of a plate.
 *
 * Of the result holds: no two wires share a piece of a line; parallel pieces are `spacingMm` apart, except within 2 mm
 * of the pad of a lug on which both end; a wire stays 0.5 mm off a foreign lug's pad and off bodies that it does not
 * end on; wires cross at right angles, half a spacing or more from corners.
 *
 * @returns each wire with its points, or with the reason why it is refused; the same plate gives the same drawing
 * @throws InputError for a plate that cannot be meant, such as a wire to an unknown lug; never for a wire without a way
 * @example
 * const lugs = [{ id: "a", at: { x: 5, y: 20 }, radiusMm: 1 }, { id: "b", at: { x: 35, y: 20 }, radiusMm: 1 }];
 * const bounds = { left: 0, top: 0, widthMm: 40, heightMm: 40 };
 * routePlate({ bounds, bodies: [], lugs, wires: [{ id: "w", from: "a", to: "b", kind: "wire" }] }).wires[0].points;
 * // [{ x: 5, y: 20 }, { x: 35, y: 20 }]
 */
export function routePlate(plate: Plate, options: RouteOptions = {}): RoutedPlate {
  const { spacingMm = SPACING_MM, effort = EFFORT } = options;
  const { crossingMm = CROSSING_IN_SPACINGS * spacingMm } = options;
  requirePositive(spacingMm, "spacingMm", "mm", "Leave it out for 1.5");
  requirePositive(crossingMm, "crossingMm", "mm", "Leave it out for 20 spacings");
  requirePositive(effort, "effort", "(in proportion)", "Leave it out for 1");
  checkPlate(plate);
  const grid = lattice(plate, { spacingMm, cornerMm: spacingMm / 2, pitchMm: spacingMm / 2 });
  const prices = { bendMm: BEND_IN_SPACINGS * spacingMm, crossingMm, conflictMm: Number.POSITIVE_INFINITY };
  let best: Attempt | undefined;
  for (const [n, start] of STARTS.entries()) {
    const isWhole = best?.ways.every((way) => way !== undefined);
    if (n >= Math.max(effort, isWhole ? 1 : LEAST_STARTS)) break;
    const one = attempt(grid, plate.wires, { prices, start, effort });
    if (!best || isBetter(one, best)) best = one;
  }
  return drawn(grid, plate.wires, best ?? { ways: [], costMm: 0 });
}

interface Attempt {
  readonly ways: readonly (Way | undefined)[];
  readonly costMm: number;
}

function attempt(grid: Lattice, wires: readonly Wire[], { prices, start, effort }: Try): Attempt {
  const on = bench(grid, wires);
  const draw = drawsFrom(start);
  negotiate(on, prices, draw);
  const costMm = improve(on, prices, { draw, effort });
  return { ways: [...on.ways], costMm };
}

interface Try {
  readonly prices: Prices;
  readonly start: number;
  readonly effort: number;
}

function isBetter(one: Attempt, other: Attempt): boolean {
  const lying = ({ ways }: Attempt): number => ways.filter((way) => way !== undefined).length;
  return lying(one) > lying(other) || (lying(one) === lying(other) && one.costMm < other.costMm);
}

function drawn(grid: Lattice, wires: readonly Wire[], { ways }: Attempt): RoutedPlate {
  const routed = wires.flatMap((wire, n): RoutedWire[] => {
    const way = ways[n];
    if (!way) return [];
    const points = cornersOf(grid, way).map((node) => ({ x: xOf(grid, node), y: yOf(grid, node) }));
    return [{ ...wire, points, lengthMm: lengthMm(points) }];
  });
  return {
    wires: routed,
    crossings: crossings(routed.map(({ points }) => points)).length,
    lengthMm: routed.reduce((sum, wire) => sum + wire.lengthMm, 0),
    refused: wires.flatMap((wire, n) => (ways[n] ? [] : [{ id: wire.id, reason: reasonOf(grid, wire) }])),
  };
}

function reasonOf(grid: Lattice, wire: Wire): string {
  const alone = bench(grid, [wire]);
  negotiate(alone, { bendMm: 0, crossingMm: 0, conflictMm: Number.POSITIVE_INFINITY }, drawsFrom(0));
  const ends = `from "${wire.from}" to "${wire.to}"`;
  return alone.ways[0]
    ? `no room is left ${ends} between the other wires`
    : `bodies and lugs leave no way ${ends}, even without other wires`;
}

function cornersOf({ columns }: Lattice, way: Way): number[] {
  return way.filter((node, n) => {
    const [before, after] = [way[n - 1], way[n + 1]];
    return (
      before === undefined || after === undefined || isDown(before, node, columns) !== isDown(node, after, columns)
    );
  });
}

function lengthMm(points: Polyline): number {
  return points.reduce((sum, { x, y }, n) => {
    const before = points[n - 1];
    return before ? sum + Math.abs(x - before.x) + Math.abs(y - before.y) : sum;
  }, 0);
}
