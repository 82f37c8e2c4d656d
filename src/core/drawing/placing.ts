/**
 * Where a scene's frame stands on a page. Turn 0 puts the head up (x points down the page); turn 90 puts the head to
 * the left (x points right). A scene seen from behind is what you see when the body lies on its face with the head the
 * same way: y changes sides. Nothing else ever mirrors.
 */
import type { FramePoint, PagePoint } from "./geometry.ts";
import type { Frame, View } from "./scene.ts";

export type Turn = 0 | 90;

export interface Placing {
  readonly view: View;
  readonly turn: Turn;
  /** Page place of the frame's (0, 0). */
  readonly origin: PagePoint;
  /** Page mm per frame mm: 1 on every template, less only on sketches. */
  readonly scale: number;
}

/** Page directions of the frame's axes, as unit steps. */
function axesOf(view: View, turn: Turn): { x: PagePoint; y: PagePoint } {
  const side = view === "front" ? 1 : -1;
  return turn === 0
    ? { x: { right: 0, down: 1 }, y: { right: side, down: 0 } }
    : { x: { right: 1, down: 0 }, y: { right: 0, down: -side } };
}

export function toPage(placing: Placing, point: FramePoint): PagePoint {
  const { x, y } = axesOf(placing.view, placing.turn);
  const { origin, scale } = placing;
  return {
    right: origin.right + scale * (x.right * point.x + y.right * point.y),
    down: origin.down + scale * (x.down * point.x + y.down * point.y),
  };
}

/** The frame's axes as page directions of length 1. */
export function pageAxes(placing: Placing): { readonly x: PagePoint; readonly y: PagePoint } {
  return axesOf(placing.view, placing.turn);
}

export function moved(placing: Placing, by: PagePoint): Placing {
  const { origin } = placing;
  return { ...placing, origin: { right: origin.right + by.right, down: origin.down + by.down } };
}

/**
 * How the sheet must be held, worked out from the placing so that the words cannot disagree with the drawing.
 *
 * @example viewStatement({ …, bassSide: -1 }, "front", 0); // "seen from the front, head up, bass side left (y < 0)"
 */
export function viewStatement(frame: Frame, view: View, turn: Turn): string {
  const parts = [view === "front" ? "seen from the front" : "SEEN FROM BEHIND", turn === 0 ? "head up" : "head left"];
  if (frame.bassSide !== undefined) {
    const { y } = axesOf(view, turn);
    const step = turn === 0 ? y.right * frame.bassSide : y.down * frame.bassSide;
    const way = turn === 0 ? (step < 0 ? "left" : "right") : step < 0 ? "up" : "down";
    parts.push(`bass side ${way} (${frame.axes[1]} ${frame.bassSide < 0 ? "<" : ">"} 0)`);
  }
  return parts.join(", ");
}
