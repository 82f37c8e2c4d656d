/**
 * A scene: a flat list of things in true millimetres, each with an id, a role and a shape. It says what things are and
 * where; how they look follows from their roles, and where they stand on paper is decided when a sheet is laid out.
 *
 * @example
 * const scene = makeScene({
 *   id: "bridge", title: "Bridge template", view: "front",
 *   frame: { name: "body", origin: "end wall of the pocket, on the centre line", axes: ["u", "y"], bassSide: -1 },
 *   datum: { at: { x: -12.5, y: 0 }, name: "fret 12 on the centre line" },
 *   items: [
 *     line("centre line", "centre", { x: -30, y: 0 }, { x: 130, y: 0 }, "centre line"),
 *     hole("new hole", "bridge#1", { centre: { x: 96, y: -20 }, diameterMm: 2.8, depthMm: 26, datum: "body top" }),
 *   ],
 * });
 */
import { requireFinite, requirePositive } from "../checks.ts";
import { InputError } from "../errors.ts";
import type { Phrase } from "../quantity/index.ts";
import type { FramePoint, Vertex } from "./geometry.ts";
import { type LabelPlace, type Role, styleOf } from "./roles.ts";

/** Text for people: plain, or a phrase whose lengths follow the mm/inch switch. */
export type Words = string | Phrase;

export interface Frame {
  /** e.g. "body", "neck", or a part's name. */
  readonly name: string;
  /** What stands at (0, 0), in words. */
  readonly origin: string;
  /** Letters of the two axes: x points toward the tail, y to the right with the head up. */
  readonly axes: readonly [string, string];
  /** Sign of y on the bass side; left out where strings mean nothing (a cover, a card). */
  readonly bassSide?: 1 | -1;
}

export type View = "front" | "behind";

/** The point that every place on a sheet counts from, e.g. fret 12 on the centre line. */
export interface Datum {
  readonly at: FramePoint;
  readonly name: string;
}

/** "not known": an old hole that nobody has measured. "not settled": a hole to drill whose depth no answer allows as given; no stop is set by it. */
export type HoleDepth = number | "through" | "not known" | "not settled";

export interface HoleShape {
  readonly centre: FramePoint;
  /** Size of the drill, or of the hole that is there. */
  readonly diameterMm: number;
  /** Drawn as somebody wished for it, but no bit is to be taken by it yet. */
  readonly bit?: "not settled";
  readonly depthMm: HoleDepth;
  /** The face that the depth counts from and the bit enters, e.g. "body top". */
  readonly datum: string;
}

export type Anchor = "start" | "middle" | "end";

export type Geometry =
  | { readonly kind: "line"; readonly from: FramePoint; readonly to: FramePoint }
  | { readonly kind: "outline"; readonly corners: readonly Vertex[]; readonly closed: boolean }
  | { readonly kind: "circle"; readonly centre: FramePoint; readonly diameterMm: number }
  | {
      readonly kind: "arc";
      readonly centre: FramePoint;
      readonly radiusMm: number;
      readonly fromDegrees: number;
      readonly sweepDegrees: number;
    }
  | ({ readonly kind: "hole" } & HoleShape)
  | ({ readonly kind: "dimension" } & DimensionShape)
  | ({ readonly kind: "running dimension" } & RunningShape)
  | ({ readonly kind: "text" } & TextShape);

export interface DimensionShape {
  readonly from: FramePoint;
  readonly to: FramePoint;
  /** Measured along the frame's x or y, or straight from point to point. */
  readonly along: "x" | "y" | "straight";
  /**
   * Where the dimension line stands: for "x" its y, for "y" its x, for "straight" its distance to the left of the way
   * from `from` to `to`.
   */
  readonly lineAt: number;
  /** Decimals in mm, 1 unless given. */
  readonly digits?: number;
  /** Instead of the bare figure, e.g. say`pitch ${mm(19)}`. */
  readonly words?: Words;
}

/** Dimensions that all count from one origin (ISO 129-1, superimposed running dimensions). */
export interface RunningShape {
  readonly origin: FramePoint;
  readonly points: readonly FramePoint[];
  readonly along: "x" | "y";
  /** For "x" the y of the common line, for "y" its x. */
  readonly lineAt: number;
  readonly digits?: number;
}

export interface TextShape {
  readonly at: FramePoint;
  readonly words: Words;
  /** Height of its capitals on the paper, 2.5 unless given. */
  readonly heightMm?: number;
  readonly anchor?: Anchor;
  readonly bold?: boolean;
  /** A thin line with an arrow from the text to this point. */
  readonly pointsAt?: FramePoint;
}

export interface Item {
  readonly id: string;
  readonly role: Role;
  /** Layer in DXF; the role's own unless given. */
  readonly layer: string;
  readonly geometry: Geometry;
  readonly label?: Words;
  readonly labelAt?: LabelPlace;
  /** Short code beside a hole, e.g. "H1"; given by `makeScene` where left out. */
  readonly mark?: string;
}

export interface Scene {
  readonly id: string;
  readonly title: string;
  readonly frame: Frame;
  readonly view: View;
  readonly datum: Datum;
  readonly items: readonly Item[];
}

/**
 * Checks a scene and gives every hole its mark.
 *
 * @throws InputError if two items share an id, two holes share a mark, or a number is missing
 */
export function makeScene(scene: Scene): Scene {
  // The datum is drawn by itself under this id.
  const ids = new Set<string>(["datum"]);
  const marks = new Set<string>();
  checkPoint(scene.datum.at, "datum.at");
  scene.items.forEach((item, index) => {
    const where = `items[${index}]`;
    if (ids.has(item.id)) {
      throw new InputError(`${where}.id`, `"${item.id}" is used twice`, "Give every item of a scene its own id");
    }
    ids.add(item.id);
    if (item.mark !== undefined && marks.has(item.mark)) {
      throw new InputError(`${where}.mark`, `"${item.mark}" is used twice`, "Give every hole its own mark");
    }
    if (item.mark !== undefined) marks.add(item.mark);
    checkGeometry(item.geometry, where);
  });
  return { ...scene, items: scene.items.map((item) => withMark(item, marks)) };
}

function withMark(item: Item, taken: Set<string>): Item {
  if (item.geometry.kind !== "hole" || item.mark !== undefined) return item;
  const { letter } = styleOf(item.role);
  let number = 1;
  while (taken.has(`${letter}${number}`)) number += 1;
  const mark = `${letter}${number}`;
  taken.add(mark);
  return { ...item, mark };
}

interface ItemExtras {
  readonly layer?: string;
  readonly label?: Words;
  readonly labelAt?: LabelPlace;
  readonly mark?: string;
}

function item(role: Role, id: string, geometry: Geometry, extras: ItemExtras = {}): Item {
  return { id, role, layer: styleOf(role).layer, geometry, ...extras };
}

function labelled(label: Words | ItemExtras | undefined): ItemExtras {
  if (label === undefined) return {};
  return typeof label === "string" || Array.isArray(label) ? { label: label as Words } : (label as ItemExtras);
}

export function line(role: Role, id: string, from: FramePoint, to: FramePoint, label?: Words | ItemExtras): Item {
  return item(role, id, { kind: "line", from, to }, labelled(label));
}

/** A closed outline; roles with a hatch fill it. */
export function outline(role: Role, id: string, corners: readonly Vertex[], label?: Words | ItemExtras): Item {
  return item(role, id, { kind: "outline", corners, closed: true }, labelled(label));
}

export function openOutline(role: Role, id: string, corners: readonly Vertex[], label?: Words | ItemExtras): Item {
  return item(role, id, { kind: "outline", corners, closed: false }, labelled(label));
}

export function circle(
  role: Role,
  id: string,
  centre: FramePoint,
  diameterMm: number,
  label?: Words | ItemExtras,
): Item {
  return item(role, id, { kind: "circle", centre, diameterMm }, labelled(label));
}

export function arc(
  role: Role,
  id: string,
  shape: Omit<Extract<Geometry, { kind: "arc" }>, "kind">,
  label?: Words | ItemExtras,
): Item {
  return item(role, id, { kind: "arc", ...shape }, labelled(label));
}

export function hole(role: Role, id: string, shape: HoleShape, extras?: ItemExtras): Item {
  return item(role, id, { kind: "hole", ...shape }, extras);
}

export function dimension(id: string, shape: DimensionShape): Item {
  return item("dimension", id, { kind: "dimension", ...shape });
}

export function runningDimension(id: string, shape: RunningShape): Item {
  return item("dimension", id, { kind: "running dimension", ...shape });
}

export function note(id: string, shape: TextShape): Item {
  return item("note", id, { kind: "text", ...shape });
}

function checkPoint(point: FramePoint, where: string): void {
  requireFinite(point.x, `${where}.x`, "mm", "Give the place in the scene's frame");
  requireFinite(point.y, `${where}.y`, "mm", "Give the place in the scene's frame");
}

function checkGeometry(geometry: Geometry, where: string): void {
  switch (geometry.kind) {
    case "line":
      checkPoint(geometry.from, `${where}.from`);
      checkPoint(geometry.to, `${where}.to`);
      return;
    case "outline":
      for (const [index, corner] of geometry.corners.entries()) checkPoint(corner, `${where}.corners[${index}]`);
      if (geometry.corners.length < 2) {
        throw new InputError(`${where}.corners`, "has fewer than two corners", "Give the whole outline");
      }
      return;
    case "circle":
    case "hole":
      checkPoint(geometry.centre, `${where}.centre`);
      requirePositive(geometry.diameterMm, `${where}.diameterMm`, "mm", "Give the diameter of the hole or circle");
      if (geometry.kind === "hole" && typeof geometry.depthMm === "number") {
        requirePositive(geometry.depthMm, `${where}.depthMm`, "mm", 'Give the depth, or "through"');
      }
      return;
    case "arc":
      checkPoint(geometry.centre, `${where}.centre`);
      requirePositive(geometry.radiusMm, `${where}.radiusMm`, "mm", "Give the radius of the arc");
      requireFinite(geometry.fromDegrees, `${where}.fromDegrees`, "degrees", "Give the direction of the arc's start");
      requireFinite(geometry.sweepDegrees, `${where}.sweepDegrees`, "degrees", "Give the angle that the arc turns");
      return;
    case "dimension":
      checkPoint(geometry.from, `${where}.from`);
      checkPoint(geometry.to, `${where}.to`);
      requireFinite(geometry.lineAt, `${where}.lineAt`, "mm", "Say where the dimension line stands");
      return;
    case "running dimension":
      checkPoint(geometry.origin, `${where}.origin`);
      for (const [index, point] of geometry.points.entries()) checkPoint(point, `${where}.points[${index}]`);
      requireFinite(geometry.lineAt, `${where}.lineAt`, "mm", "Say where the dimension line stands");
      return;
    case "text":
      checkPoint(geometry.at, `${where}.at`);
      return;
    default:
      geometry satisfies never;
  }
}
