/** Documents to pages: the one entrance for everything that is printed. */
import type { LengthUnit } from "../quantity/index.ts";
import { type FlowDocument, flowPages } from "./flow.ts";
import { layBlock } from "./flow-blocks.ts";
import { holeTable } from "./holes.ts";
import type { Page, TextMeasure } from "./marks.ts";
import { calloutBlock, keyBlock, type PanelBlock } from "./panels.ts";
import { PAPER_MM } from "./paper.ts";
import { type DrawingSheet, fitSheet, hasTable, type LayoutSetting, type PageDraft, wholeSheet } from "./sheet.ts";
import { tileSheets } from "./tile-sheet.ts";

export type PaperDocument = DrawingSheet | FlowDocument;

export interface LayOutOptions {
  readonly measure: TextMeasure;
  readonly units?: LengthUnit;
}

/**
 * Lays out documents as pages, numbered through as one set.
 *
 * @example layOut([bridgeTemplate, traveller], { measure, units: "mm" });
 */
export function layOut(documents: readonly PaperDocument[], { measure, units = "mm" }: LayOutOptions): Page[] {
  const setting: LayoutSetting = { measure, units };
  const drafts = documents.flatMap((document) => draftsOf(document, setting));
  return drafts.map((draft, index) => draft({ number: index + 1, of: drafts.length }));
}

function draftsOf(document: PaperDocument, setting: LayoutSetting): PageDraft[] {
  if (document.kind === "text") return flowPages(document, setting);
  const fitted = fitSheet(document, setting);
  if (fitted === undefined) return [...tileSheets(document, setting), ...companion(document, "everything", setting)];
  return [
    wholeSheet(document, fitted, setting),
    ...(fitted.apart === "nothing" ? [] : companion(document, fitted.apart, setting)),
  ];
}

/** What found no room beside the drawing, on a sheet of its own. */
function companion(sheet: DrawingSheet, which: "table and notes" | "everything", setting: LayoutSetting): PageDraft[] {
  const { scene, fields, notes = [] } = sheet;
  const width = PAPER_MM[sheet.paper].width - 30;
  const text: FlowDocument = {
    kind: "text",
    id: `${sheet.id}-beside`,
    fields: { ...fields, title: `${fields.title}: places and notes` },
    paper: sheet.paper,
    blocks: [],
    strings: scene.frame.bassSide !== undefined,
  };
  const panel = (block: PanelBlock | undefined) => (block ? [{ ...block, heightMm: block.heightMm + 4 }] : []);
  const callouts = which === "everything" ? panel(calloutBlock(scene, width, setting)) : [];
  const ready = [
    ...layBlock(
      {
        kind: "paragraph",
        words: `All places count from DATUM: ${scene.datum.name}. The frame is the ${scene.frame.name}; its (0,\u00a00) is ${/^the /.test(scene.frame.origin) ? "" : "the "}${scene.frame.origin}.`,
      },
      "datum-note",
      width,
      setting,
    ),
    ...callouts,
    ...notes.flatMap((words, index) => layBlock({ kind: "paragraph", words }, `note-${index + 1}`, width, setting)),
    ...(hasTable(sheet) ? layBlock({ kind: "table", table: holeTable(scene) }, "holes", width, setting) : []),
    ...panel(keyBlock(scene, width, setting)),
  ];
  return flowPages(text, setting, ready);
}
