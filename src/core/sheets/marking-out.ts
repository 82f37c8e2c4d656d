/**
 * The whole instrument from nut to tail, true to scale, for the screen: everything whose place is known, the dimensions
 * that can be changed where they stand, and the points that can be measured between.
 *
 * Frame: u along, from the pocket's end wall (from the nut where nobody measured the pocket), y across.
 */
import { type Item, line, makeScene, type Scene } from "../drawing/index.ts";
import type { Instrument } from "../job/index.ts";
import type { ScaleFrame } from "../questions/index.ts";
import type { Verdict } from "../verdict/index.ts";
import { bodyItems, oldHoleItems } from "./marking-out-body.ts";
import { bridgeItems, type MovablePlate, movablePlate, windowItems, wishItems } from "./marking-out-bridge.ts";
import { type EditableDimension, editableDimensions } from "./marking-out-dimensions.ts";
import { boardItems, type KnownPlacement, stringItems, stringRunsOf } from "./marking-out-neck.ts";
import { type MarkPoint, markPoints } from "./marking-out-points.ts";

export interface MarkingContext {
  readonly instrument: Instrument;
  readonly verdicts: readonly Verdict[];
  readonly frame: ScaleFrame;
  readonly placement: KnownPlacement | undefined;
  /** The subject by which the job file tells a place. */
  readonly writtenAs: (path: string) => string;
}

export interface Box {
  readonly minX: number;
  readonly maxX: number;
  readonly minY: number;
  readonly maxY: number;
}

export interface MarkingOut {
  readonly scene: Scene;
  readonly dimensions: readonly EditableDimension[];
  readonly points: readonly MarkPoint[];
  readonly plate: MovablePlate | undefined;
  readonly whole: Box;
  /** Round the bridge, its holes old and new; the whole where there is none. */
  readonly bridge: Box;
  /** What could not be drawn, in words. */
  readonly left: readonly string[];
}

export function markingOutOf(context: MarkingContext): MarkingOut {
  const { instrument, placement: placed } = context;
  const frame = context.frame.known ? context.frame : undefined;
  const runs = frame ? stringRunsOf(instrument, frame, placed) : [];
  const plate = placed && movablePlate(placed);
  const things: Item[] = [
    ...boardItems(instrument, runs),
    ...bodyItems(instrument, context.verdicts),
    ...stringItems(instrument, runs),
    ...(placed ? bridgeItems(placed) : []),
    ...wishItems(plate),
    ...oldHoleItems(instrument, placed?.pieces ?? []),
  ];
  const drawn = boxOf(things);
  const half = Math.max(20, Math.abs(drawn.minY), Math.abs(drawn.maxY)) + 6;
  const tail = instrument.body.tailEdge;
  const endX = Math.max(
    drawn.maxX,
    tail.known ? tail.value : Number.NEGATIVE_INFINITY,
    frame ? frame.best.quantity.value : 0,
  );
  const startX = Math.min(drawn.minX, frame?.offsetMm ?? 0);
  const items: Item[] = [
    ...things,
    line("centre line", "centre", { x: startX - 10, y: 0 }, { x: endX + 14, y: 0 }, "centre line"),
    ...(frame
      ? [
          line(
            "scale line",
            "scale",
            { x: frame.best.quantity.value, y: -half },
            { x: frame.best.quantity.value, y: half },
            { label: "scale line", labelAt: "to" },
          ),
        ]
      : []),
    ...(tail.known
      ? [
          line(
            "body edge",
            "tail",
            { x: tail.value, y: -half },
            { x: tail.value, y: half },
            { label: "tail edge", labelAt: "to" },
          ),
        ]
      : []),
    ...windowItems(plate, instrument.bassSide),
  ];
  const whole = boxOf(items);
  return {
    scene: makeScene({
      id: "marking-out",
      title: "Marking-out",
      view: "front",
      frame: {
        name: "body",
        origin: `${frame?.fromNut ? "the nut's face" : "the end wall of the neck pocket"}, on the centre line`,
        axes: ["along", "across"],
        bassSide: instrument.bassSide,
      },
      datum: { at: { x: 0, y: 0 }, name: frame?.fromNut ? "the nut's face" : "the pocket's end wall" },
      items,
    }),
    dimensions: editableDimensions({ ...context, frame, runs, plate, halfWidthMm: half }),
    points: markPoints(instrument, items),
    plate,
    whole,
    bridge: bridgeBox(items, plate) ?? whole,
    left: leftOut(context, items),
  };
}

function leftOut({ instrument, frame }: MarkingContext, items: readonly Item[]): string[] {
  const has = (id: string) => items.some((item) => item.id === id);
  const missing = (ids: readonly string[]) => [...new Set(ids)].map((id) => id.replaceAll("-", " "));
  return [
    ...(frame.known && has("nut") ? [] : ["the neck"]),
    ...(instrument.bridge && !items.some(({ id }) => id.startsWith("outline-")) ? ["the bridge"] : []),
    ...missing(instrument.body.holes.filter(({ id }) => !has(id)).map(({ group }) => group)),
    ...missing(instrument.body.cavities.filter(({ id }) => !has(`cavity-${id}`)).map(({ id }) => `${id} rout`)),
    ...missing(
      instrument.body.channels.filter(({ id }) => !has(`channel-${id}`)).map(({ id }) => `wire channel ${id}`),
    ),
    ...(instrument.body.tailEdge.known ? [] : ["the tail edge"]),
  ];
}

const AROUND_MM = 14;

function bridgeBox(items: readonly Item[], plate: MovablePlate | undefined): Box | undefined {
  const own = items.filter(({ id }) => /^(outline-|bridge-|tailpiece-|unit-|window$|wish$)/.test(id));
  if (own.length === 0) return undefined;
  const box = boxOf(own);
  const near = items.filter(
    ({ role, geometry }) =>
      (role === "old hole" || role === "plug") &&
      geometry.kind === "hole" &&
      geometry.centre.x > box.minX - 40 &&
      geometry.centre.x < box.maxX + 40,
  );
  const all = boxOf([...own, ...near]);
  const side = plate ? AROUND_MM : AROUND_MM / 2;
  return { minX: all.minX - AROUND_MM, maxX: all.maxX + AROUND_MM, minY: all.minY - side, maxY: all.maxY + side };
}

function boxOf(items: readonly Item[]): Box {
  let box: Box = { minX: Infinity, maxX: -Infinity, minY: Infinity, maxY: -Infinity };
  const take = (x: number, y: number, by = 0) => {
    box = {
      minX: Math.min(box.minX, x - by),
      maxX: Math.max(box.maxX, x + by),
      minY: Math.min(box.minY, y - by),
      maxY: Math.max(box.maxY, y + by),
    };
  };
  for (const { geometry } of items) {
    if (geometry.kind === "line") {
      take(geometry.from.x, geometry.from.y);
      take(geometry.to.x, geometry.to.y);
    } else if (geometry.kind === "outline") for (const { x, y } of geometry.corners) take(x, y);
    else if (geometry.kind === "circle" || geometry.kind === "hole")
      take(geometry.centre.x, geometry.centre.y, geometry.diameterMm / 2);
  }
  return Number.isFinite(box.minX) ? box : { minX: -100, maxX: 100, minY: -50, maxY: 50 };
}
