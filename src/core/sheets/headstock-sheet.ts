/** One tuner hole at 1:1, seen from the front of the headstock's back face: hole as it is, hole to ream, screw. */
import { circle, type DrawingSheet, hole, type Item, line, makeScene, note } from "../drawing/index.ts";
import { mm, say } from "../quantity/index.ts";
import { type SheetContext, titleFields } from "./context.ts";

/** Tuners drawn in a row when their pitch is known, else one that stands for all. */
export function headstockSheet(context: SheetContext): DrawingSheet | undefined {
  const { tuners } = context.instrument;
  const verdict = context.verdicts.find((item) => item.id === "tuners.hole");
  if (!tuners?.hole.known || !verdict || verdict.status === "go") return undefined;
  const pitch = tuners.pitch.known ? tuners.pitch.value : undefined;
  const count = pitch === undefined ? 1 : tuners.count;
  const to = tuners.hole.value;
  const items = Array.from({ length: count }, (_, index) => tunerItems(tuners, to, index, (pitch ?? 0) * index)).flat();
  const last = (pitch ?? 0) * (count - 1);
  const scene = makeScene({
    id: "headstock",
    title: "Tuner holes",
    view: "behind",
    frame: { name: "headstock", origin: "middle of the first tuner hole", axes: ["along the row", "across"] },
    datum: { at: { x: 0, y: 0 }, name: "middle of the first tuner hole" },
    items: [line("centre line", "row", { x: -22, y: 0 }, { x: last + 22, y: 0 }, "line of the holes"), ...items],
  });
  const { printFactors, paper } = context.options;
  return {
    kind: "drawing",
    id: "headstock",
    scene,
    turn: 0,
    fields: titleFields(context, "Tuner holes"),
    paper,
    ...(printFactors ? { printFactors } : {}),
    notes: [
      verdict.headline,
      count === 1
        ? say`One hole stands for all ${tuners.count}: lay its middle on each hole in turn, the screw turned as the tuner sits.`
        : say`Lay the row on the holes that are there.`,
      say`Reamer or step bit from both faces, never a twist bit: it grabs and tears the veneer. Finish inside the hole eats about ${mm(0.2, 1)}.`,
      say`Screws: fit one tuner by hand, square it to the headstock's edge, prick through its own hole.`,
    ],
  };
}

type Tuners = NonNullable<SheetContext["instrument"]["tuners"]>;

function tunerItems(tuners: Tuners, to: number, index: number, x: number): Item[] {
  const middle = { x, y: 0 };
  const items: Item[] = [line("centre line", `across-${index}`, { x, y: -20 }, { x, y: 20 })];
  if (tuners.oldHole.known) items.push(circle("old outline", `old-${index}`, middle, tuners.oldHole.value));
  // Reamed or cut with a step bit from both faces: no drill call-out.
  items.push(circle("cut line", `tuner#${index + 1}`, middle, to));
  if (index === 0)
    items.push(
      note("ream", {
        at: { x: -18, y: -26 },
        words: tuners.oldHole.known
          ? say`ream from ${mm(tuners.oldHole.value, 1)} to ${mm(to, 1)}`
          : say`ream to ${mm(to, 1)}`,
        heightMm: 3.5,
        bold: true,
      }),
    );
  const screw = tuners.screw;
  if (screw?.distance.known && screw.angle.known && screw.diameter.known) {
    const angle = (screw.angle.value * Math.PI) / 180;
    const at = { x: x + screw.distance.value * Math.cos(angle), y: screw.distance.value * Math.sin(angle) };
    items.push(circle("part outline", `screw-${index}`, at, screw.diameter.value));
    if (index === 0)
      items.push(
        note("screw", {
          at: { x: x + 24, y: 40 },
          words: say`screw, ${mm(screw.distance.value, 1)} from the post`,
          heightMm: 2.2,
          pointsAt: at,
        }),
      );
  }
  tuners.oldScrews.forEach((old, number) => {
    if (!old.distance.known || !old.angle.known || !old.diameter.known) return;
    const angle = (old.angle.value * Math.PI) / 180;
    items.push(
      hole("old hole", `old-screw-${index}-${number}`, {
        centre: { x: x + old.distance.value * Math.cos(angle), y: old.distance.value * Math.sin(angle) },
        diameterMm: old.diameter.value,
        depthMm: "through",
        datum: "back",
      }),
    );
  });
  return items;
}
