/**
 * Named points of the drawing, and the distance between two of them with its doubt.
 *
 * Doubt: root of the sum of squares of the error terms, a term that both points carry taken off first, so that two holes
 * of one row are not blamed for where the row lies (JCGM 100:2008, 5.2.2, from memory). A point that is drawn and was not
 * measured has none, and then none is told.
 */
import { arcOfSide, type FramePoint, type Item } from "../drawing/index.ts";
import type { Instrument } from "../job/index.ts";
import type { DoubtTerm, Quantity } from "../quantity/index.ts";

export interface MarkPoint extends FramePoint {
  readonly id: string;
  readonly name: string;
  /** Error terms along and across, where they are known. */
  readonly doubt?: { readonly along: readonly DoubtTerm[]; readonly across: readonly DoubtTerm[] };
}

export interface Between {
  readonly straightMm: number;
  readonly alongMm: number;
  readonly acrossMm: number;
  /** Standard uncertainties; left out where one of the points has no known doubt. */
  readonly u?: { readonly straightMm: number; readonly alongMm: number; readonly acrossMm: number };
}

type Spot = FramePoint & { readonly doubt?: MarkPoint["doubt"] | undefined };

export function measureBetween(a: Spot, b: Spot): Between {
  const alongMm = b.x - a.x;
  const acrossMm = b.y - a.y;
  const straightMm = Math.hypot(alongMm, acrossMm);
  const distance = { straightMm, alongMm: Math.abs(alongMm), acrossMm: Math.abs(acrossMm) };
  if (!a.doubt || !b.doubt) return distance;
  const along = apartU(a.doubt.along, b.doubt.along);
  const across = apartU(a.doubt.across, b.doubt.across);
  // At no distance every direction is as good as another.
  const straight =
    straightMm === 0
      ? Math.max(along, across)
      : Math.hypot((alongMm / straightMm) * along, (acrossMm / straightMm) * across);
  return { ...distance, u: { straightMm: straight, alongMm: along, acrossMm: across } };
}

function apartU(a: readonly DoubtTerm[], b: readonly DoubtTerm[]): number {
  const loads = new Map<string, number>();
  for (const { id, u } of b) loads.set(id, (loads.get(id) ?? 0) + u);
  for (const { id, u } of a) loads.set(id, (loads.get(id) ?? 0) - u);
  return Math.hypot(...loads.values());
}

/** Ends, corners and middles of everything drawn, and the holes with their doubt. */
export function markPoints(instrument: Instrument, items: readonly Item[]): MarkPoint[] {
  const measured = new Map([...instrument.body.holes, ...instrument.body.neckScrews].map((one) => [one.id, one.at]));
  const { drillingDoubt } = instrument.workshop;
  const drilling = drillingDoubt.known ? drillingDoubt.value : 0;
  return items.flatMap((item): MarkPoint[] => {
    const { geometry, id } = item;
    const name = nameOf(item);
    switch (geometry.kind) {
      case "hole": {
        const at = measured.get(id);
        const doubt = at
          ? doubtOf(at.u, at.y)
          : MADE.test(id)
            ? { along: madeBy("along", drilling), across: madeBy("across", drilling) }
            : undefined;
        return item.role === "plug"
          ? []
          : [{ id, name: `middle of ${name}`, ...geometry.centre, ...(doubt ? { doubt } : {}) }];
      }
      case "circle":
        return [{ id, name: `middle of ${name}`, ...geometry.centre }];
      case "line":
        return linePoints(id, name, geometry.from, geometry.to);
      case "outline":
        return outlinePoints(id, name, geometry.corners);
      default:
        return [];
    }
  });
}

const MADE = /^(bridge|tailpiece|unit-\d+)-/;

function doubtOf(u: Quantity, y: Quantity): MarkPoint["doubt"] {
  return u.known && y.known ? { along: u.doubt, across: y.doubt } : undefined;
}

/** All holes of a piece are drilled with one error, as the place's chance has it. */
function madeBy(name: string, u: number): DoubtTerm[] {
  return u === 0 ? [] : [{ id: `settings.drilling.${name}`, u, shape: "normal", what: `how the drill runs, ${name}` }];
}

function linePoints(id: string, name: string, from: FramePoint, to: FramePoint): MarkPoint[] {
  const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
  if (id.startsWith("fret-") || id === "nut")
    return [{ id, name: `middle of ${name === "nut" ? "the nut" : name}`, ...middle }];
  if (id.startsWith("string-"))
    return [
      { id: `${id}-nut`, name: `${name} at the nut`, ...from },
      { id: `${id}-saddle`, name: `${name} at its saddle`, ...to },
    ];
  if (id === "centre" || id.startsWith("board-") || id === "window") return [];
  return [{ id, name: `${name} on the centre line`, x: middle.x, y: middle.y }];
}

const SIDES = ["front left", "rear left", "rear right", "front right"] as const;

/** The middle, and the four corners as they would be without their rounding. */
function outlinePoints(
  id: string,
  name: string,
  corners: readonly (FramePoint & { readonly bulge?: number })[],
): MarkPoint[] {
  if (/^(rework|channel)/.test(id)) return [];
  const sharp = sharpCorners(corners);
  const middle = {
    x: sharp.reduce((sum, { x }) => sum + x, 0) / sharp.length,
    y: sharp.reduce((sum, { y }) => sum + y, 0) / sharp.length,
  };
  return [
    { id, name: `middle of ${name}`, ...middle },
    ...sharp.map((at, index) => ({
      id: `${id}-${index}`,
      name: `${SIDES[index] ?? index + 1} corner of ${name}`,
      ...at,
    })),
  ];
}

/** A rounded rectangle's eight ends of sides give four corners where the sides would meet. */
function sharpCorners(corners: readonly (FramePoint & { readonly bulge?: number })[]): FramePoint[] {
  if (corners.length !== 8) return [...corners];
  const found: FramePoint[] = [];
  corners.forEach((corner, index) => {
    const next = corners[(index + 1) % corners.length] as FramePoint;
    const arc = arcOfSide(corner, next);
    // The corner mirrors the arc's centre in the chord.
    if (arc) found.push({ x: corner.x + next.x - arc.centre.x, y: corner.y + next.y - arc.centre.y });
  });
  // The last corner of the list is the front left one.
  const last = found.pop();
  return last ? [last, ...found] : [...corners];
}

/** What an item is called in a list of points. */
function nameOf({ id, label }: Item): string {
  const pole = /^pickup-(.+)-pole-(\d)(?:-(\d))?$/.exec(id);
  if (pole)
    return `pole ${pole[2]}${pole[3] ? (pole[3] === "1" ? ", first" : ", second") : ""} of the ${words(pole[1])} pickup`;
  const pickup = /^pickup-(.+)-(body|ears)$/.exec(id);
  if (pickup) return `the ${words(pickup[1])} pickup${pickup[2] === "ears" ? "'s ears" : ""}`;
  const control = /^control-(.+)$/.exec(id);
  if (control) return `the ${words(control[1])} hole`;
  const text = typeof label === "string" ? label : "";
  if (text === "") return words(id);
  if (id.startsWith("string-")) return `string ${text}`.replace("string string", "string");
  return /^(the|ears|fret|nut|new|old|post|end)/.test(text) || id.includes("#") ? text : `the ${text}`;
}

function words(id = ""): string {
  return id.replaceAll("-", " ");
}
