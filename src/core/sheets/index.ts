/** Everything that is printed for a job, composed from its verdicts, its places and its traveller. */
import type { DrawingSheet, PaperDocument } from "../drawing/index.ts";
import type { Gate, Traveller } from "../plan/index.ts";
import { bridgeSheet } from "./bridge-sheet.ts";
import type { SheetContext } from "./context.ts";
import { controlSheets } from "./control-sheet.ts";
import { headstockSheet } from "./headstock-sheet.ts";
import { pickupSheets } from "./pickup-sheets.ts";
import { findingsPaper, markingOutPaper, slipPaper, travellerPaper } from "./text-papers.ts";
import { wiringPaper } from "./wiring-paper.ts";

export { bridgeScene } from "./bridge-sheet.ts";
export type { SheetContext, SheetOptions } from "./context.ts";
export { type Box, type MarkingContext, type MarkingOut, markingOutOf } from "./marking-out.ts";
export type { MovablePlate } from "./marking-out-bridge.ts";
export type { DimensionOf, EditableDimension } from "./marking-out-dimensions.ts";
export { type Between, type MarkPoint, measureBetween } from "./marking-out-points.ts";
export { planPlaces } from "./plan-places.ts";

/** Drawings at 1:1, the bridge first. */
export function drawingsOf(context: SheetContext): DrawingSheet[] {
  const bridge = bridgeSheet(context);
  const headstock = headstockSheet(context);
  return [
    ...(bridge ? [bridge] : []),
    ...pickupSheets(context),
    ...controlSheets(context),
    ...(headstock ? [headstock] : []),
  ];
}

export interface PaperSet {
  readonly id: string;
  readonly title: string;
  readonly documents: readonly PaperDocument[];
}

/** Papers by file: one PDF each. */
export function papersOf(context: SheetContext, traveller: Traveller, gates: ReadonlyMap<string, Gate>): PaperSet[] {
  const marking = markingOutPaper(context);
  const slip = slipPaper(context);
  const sets: PaperSet[] = [
    { id: "findings", title: "What stands in the way", documents: [findingsPaper(context)] },
    ...drawingsOf(context).map((sheet): PaperSet => ({ id: sheet.id, title: sheet.fields.title, documents: [sheet] })),
    { id: "traveller", title: "Traveller", documents: [travellerPaper(context, traveller, gates)] },
  ];
  const wiring = wiringPaper(context);
  if (wiring.length > 0) sets.push({ id: "wiring", title: "Wiring", documents: wiring });
  if (marking) sets.push({ id: "marking-out", title: "Marking-out list", documents: [marking] });
  if (slip) sets.push({ id: "slip", title: "Slip for the shop", documents: [slip] });
  return sets;
}
