/**
 * Finds a place for each label among the places where it would still be understood: clear of holes and other text,
 * then off lines, then in the order of preference given. Greedy, in the order of the requests, so the same scene
 * always gives the same sheet.
 */
import { grow, overlapArea, type PagePoint, type PageRect } from "./geometry.ts";
import { type Mark, rectMark, type TextMark, type TextMeasure, textBox } from "./marks.ts";

export interface LabelRequest {
  readonly id: string;
  /** Best first; at least one. */
  readonly candidates: readonly TextMark[];
}

export interface PlacedLabel {
  readonly id: string;
  readonly box: PageRect;
  readonly marks: readonly Mark[];
}

export interface Obstacles {
  /** Holes, symbols and text already there. */
  readonly boxes: readonly PageRect[];
  readonly pieces: readonly (readonly [PagePoint, PagePoint])[];
  /** Hatched areas: text over them is hard to read. */
  readonly areas: readonly PageRect[];
}

const COST_BOX_PER_MM2 = 20;
const COST_AREA_PER_MM2 = 3;
const COST_LINE_PER_MM = 0.4;
const COST_PREFERENCE = 0.4;
const CLEAR_MM = 0.5;

export function placeLabels(
  requests: readonly LabelRequest[],
  obstacles: Obstacles,
  measure: TextMeasure,
): PlacedLabel[] {
  const boxes = [...obstacles.boxes];
  return requests.map(({ id, candidates }) => {
    let best: { cost: number; text: TextMark; box: PageRect; onLine: boolean } | undefined;
    candidates.forEach((text, preference) => {
      const box = textBox(text, measure);
      const room = grow(box, CLEAR_MM);
      const lineMm = obstacles.pieces.reduce((sum, [a, b]) => sum + lengthInside(a, b, room), 0);
      const area = boxes.reduce((sum, other) => sum + overlapArea(room, other), 0);
      const hatched = obstacles.areas.reduce((sum, other) => sum + overlapArea(room, other), 0);
      const cost =
        area * COST_BOX_PER_MM2 +
        hatched * COST_AREA_PER_MM2 +
        lineMm * COST_LINE_PER_MM +
        preference * COST_PREFERENCE;
      if (best === undefined || cost < best.cost - 1e-9) best = { cost, text, box, onLine: lineMm > 0 };
    });
    if (best === undefined) return { id, box: { left: 0, top: 0, right: 0, bottom: 0 }, marks: [] };
    boxes.push(best.box);
    // Lines behind a text are broken for it, as on any drawing.
    const ground =
      best.onLine && best.text.turnDegrees % 90 === 0 ? [rectMark(grow(best.box, 0.3), { fill: "paper" })] : [];
    return { id, box: best.box, marks: [...ground, best.text] };
  });
}

/** Length of the piece that lies inside the box (Liang and Barsky's clipping). */
export function lengthInside(a: PagePoint, b: PagePoint, box: PageRect): number {
  const [dr, dd] = [b.right - a.right, b.down - a.down];
  let [enter, leave] = [0, 1];
  for (const [step, room] of [
    [-dr, a.right - box.left],
    [dr, box.right - a.right],
    [-dd, a.down - box.top],
    [dd, box.bottom - a.down],
  ] as const) {
    if (step === 0) {
      if (room < 0) return 0;
      continue;
    }
    const t = room / step;
    if (step < 0) enter = Math.max(enter, t);
    else leave = Math.min(leave, t);
  }
  return leave > enter ? (leave - enter) * Math.hypot(dr, dd) : 0;
}
