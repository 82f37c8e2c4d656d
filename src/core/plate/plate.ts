/**
 * What lies on a control plate that is seen from behind, as outlines, lugs and wires wanted: geometry, no circuit.
 *
 * Frame: millimetres of the drawing at 1:1, x to the right, y down.
 */
import { requireFinite, requirePositive } from "../checks.ts";
import { InputError } from "../errors.ts";

export interface PlatePoint {
  /** To the right, in millimetres. */
  readonly x: number;
  /** Down, in millimetres. */
  readonly y: number;
}

export interface PlateBounds {
  readonly left: number;
  readonly top: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

export type BodyShape =
  | { readonly kind: "circle"; readonly centre: PlatePoint; readonly radiusMm: number }
  | {
      readonly kind: "rectangle";
      readonly centre: PlatePoint;
      readonly widthMm: number;
      readonly heightMm: number;
      /** Clockwise as drawn. */
      readonly angleDegrees: number;
    };

/** A device's outline. No wire runs over it, but for the short way from a lug that stands on it. */
export interface PlateBody {
  readonly id: string;
  readonly shape: BodyShape;
}

export interface Lug {
  readonly id: string;
  readonly at: PlatePoint;
  /** Of its pad: a wire that ends within the pad ends on the lug. */
  readonly radiusMm: number;
  /** Unit vector in which a wire leaves. Without it a wire leaves to any side, over the lug's own body if it must. */
  readonly out?: PlatePoint;
}

export type WireKind = "wire" | "ground";

/** A wire wanted between two lugs. */
export interface Wire {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly kind: WireKind;
}

export interface Plate {
  readonly bounds: PlateBounds;
  readonly bodies: readonly PlateBody[];
  readonly lugs: readonly Lug[];
  readonly wires: readonly Wire[];
}

/** @throws InputError where a size, a place or a name would give a drawing that looks right and is not */
export function checkPlate({ bounds, bodies, lugs, wires }: Plate): void {
  requireFinite(bounds.left, "bounds.left", "mm", "Say where the drawing area begins");
  requireFinite(bounds.top, "bounds.top", "mm", "Say where the drawing area begins");
  requirePositive(bounds.widthMm, "bounds.widthMm", "mm", "Give the drawing area a width");
  requirePositive(bounds.heightMm, "bounds.heightMm", "mm", "Give the drawing area a height");
  refuseTwice("bodies", bodies);
  refuseTwice("lugs", lugs);
  refuseTwice("wires", wires);
  bodies.forEach((body, n) => {
    checkShape(body.shape, `bodies[${n}].shape`);
  });
  lugs.forEach((lug, n) => {
    checkLug(lug, bounds, `lugs[${n}]`);
  });
  refuseOverlap(lugs);
  const known = new Set(lugs.map(({ id }) => id));
  wires.forEach(({ from, to }, n) => {
    for (const [end, id] of Object.entries({ from, to })) {
      if (!known.has(id))
        throw new InputError(`wires[${n}].${end}`, `no lug is called "${id}"`, "Name one of the plate's lugs");
    }
    if (from === to)
      throw new InputError(`wires[${n}]`, `runs from "${from}" to itself`, "Leave it out, or name the other lug");
  });
}

function refuseTwice(where: string, things: readonly { readonly id: string }[]): void {
  const seen = new Set<string>();
  things.forEach(({ id }, n) => {
    if (seen.has(id)) throw new InputError(`${where}[${n}].id`, `"${id}" stands twice`, "Give each its own name");
    seen.add(id);
  });
}

function checkShape(shape: BodyShape, where: string): void {
  checkPoint(shape.centre, `${where}.centre`);
  if (shape.kind === "circle") {
    requirePositive(shape.radiusMm, `${where}.radiusMm`, "mm", "Give the radius of the case");
    return;
  }
  requirePositive(shape.widthMm, `${where}.widthMm`, "mm", "Give the width of the frame");
  requirePositive(shape.heightMm, `${where}.heightMm`, "mm", "Give the height of the frame");
  requireFinite(shape.angleDegrees, `${where}.angleDegrees`, "degrees", "Give 0 if it is not turned");
}

function checkLug({ at, radiusMm, out }: Lug, bounds: PlateBounds, where: string): void {
  checkPoint(at, `${where}.at`);
  requirePositive(radiusMm, `${where}.radiusMm`, "mm", "Give the radius of the lug's pad");
  const inside =
    at.x >= bounds.left &&
    at.x <= bounds.left + bounds.widthMm &&
    at.y >= bounds.top &&
    at.y <= bounds.top + bounds.heightMm;
  if (!inside)
    throw new InputError(`${where}.at`, `(${at.x}, ${at.y}) mm is outside the bounds`, "Move it or widen the bounds");
  if (out && Math.abs(Math.hypot(out.x, out.y) - 1) > 1e-3)
    throw new InputError(`${where}.out`, `(${out.x}, ${out.y}) has not the length 1`, "Give a unit vector");
}

function checkPoint({ x, y }: PlatePoint, where: string): void {
  requireFinite(x, `${where}.x`, "mm", "Give its place on the plate");
  requireFinite(y, `${where}.y`, "mm", "Give its place on the plate");
}

function refuseOverlap(lugs: readonly Lug[]): void {
  lugs.forEach((one, n) => {
    const other = lugs
      .slice(0, n)
      .find(({ at, radiusMm }) => Math.hypot(at.x - one.at.x, at.y - one.at.y) < radiusMm + one.radiusMm);
    if (other)
      throw new InputError(
        `lugs[${n}].at`,
        `its pad lies on that of "${other.id}"`,
        "Move one of them or make it smaller",
      );
  });
}
