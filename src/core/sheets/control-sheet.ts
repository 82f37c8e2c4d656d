/**
 * Lever slot at 1:1 seen from the front, and the control holes seen from behind (where spot-faces are cut). Places on
 * the plate are drawn only if they were given; else each hole stands alone, to be laid on the hole that is there.
 */
import {
  circle,
  type DrawingSheet,
  dimension,
  hole,
  type Item,
  line,
  makeScene,
  note,
  outline,
  rectangle,
  type Scene,
} from "../drawing/index.ts";
import type { Control, Lever } from "../job/index.ts";
import { mm, say } from "../quantity/index.ts";
import type { Verdict, Work } from "../verdict/index.ts";
import { type SheetContext, titleFields } from "./context.ts";

export function controlSheets(context: SheetContext): DrawingSheet[] {
  return [...leverSheet(context), ...holesSheet(context)];
}

function sheet(
  context: SheetContext,
  id: string,
  title: string,
  scene: Scene,
  notes: DrawingSheet["notes"],
): DrawingSheet {
  const { printFactors, paper } = context.options;
  return {
    kind: "drawing",
    id,
    scene,
    turn: 0,
    fields: titleFields(context, title),
    paper,
    ...(printFactors ? { printFactors } : {}),
    ...(notes ? { notes } : {}),
  };
}

function leverSheet(context: SheetContext): DrawingSheet[] {
  const { lever } = context.instrument;
  const verdict = context.verdicts.find((item) => item.id === "lever.slot");
  if (!lever?.slot.known || !lever.screws.known || !lever.screwHole.known || !verdict || verdict.status === "go")
    return [];
  const scene = leverScene(lever);
  return [
    sheet(context, "lever-slot", "Lever slot", scene, [
      verdict.headline,
      say`Lay the sheet on the middle of the old slot with the lever taken off. ${longer(lever) ? "File the slot's ends; drill the screw holes last, with the lever held in place." : "The slot stays as it is: drill the screw holes only, with the lever held in place."}`,
      say`Brad-point bit, slow, backed by scrap; cut the finish through with a sharp knife first so that it does not lift. Goggles on.`,
    ]),
  ];
}

function longer({ slot, oldSlot }: Lever): boolean {
  return !(slot.known && oldSlot.known && slot.value <= oldSlot.value);
}

function leverScene(lever: Lever): Scene {
  const known = (quantity: Lever["slot"], fallback: number) => (quantity.known ? quantity.value : fallback);
  const width = known(lever.slotWidth, 2);
  const slot = known(lever.slot, 1);
  const oldSlot = known(lever.oldSlot, 0);
  const screws = known(lever.screws, 0);
  const oldScrews = known(lever.oldScrews, 0);
  const growth = (slot - oldSlot) / 2;
  const items: Item[] = [
    line("centre line", "centre", { x: 0, y: -screws - 14 }, { x: 0, y: screws + 14 }, { labelAt: "none" }),
    line("centre line", "middle", { x: -14, y: 0 }, { x: 14, y: 0 }, { labelAt: "none" }),
  ];
  if (oldSlot > 0)
    items.push(
      outline("cavity outline", "old-slot", rectangle({ centre: { x: 0, y: 0 }, alongMm: width, acrossMm: oldSlot })),
    );
  for (const sign of [-1, 1]) {
    if (growth > 0)
      items.push(
        outline(
          "rework area",
          `slot-end${sign}`,
          rectangle({ centre: { x: 0, y: sign * (oldSlot / 2 + growth / 2) }, alongMm: width, acrossMm: growth }),
        ),
      );
    if (oldScrews > 0)
      items.push(
        hole("old hole", `old-screw${sign}`, {
          centre: { x: 0, y: sign * oldScrews },
          diameterMm: known(lever.oldScrewHole, 3),
          depthMm: "through",
          datum: "top",
        }),
      );
    items.push(
      hole("new hole", `screw${sign}`, {
        centre: { x: 0, y: sign * screws },
        diameterMm: known(lever.screwHole, 3),
        depthMm: "through",
        datum: "top",
      }),
    );
  }
  const size = /(\d+(?:\.\d+)?)\s*[×x]\s*(\d+(?:\.\d+)?)/.exec(lever.cover);
  if (size)
    items.push(
      outline(
        "part outline",
        "cover",
        rectangle({ centre: { x: 0, y: 0 }, alongMm: Number(size[2]), acrossMm: Number(size[1]), cornerRadiusMm: 2 }),
        { label: "escutcheon", labelAt: "none" },
      ),
    );
  items.push(
    dimension("slot", { from: { x: 0, y: -slot / 2 }, to: { x: 0, y: slot / 2 }, along: "y", lineAt: -20 }),
    dimension("screws", { from: { x: 0, y: -screws }, to: { x: 0, y: screws }, along: "y", lineAt: -28 }),
    note("width", {
      at: { x: 22, y: 8 },
      words: say`slot ${mm(width, 1)} wide, ${mm(oldSlot, 1)} long as it is`,
      heightMm: 2.2,
      pointsAt: { x: width / 2, y: oldSlot / 4 },
    }),
  );
  return makeScene({
    id: "lever-slot",
    title: "Lever slot",
    view: "front",
    frame: { name: "lever", origin: "middle of the old slot", axes: ["across the slot", "along the slot"] },
    datum: { at: { x: 0, y: 0 }, name: "middle of the old slot" },
    items,
  });
}

type Ream = Extract<Work, { act: "ream" }>;
type SpotFace = Extract<Work, { act: "spot-face" }>;

const GAP_MM = 46;
/** Room for the pot's case where its size is not known (common practice). */
const FACE_MM = 26;

function holesSheet(context: SheetContext): DrawingSheet[] {
  const { instrument, verdicts } = context;
  const rows = instrument.controls.flatMap((control) => {
    const works = verdicts
      .filter((item) => item.id.startsWith(`control.${control.id}.`))
      .flatMap((item: Verdict) => item.work);
    const ream = works.find((work): work is Ream => work.act === "ream");
    const face = works.find((work): work is SpotFace => work.act === "spot-face");
    return ream || face ? [{ control, ream, face }] : [];
  });
  if (rows.length === 0) return [];
  const items = rows.flatMap(({ control, ream, face }, index) => controlItems(control, ream, face, index * GAP_MM));
  const scene = makeScene({
    id: "control-holes",
    title: "Control holes",
    view: "behind",
    frame: { name: "control cavity", origin: `middle of the ${rows[0]?.control.id} hole`, axes: ["along", "across"] },
    datum: { at: { x: 0, y: 0 }, name: "each hole's own middle" },
    items: [line("centre line", "row", { x: -20, y: 0 }, { x: (rows.length - 1) * GAP_MM + 20, y: 0 }), ...items],
  });
  return [
    sheet(context, "control-holes", "Control holes", scene, [
      say`Seen from inside the cavity. Each drawing is laid on its own hole: the distances between them on this sheet mean nothing.`,
      say`Spot-face first, from inside, with a stop; measure the wood left after every pass. Then ream from the front by hand: never a twist bit in a hand drill.`,
    ]),
  ];
}

function controlItems(control: Control, ream: Ream | undefined, face: SpotFace | undefined, x: number): Item[] {
  const middle = { x, y: 0 };
  const items: Item[] = [line("centre line", `${control.id}-across`, { x, y: -18 }, { x, y: 18 })];
  if (face) items.push(circle("rework area", `${control.id}-face`, middle, FACE_MM));
  if (control.hole.known) items.push(circle("old outline", `${control.id}-old`, middle, control.hole.value));
  // Reamed by hand, not drilled: no drill call-out.
  if (ream) items.push(circle("cut line", `${control.id}-hole`, middle, ream.to));
  items.push(
    note(`${control.id}-name`, {
      at: { x: x - 6, y: -20 },
      words: control.id,
      heightMm: 3.5,
      bold: true,
      anchor: "end",
    }),
  );
  if (face)
    items.push(
      note(`${control.id}-face-words`, {
        at: { x, y: -20 },
        words: say`spot-face ${mm(face.depth, 1)} deep, ${mm(face.leaves, 1)} of wood left`,
        heightMm: 3,
        anchor: "end",
      }),
    );
  if (ream)
    items.push(
      note(`${control.id}-ream-words`, {
        at: { x: x + 6, y: -20 },
        words: say`ream from ${mm(ream.from, 1)} to ${mm(ream.to, 1)}`,
        heightMm: 3,
        anchor: "end",
      }),
    );
  return items;
}
