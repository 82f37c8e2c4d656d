/**
 * The control plate drawn: devices true to size, lugs with their names, wires numbered and lettered. Ground wires are
 * dashed and so make a tree of their own; what carries the signal of a chosen state is drawn wider. Lines that cross are not
 * joined: joints are at lugs alone.
 */
import { type Mark, type MarkGroup, type PageRect, polygonMark, textMark, thin } from "../drawing/index.ts";
import { type RoutedPlate, type RoutedWire, routePlate } from "../plate/index.ts";
import type { PlacedDevice, PlacedLug, PlateLayout } from "./plate-layout.ts";
import type { WireName } from "./wire-names.ts";

/** So long a way round is taken to save one crossing: a reader loses a line at a crossing, not on its way. */
const CROSSING_MM = 150;
/** More effort finds nothing better on plates like those of the examples. */
const EFFORT = 0.3;
const WIRE_MM = 0.45;
const STRONG_MM = 1.1;
const GROUND_DASH = [2.4, 0.9];
const NAME_MM = 2;
const LUG_TEXT_MM = 1.5;
const WIRE_TEXT_MM = 1.45;
const LABEL_PAD_MM = 0.2;
/** Of a capital, as a part of its height: digits and capitals of the papers' typeface are no wider. */
const WIDE = 0.95;

export interface PlatePicture {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly groups: readonly MarkGroup[];
  readonly routed: RoutedPlate;
}

export interface PictureOptions {
  readonly names: ReadonlyMap<string, WireName>;
  /** What stands under a device's name, e.g. "500 kΩ audio". */
  readonly about: ReadonlyMap<string, string>;
  /** Wires that carry the signal of a chosen state. */
  readonly strong?: ReadonlySet<string>;
}

export function platePicture(layout: PlateLayout, { names, about, strong }: PictureOptions): PlatePicture {
  const routed = routePlate(layout.plate, { crossingMm: CROSSING_MM, effort: EFFORT });
  const wires = routed.wires.map((wire) => wireGroup(wire, names.get(wire.id), strong?.has(wire.id) ?? false));
  return {
    widthMm: layout.widthMm,
    heightMm: layout.heightMm,
    groups: [
      ...layout.devices.map((placed) => deviceGroup(placed, about.get(placed.device.id))),
      ...wires,
      ...layout.lugs.map(lugGroup),
      ...labelGroups(layout, routed, names),
    ],
    routed,
  };
}

function deviceGroup({ device, shape, nameAt }: PlacedDevice, about = ""): MarkGroup {
  const marks: Mark[] = [];
  if (shape?.kind === "circle")
    marks.push({ kind: "circle", centre: page(shape.centre), radiusMm: shape.radiusMm, stroke: thin(0.35) });
  if (shape?.kind === "rectangle") {
    const [half, high] = [shape.widthMm / 2, shape.heightMm / 2];
    const { x, y } = shape.centre;
    const corners = [
      [-half, -high],
      [half, -high],
      [half, high],
      [-half, high],
    ].map(([dx = 0, dy = 0]) => ({ right: x + dx, down: y + dy }));
    marks.push(polygonMark(corners, { stroke: thin(0.35) }));
  }
  const upright = device.kind === "switch";
  const at = { right: nameAt.x, down: nameAt.y };
  if (upright)
    marks.push(
      textMark({ right: at.right + NAME_MM / 2, down: at.down }, device.id, {
        heightMm: NAME_MM,
        anchor: "middle",
        weight: "bold",
        turnDegrees: 90,
      }),
    );
  else {
    marks.push(textMark(at, device.id, { heightMm: NAME_MM, anchor: "middle", weight: "bold" }));
    about.split("\n").forEach((line, index) => {
      if (line !== "")
        marks.push(
          textMark({ right: at.right, down: at.down + 2.8 * (index + 1) }, line, {
            heightMm: LUG_TEXT_MM,
            anchor: "middle",
          }),
        );
    });
  }
  return {
    id: `device-${device.id}`,
    role: "device",
    title: `${device.id}${about === "" ? "" : `: ${about.replaceAll("\n", ", ")}`}`,
    marks,
  };
}

function lugGroup(lug: PlacedLug): MarkGroup {
  const { x, y } = lug.at;
  const marks: Mark[] = [
    { kind: "circle", centre: { right: x, down: y }, radiusMm: lug.radiusMm, stroke: thin(0.3), fill: "paper" },
  ];
  if (lug.label !== "") {
    const away = lug.awayMm;
    const beside = { left: -away, right: away, above: 0, below: 0 }[lug.side];
    const anchor = { left: "end", right: "start", above: "middle", below: "middle" } as const;
    const lift = { left: LUG_TEXT_MM / 2, right: LUG_TEXT_MM / 2, above: -away, below: away + LUG_TEXT_MM }[lug.side];
    marks.push(
      textMark({ right: x + beside, down: y + lift }, lug.label, { heightMm: LUG_TEXT_MM, anchor: anchor[lug.side] }),
    );
  }
  return { id: `lug-${lug.id}`, role: "lug", title: lug.lug, data: { lug: lug.lug, x, y }, marks };
}

function wireGroup(wire: RoutedWire, name: WireName | undefined, strong: boolean): MarkGroup {
  const stroke = {
    widthMm: strong ? STRONG_MM : WIRE_MM,
    dashMm: wire.kind === "ground" && !strong ? GROUND_DASH : [],
    ...(name?.ink ? { colour: name.ink } : {}),
  };
  return {
    id: `wire-${wire.id}`,
    role: wire.kind === "ground" ? "ground wire" : "wire",
    title: `wire ${name?.label ?? wire.id}: ${wire.from.replace(/#\d+$/, "")} to ${wire.to.replace(/#\d+$/, "")}`,
    data: { wire: wire.id, from: wire.from.replace(/#\d+$/, ""), to: wire.to.replace(/#\d+$/, "") },
    marks: [
      {
        kind: "path",
        path: wire.points.map((point, index) => ({ to: index === 0 ? "move" : "line", at: page(point) })),
        stroke,
      },
    ],
  };
}

interface Piece {
  readonly wire: string;
  readonly from: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number };
}

/** Each label on its own wire, where it covers no other; on its longest piece where there is no such place. */
function labelGroups(layout: PlateLayout, { wires }: RoutedPlate, names: ReadonlyMap<string, WireName>): MarkGroup[] {
  const pieces = wires.flatMap(({ id, points }): Piece[] =>
    points.slice(1).flatMap((to, index) => {
      const from = points[index];
      return from ? [{ wire: id, from, to }] : [];
    }),
  );
  const taken: PageRect[] = [
    ...layout.lugs.map(({ at, radiusMm }) => around(at.x, at.y, radiusMm + 0.2, radiusMm + 0.2)),
    ...layout.lugs.filter(({ label }) => label !== "").map(lugTextBox),
    ...layout.devices.map(({ nameAt }) => around(nameAt.x, nameAt.y - 1, 8, 2)),
  ];
  return wires.flatMap((wire): MarkGroup[] => {
    const name = names.get(wire.id);
    if (!name) return [];
    const own = pieces
      .filter((piece) => piece.wire === wire.id)
      .sort((first, second) => lengthOf(second) - lengthOf(first));
    const others = pieces.filter((piece) => piece.wire !== wire.id);
    const clear = ({ box }: Spot) => !taken.some((other) => overlap(box, other));
    const alone = (spot: Spot) => clear(spot) && !others.some((piece) => overlap(spot.box, lineBox(piece)));
    const along = own.flatMap((piece) => spotsOn(piece, name.label));
    const beside = own.flatMap((piece) => besideSpots(piece, name.label));
    const spot =
      along.find(alone) ?? beside.find(alone) ?? along.find(clear) ?? beside.find(clear) ?? along[0] ?? beside[0];
    if (!spot) return [];
    taken.push(spot.box);
    const { left, top, right, bottom } = spot.box;
    const corners = [
      { right: left, down: top },
      { right, down: top },
      { right, down: bottom },
      { right: left, down: bottom },
    ];
    const centre = { right: (left + right) / 2, down: (top + bottom) / 2 };
    const at = spot.upright
      ? { right: centre.right + WIRE_TEXT_MM / 2, down: centre.down }
      : { right: centre.right, down: centre.down + WIRE_TEXT_MM / 2 };
    return [
      {
        id: `label-${wire.id}`,
        role: "label",
        marks: [
          polygonMark(corners, { fill: "paper" }),
          textMark(at, name.label, {
            heightMm: WIRE_TEXT_MM,
            anchor: "middle",
            weight: "bold",
            turnDegrees: spot.upright ? 90 : 0,
          }),
        ],
      },
    ];
  });
}

interface Spot {
  readonly box: PageRect;
  readonly upright: boolean;
}

const STEP_MM = 1;

function spotsOn({ from, to }: Piece, label: string): Spot[] {
  const { wide, high } = labelSize(label);
  const upright = from.x === to.x;
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (length < wide + 1.5) return [];
  const spots: Spot[] = [];
  // From the middle outward.
  for (let away = 0; away <= (length - wide) / 2 - 0.6; away += STEP_MM)
    for (const sign of away === 0 ? [1] : [1, -1]) {
      const share = 0.5 + (sign * away) / length;
      const [x, y] = [from.x + share * (to.x - from.x), from.y + share * (to.y - from.y)];
      spots.push({ upright, box: upright ? around(x, y, high / 2, wide / 2) : around(x, y, wide / 2, high / 2) });
    }
  return spots;
}

/** Beside the middle of a piece, for wires too short or too crowded to carry their label. */
function besideSpots({ from, to }: Piece, label: string): Spot[] {
  const { wide, high } = labelSize(label);
  const [x, y] = [(from.x + to.x) / 2, (from.y + to.y) / 2];
  const [dx, dy] = from.x === to.x ? [wide / 2 + 0.5, 0] : [0, high / 2 + 0.5];
  return [1, -1].map((sign) => ({ upright: false, box: around(x + sign * dx, y + sign * dy, wide / 2, high / 2) }));
}

function labelSize(label: string): { readonly wide: number; readonly high: number } {
  return { wide: label.length * WIDE * WIRE_TEXT_MM + 2 * LABEL_PAD_MM, high: WIRE_TEXT_MM + 2 * LABEL_PAD_MM };
}

function lineBox({ from, to }: Piece): PageRect {
  const half = Math.abs(from.x - to.x) / 2 + 0.1;
  return around((from.x + to.x) / 2, (from.y + to.y) / 2, half, Math.abs(from.y - to.y) / 2 + 0.1);
}

function lugTextBox({ at, label, side, awayMm: away }: PlacedLug): PageRect {
  const half = (label.length * WIDE * LUG_TEXT_MM) / 2;
  if (side === "left") return around(at.x - away - half, at.y, half, LUG_TEXT_MM / 2);
  if (side === "right") return around(at.x + away + half, at.y, half, LUG_TEXT_MM / 2);
  const down = side === "above" ? -away - LUG_TEXT_MM / 2 : away + LUG_TEXT_MM / 2;
  return around(at.x, at.y + down, half, LUG_TEXT_MM / 2);
}

function around(x: number, y: number, half: number, high: number): PageRect {
  return { left: x - half, right: x + half, top: y - high, bottom: y + high };
}

function overlap(one: PageRect, other: PageRect): boolean {
  return one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom;
}

function lengthOf({ from, to }: Piece): number {
  return Math.hypot(to.x - from.x, to.y - from.y);
}

function page({ x, y }: { readonly x: number; readonly y: number }): { right: number; down: number } {
  return { right: x, down: y };
}
