/**
 * The print check as drawn: rules along the top and left sides of the frame, crosses on its four corners, and boxes for
 * what the owner measures between them.
 */
import { heightOf, type PagePoint, type PageRect, widthOf } from "./geometry.ts";
import { lineMark, type Mark, type MarkGroup, rectMark, type TextMeasure, textMark, thin } from "./marks.ts";
import { fitted } from "./rich-text.ts";

/** Room that a rule takes inside the frame. */
export const TOP_RULE_MM = 7;
export const LEFT_RULE_MM = 10;

const NUMBER_MM = 1.9;
const CROSS_ARM_MM = 4;

/** Whole lengths of the frame: what the rules are marked with and what should be measured. */
export function nominalOf(frame: PageRect): { alongMm: number; acrossMm: number; diagonalMm: number } {
  const [alongMm, acrossMm] = [heightOf(frame), widthOf(frame)];
  return { alongMm, acrossMm, diagonalMm: Math.hypot(alongMm, acrossMm) };
}

export function ruleGroups(frame: PageRect): MarkGroup[] {
  const { left, top, right, bottom } = frame;
  const across = ruleMarks(widthOf(frame), (along, off) => ({ right: left + along, down: top + off }), "across");
  const along = ruleMarks(heightOf(frame), (way, off) => ({ right: left + off, down: top + way }), "along");
  const corners: PagePoint[] = [
    { right: left, down: top },
    { right, down: top },
    { right, down: bottom },
    { right: left, down: bottom },
  ];
  return [
    { id: "frame", role: "frame", marks: [rectMark(frame, { stroke: thin(0.35) })] },
    { id: "rule-across", role: "rule", title: `rule across the sheet, 0 to ${widthOf(frame)} mm`, marks: across },
    { id: "rule-along", role: "rule", title: `rule down the sheet, 0 to ${heightOf(frame)} mm`, marks: along },
    {
      id: "corner-crosses",
      role: "rule",
      title: "corner crosses of the known rectangle",
      marks: corners.flatMap(cornerCross),
    },
  ];
}

/** Ticks at 1, 5 and 10 mm, numbers at the tens, heavier inner marks at every 50 for a rule that is too short. */
function ruleMarks(
  length: number,
  place: (along: number, off: number) => PagePoint,
  which: "across" | "along",
): Mark[] {
  const marks: Mark[] = [];
  for (let mm = 0; mm <= length; mm += 1) {
    const inner = mm % 50 === 0;
    const reach = inner ? 4 : mm % 10 === 0 ? 3.2 : mm % 5 === 0 ? 2.2 : 1.3;
    marks.push(lineMark(place(mm, 0), place(mm, reach), thin(inner ? 0.35 : mm % 10 === 0 ? 0.25 : 0.13)));
    if (mm % 10 !== 0 || mm === 0 || mm > length - 3) continue;
    const weight = inner ? "bold" : "regular";
    marks.push(
      which === "across"
        ? textMark(place(mm, 4.5 + NUMBER_MM), String(mm), { heightMm: NUMBER_MM, anchor: "middle", weight })
        : textMark(place(mm + NUMBER_MM / 2, 4.5), String(mm), { heightMm: NUMBER_MM, weight }),
    );
  }
  return marks;
}

function cornerCross({ right, down }: PagePoint): Mark[] {
  return [
    lineMark({ right: right - CROSS_ARM_MM, down }, { right: right + CROSS_ARM_MM, down }, thin()),
    lineMark({ right, down: down - CROSS_ARM_MM }, { right, down: down + CROSS_ARM_MM }, thin()),
  ];
}

/** The panel with the boxes. `state` says in one line whether the sheet may be used. */
export function printCheckPanel(
  room: PageRect,
  frame: PageRect,
  state: readonly string[],
  measure: TextMeasure,
): MarkGroup {
  const { alongMm, acrossMm, diagonalMm } = nominalOf(frame);
  const marks: Mark[] = [
    textMark({ right: room.left + 2, down: room.top + 4.6 }, "PRINT CHECK", { heightMm: 2.5, weight: "bold" }),
    textMark({ right: room.left + 29, down: room.top + 4.6 }, "steel rule, cross to cross", { heightMm: 1.8 }),
  ];
  const rows = [
    ["down the left side", alongMm],
    ["across the top", acrossMm],
    ["diagonal, top left down", diagonalMm],
    ["diagonal, top right down", diagonalMm],
  ] as const;
  rows.forEach(([what, nominal], index) => {
    const top = room.top + 6.4 + index * 5.8;
    const base = top + 3.6;
    marks.push(textMark({ right: room.left + 2, down: base }, what, { heightMm: 1.9 }));
    marks.push(
      textMark({ right: room.left + 49.5, down: base }, nominal.toFixed(1), {
        heightMm: 2.2,
        anchor: "end",
        weight: "bold",
      }),
    );
    marks.push(textMark({ right: room.left + 51.5, down: base }, "measured", { heightMm: 1.7 }));
    const box = { left: room.left + 64, top, right: room.left + 82, bottom: top + 5 };
    marks.push(
      rectMark(box, { stroke: thin(0.25) }),
      textMark({ right: room.left + 83, down: base }, "mm", { heightMm: 1.7 }),
    );
  });
  state.forEach((text, index) => {
    const weight = index === 0 ? "bold" : "regular";
    const line = fitted(text, 1.9, weight, widthOf(room) - 4, measure);
    marks.push(
      textMark({ right: room.left + 2, down: room.top + 32 + index * 3.6 }, line.text, {
        heightMm: line.heightMm,
        weight,
      }),
    );
  });
  return { id: "print-check", role: "print-check", title: "print check: boxes for what you measure", marks };
}
