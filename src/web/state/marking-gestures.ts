/** Fingers and mouse on the drawing: one drags the plate or the sheet, two zoom, a press that does not move points. */
import { alongOf, type Px, panBy, type View, zoomAt } from "./marking-view.ts";

export interface Gestures {
  readonly view: () => View;
  readonly setView: (view: View) => void;
  /** Place of the plate when it is taken hold of; undefined: it cannot be. */
  readonly plateAt: () => number | undefined;
  readonly movePlate: (placeMm: number) => void;
  readonly letGo: (kept: boolean) => void;
  /** Whether presses point (measuring) instead of taking hold of the plate. */
  readonly pointing: () => boolean;
  readonly point: (at: Px, coarse: boolean) => void;
  readonly hover: (at: Px) => void;
}

const STILL_PX = 5;
const WHEEL = 0.0016;
const PINCH_WHEEL = 0.01;

type Doing =
  | { readonly kind: "nothing" }
  | { readonly kind: "pan"; moved: boolean; readonly start: Px; last: Px }
  | { readonly kind: "plate"; readonly start: Px; readonly from: number }
  | { readonly kind: "pinch"; apart: number; middle: Px };

export function listen(area: HTMLElement, hand: Gestures): () => void {
  const fingers = new Map<number, Px>();
  let doing: Doing = { kind: "nothing" };

  const at = (event: PointerEvent | WheelEvent): Px => {
    const { left, top } = area.getBoundingClientRect();
    return { left: event.clientX - left, top: event.clientY - top };
  };
  const pinch = (): { apart: number; middle: Px } => {
    const [a, b] = [...fingers.values()] as [Px, Px];
    return {
      apart: Math.max(1, Math.hypot(a.left - b.left, a.top - b.top)),
      middle: { left: (a.left + b.left) / 2, top: (a.top + b.top) / 2 },
    };
  };
  const down = (event: PointerEvent): void => {
    const target = event.target as Element;
    if (event.button !== 0 || target.closest("button")) return;
    area.setPointerCapture(event.pointerId);
    fingers.set(event.pointerId, at(event));
    if (fingers.size === 2) {
      if (doing.kind === "plate") hand.letGo(false);
      doing = { kind: "pinch", ...pinch() };
      return;
    }
    if (fingers.size > 2) return;
    const from = target.closest("[data-plate]") && !hand.pointing() ? hand.plateAt() : undefined;
    const start = at(event);
    doing = from === undefined ? { kind: "pan", moved: false, start, last: start } : { kind: "plate", start, from };
  };
  const move = (event: PointerEvent): void => {
    const here = at(event);
    if (!fingers.has(event.pointerId)) {
      if (hand.pointing()) hand.hover(here);
      return;
    }
    fingers.set(event.pointerId, here);
    if (doing.kind === "pinch" && fingers.size === 2) {
      const now = pinch();
      const view = panBy(hand.view(), now.middle.left - doing.middle.left, now.middle.top - doing.middle.top);
      hand.setView(zoomAt(view, now.apart / doing.apart, now.middle));
      doing = { kind: "pinch", ...now };
    } else if (doing.kind === "plate") {
      const by = alongOf(hand.view(), here.left - doing.start.left, here.top - doing.start.top);
      hand.movePlate(doing.from + by);
    } else if (doing.kind === "pan") {
      if (!doing.moved && Math.hypot(here.left - doing.start.left, here.top - doing.start.top) < STILL_PX) return;
      doing.moved = true;
      hand.setView(panBy(hand.view(), here.left - doing.last.left, here.top - doing.last.top));
      doing.last = here;
    }
  };
  const up = (event: PointerEvent): void => {
    if (!fingers.delete(event.pointerId)) return;
    const cancelled = event.type === "pointercancel";
    if (doing.kind === "plate") hand.letGo(!cancelled);
    else if (doing.kind === "pan" && !doing.moved && !cancelled && hand.pointing())
      hand.point(doing.start, event.pointerType === "touch");
    // The finger that stays must not drag on what two of them began.
    doing = { kind: "nothing" };
  };
  const wheel = (event: WheelEvent): void => {
    event.preventDefault();
    const lines = event.deltaMode === 1 ? 16 : 1;
    const factor = Math.exp(-event.deltaY * lines * (event.ctrlKey ? PINCH_WHEEL : WHEEL));
    hand.setView(zoomAt(hand.view(), factor, at(event)));
  };
  area.addEventListener("pointerdown", down);
  area.addEventListener("pointermove", move);
  area.addEventListener("pointerup", up);
  area.addEventListener("pointercancel", up);
  area.addEventListener("wheel", wheel, { passive: false });
  return () => {
    area.removeEventListener("pointerdown", down);
    area.removeEventListener("pointermove", move);
    area.removeEventListener("pointerup", up);
    area.removeEventListener("pointercancel", up);
    area.removeEventListener("wheel", wheel);
  };
}
