/** Where the drawing lies under the eye: zoom, pan, which way up, and what a press comes near. Pure. */
import type { Scene } from "../../core/drawing/index.ts";
import type { Box, DimensionOf, EditableDimension, MarkingOut, MarkPoint } from "../../core/sheets/index.ts";

/** A place of the body: x along toward the tail, y to the right with the head up. */
export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** A place of the page's drawing, px. */
export interface Px {
  readonly left: number;
  readonly top: number;
}

export interface View {
  /** px to the mm. */
  readonly scale: number;
  /** What lies in the middle. */
  readonly x: number;
  readonly y: number;
  /** "down": head up, tail down; "across": head to the left, treble side of a right-handed instrument up. */
  readonly turn: "across" | "down";
  readonly width: number;
  readonly height: number;
}

const LEAST_SCALE = 0.1;
const MOST_SCALE = 80;
const EDGE_PX = 26;

/** Room kept round a box for its dimensions. */
export const DIMENSIONS_PX = 78;

export function fitTo(box: Box, view: Pick<View, "width" | "height">, aroundPx = EDGE_PX): View {
  const { width, height } = view;
  const turn = width > height * 1.15 ? "across" : "down";
  const long = Math.max(1, box.maxX - box.minX);
  const wide = Math.max(1, box.maxY - box.minY);
  const room = (size: number, px: number) => Math.max(40, px - 2 * size);
  const scale =
    turn === "across"
      ? Math.min(room(EDGE_PX, width) / long, room(aroundPx, height) / wide)
      : Math.min(room(EDGE_PX, height) / long, room(aroundPx, width) / wide);
  return { scale: within(scale), x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2, turn, width, height };
}

function within(scale: number): number {
  return Math.min(MOST_SCALE, Math.max(LEAST_SCALE, scale));
}

export function toScreen({ scale, x, y, turn, width, height }: View, at: Spot): Px {
  return turn === "across"
    ? { left: width / 2 + (at.x - x) * scale, top: height / 2 - (at.y - y) * scale }
    : { left: width / 2 + (at.y - y) * scale, top: height / 2 + (at.x - x) * scale };
}

export function toBody({ scale, x, y, turn, width, height }: View, { left, top }: Px): Spot {
  return turn === "across"
    ? { x: x + (left - width / 2) / scale, y: y - (top - height / 2) / scale }
    : { x: x + (top - height / 2) / scale, y: y + (left - width / 2) / scale };
}

/** The same as a matrix, for everything that is drawn in mm. */
export function matrixOf(view: View): string {
  const { left, top } = toScreen(view, { x: 0, y: 0 });
  const s = view.scale;
  return view.turn === "across" ? `matrix(${s} 0 0 ${-s} ${left} ${top})` : `matrix(0 ${s} ${s} 0 ${left} ${top})`;
}

/** What lies under `at` stays there. */
export function zoomAt(view: View, factor: number, at: Px): View {
  const scale = within(view.scale * factor);
  const still = toBody(view, at);
  const moved = toBody({ ...view, scale }, at);
  return { ...view, scale, x: view.x + still.x - moved.x, y: view.y + still.y - moved.y };
}

export function panBy(view: View, leftPx: number, topPx: number): View {
  const { scale } = view;
  return view.turn === "across"
    ? { ...view, x: view.x - leftPx / scale, y: view.y + topPx / scale }
    : { ...view, x: view.x - topPx / scale, y: view.y - leftPx / scale };
}

/** How far along the strings a move of the pointer goes, mm. */
export function alongOf(view: View, leftPx: number, topPx: number): number {
  return (view.turn === "across" ? leftPx : topPx) / view.scale;
}

export interface Snapped extends Spot {
  readonly name: string;
  readonly doubt?: MarkPoint["doubt"];
}

/** The named point under the finger, else the nearest place of a drawn edge, else the bare place. */
export function snap(view: View, points: readonly MarkPoint[], scene: Scene, at: Px, reachPx: number): Snapped {
  let best: MarkPoint | undefined;
  let least = reachPx;
  for (const point of points) {
    const there = toScreen(view, point);
    const apart = Math.hypot(there.left - at.left, there.top - at.top);
    if (apart < least) {
      least = apart;
      best = point;
    }
  }
  if (best) return best;
  const here = toBody(view, at);
  const edge = nearestEdge(scene, here, (reachPx * 0.6) / view.scale);
  return edge ?? { ...here, name: "a bare place" };
}

function nearestEdge(scene: Scene, at: Spot, reachMm: number): Snapped | undefined {
  let best: Snapped | undefined;
  let least = reachMm;
  const take = (from: Spot, to: Spot, name: string) => {
    const near = onSegment(from, to, at);
    const apart = Math.hypot(near.x - at.x, near.y - at.y);
    if (apart < least) {
      least = apart;
      best = { ...near, name };
    }
  };
  for (const { geometry, label, id } of scene.items) {
    const name = `on ${typeof label === "string" ? label : id.replaceAll("-", " ")}`;
    if (geometry.kind === "line") take(geometry.from, geometry.to, name);
    else if (geometry.kind === "outline")
      geometry.corners.forEach((corner, index) => {
        const next = geometry.corners[(index + 1) % geometry.corners.length];
        if (next && !corner.bulge) take(corner, next, name);
      });
  }
  return best;
}

function onSegment(from: Spot, to: Spot, at: Spot): Spot {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((at.x - from.x) * dx + (at.y - from.y) * dy) / square));
  return { x: from.x + t * dx, y: from.y + t * dy };
}

/** What can be looked at by name. */
export interface Sight {
  readonly id: DimensionOf;
  readonly name: string;
  readonly box: Box;
}

const HOLE_AROUND_MM = 7;

export function sightsOf(sheet: MarkingOut): { readonly routs: readonly Sight[]; readonly holes: readonly Sight[] } {
  const around = (x: number, y: number, by: number): Box => ({
    minX: x - by,
    maxX: x + by,
    minY: y - by,
    maxY: y + by,
  });
  const routs: Sight[] = [];
  const holes: Sight[] = [];
  for (const { id, role, geometry, label } of sheet.scene.items) {
    const name = typeof label === "string" ? label : id;
    const rout = /^cavity-(.+)$/.exec(id);
    if (rout && geometry.kind === "outline" && !id.endsWith("-ears")) {
      const xs = geometry.corners.map(({ x }) => x);
      const ys = geometry.corners.map(({ y }) => y);
      const box = {
        minX: Math.min(...xs),
        maxX: Math.max(...xs),
        minY: Math.min(...ys) - 12,
        maxY: Math.max(...ys) + 12,
      };
      routs.push({ id: `rout ${rout[1]}`, name, box });
    }
    if (geometry.kind === "hole" && role !== "plug") {
      const by = geometry.diameterMm / 2 + HOLE_AROUND_MM;
      holes.push({ id: `hole ${id}`, name, box: around(geometry.centre.x, geometry.centre.y, by) });
    }
  }
  return { routs, holes };
}

const HOLE_SEEN_PX = 26;
const ROUT_SEEN_PX = 90;

/** Whose dimensions are shown: the smallest thing that lies in the middle and is large enough to be read. */
export function lookedAt(sheet: MarkingOut, sights: ReturnType<typeof sightsOf>, view: View): DimensionOf {
  const whole = fitTo(sheet.whole, view).scale;
  if (view.scale < whole * 1.6) return "whole";
  const apart = ({ box }: Sight) => Math.hypot((box.minX + box.maxX) / 2 - view.x, (box.minY + box.maxY) / 2 - view.y);
  const large = sights.holes.filter(
    ({ box }) => (box.maxX - box.minX - 2 * HOLE_AROUND_MM) * view.scale >= HOLE_SEEN_PX,
  );
  const told = new Set(sheet.dimensions.map(({ of }) => of));
  const hole = large.filter(({ id }) => told.has(id)).sort((a, b) => apart(a) - apart(b))[0];
  if (hole && inside(grown(hole.box, 12), view)) return hole.id;
  if (inside(sheet.bridge, view)) return "bridge";
  const rout = sights.routs.find(({ box }) => inside(box, view) && (box.maxX - box.minX) * view.scale >= ROUT_SEEN_PX);
  return rout?.id ?? "whole";
}

function inside(box: Box, { x, y }: Spot): boolean {
  return x >= box.minX && x <= box.maxX && y >= box.minY && y <= box.maxY;
}

function grown(box: Box, by: number): Box {
  return { minX: box.minX - by, maxX: box.maxX + by, minY: box.minY - by, maxY: box.maxY + by };
}

/** A dimension line as it is drawn: witness lines from the thing, the line itself, where its figure stands. */
export interface DimensionLine {
  readonly from: Px;
  readonly to: Px;
  readonly lineFrom: Px;
  readonly lineTo: Px;
  readonly middle: Px;
  /** Length of what can be seen of it. */
  readonly seenPx: number;
}

const FIRST_ROW_PX = 20;
const NEXT_ROW_PX = 30;

export function dimensionLine(view: View, one: EditableDimension): DimensionLine | undefined {
  const offMm = (one.off * (FIRST_ROW_PX + one.row * NEXT_ROW_PX)) / view.scale;
  const at = one.edge + offMm;
  const moved = (spot: Spot): Spot => (one.along === "x" ? { x: spot.x, y: at } : { x: at, y: spot.y });
  const [lineFrom, lineTo] = [toScreen(view, moved(one.from)), toScreen(view, moved(one.to))];
  const upright = Math.abs(lineTo.top - lineFrom.top) > Math.abs(lineTo.left - lineFrom.left);
  const [a, b] = upright ? [lineFrom.top, lineTo.top] : [lineFrom.left, lineTo.left];
  const low = Math.max(0, Math.min(a, b));
  const high = Math.min(upright ? view.height : view.width, Math.max(a, b));
  const across = upright ? lineFrom.left : lineFrom.top;
  if (high <= low || across < 8 || across > (upright ? view.width : view.height) - 8) return undefined;
  const middle = upright ? { left: across, top: (low + high) / 2 } : { left: (low + high) / 2, top: across };
  return {
    from: toScreen(view, one.from),
    to: toScreen(view, one.to),
    lineFrom,
    lineTo,
    middle,
    seenPx: high - low,
  };
}

export interface Lettering {
  readonly id: string;
  readonly text: string;
  /** Middle of the text. */
  readonly at: Px;
  /** Width of a letter, where it is not that of a figure. */
  readonly letterPx?: number;
}

const LETTER_PX = 7.4;
const LINE_PX = 18;

/** Words that do not lie on one another: the first come stand, the rest wait for a nearer view. */
export function withoutOverlap<T extends Lettering>(
  wanted: readonly T[],
  { width, height }: View,
  taken: readonly Lettering[] = [],
): T[] {
  const boxes = taken.map(boxOf);
  return wanted.filter((one) => {
    const box = boxOf(one);
    if (box.right < 0 || box.left > width || box.bottom < 0 || box.top > height) return false;
    if (boxes.some((other) => meets(box, other))) return false;
    boxes.push(box);
    return true;
  });
}

function boxOf({ text, at, letterPx = LETTER_PX }: Lettering) {
  const half = (text.length * letterPx) / 2 + 4;
  return { left: at.left - half, right: at.left + half, top: at.top - LINE_PX / 2, bottom: at.top + LINE_PX / 2 };
}

type TextBox = ReturnType<typeof boxOf>;

function meets(a: TextBox, b: TextBox): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}
