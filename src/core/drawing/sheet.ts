/**
 * A drawing sheet at 1:1: one scene in a frame with rules, view band, call-outs, table, notes, key, print check and
 * title block. Chooses paper way up, turn of the scene and where the table goes, so that the drawing stays whole as
 * long as it can; a scene that fits no sheet is cut into tiles.
 */
import type { LengthUnit } from "../quantity/index.ts";
import { grow, heightOf, type PageRect, rectOf, widthOf } from "./geometry.ts";
import type { MarkGroup, Page, TextMeasure } from "./marks.ts";
import { calloutBlock, calloutLines, holeTableBlock, keyBlock, notesBlock, type PanelBlock } from "./panels.ts";
import { factorsFor, type Orientation, type PaperName, type SheetPaper, sheetPaper } from "./paper.ts";
import { type Placing, type Turn, viewStatement } from "./placing.ts";
import { presentScene, type ShownScene } from "./present.ts";
import type { PrintFactors } from "./print-check.ts";
import type { TextSetting } from "./rich-text.ts";
import { LEFT_RULE_MM, nominalOf, printCheckPanel, ruleGroups, TOP_RULE_MM } from "./rules.ts";
import type { Scene, Words } from "./scene.ts";
import { sheetCode } from "./sheet-code.ts";
import { shifted } from "./shift.ts";
import { bandHeightMm, type SheetNumber, type TitleFields, titleBlock, viewBand } from "./title-block.ts";
import { wordsText } from "./words.ts";

export interface DrawingSheet {
  readonly kind: "drawing";
  readonly id: string;
  readonly scene: Scene;
  readonly fields: TitleFields;
  readonly paper: PaperName;
  /** Chosen by the layout unless given. */
  readonly orientation?: Orientation;
  readonly turn?: Turn;
  /** Factors from a print check of this printer, for an upright sheet; they are printed on the sheet. */
  readonly printFactors?: PrintFactors;
  /** Read before use: how the sheet is laid on, what stays, cautions of this step. */
  readonly notes?: readonly Words[];
  /** The table of holes, on unless false. */
  readonly table?: boolean;
}

export interface LayoutSetting {
  readonly units: LengthUnit;
  readonly measure: TextMeasure;
}

/** A page that still has to learn its number. */
export type PageDraft = (sheet: SheetNumber) => Page;

const STRIP_MM = 41;
const PRINT_CHECK_MM = 90;
const SIDE_PANEL_MM = 92;
const PAD_MM = 3;

/** What stays on the sheet beside the drawing; the rest goes to a sheet of its own. */
type Beside = "all" | "no table" | "call-outs" | "drill line";
const BESIDE: readonly Beside[] = ["all", "no table", "call-outs", "drill line"];

interface Attempt {
  readonly paper: SheetPaper;
  readonly turn: Turn;
  readonly beside: Beside;
}

export interface FittedSheet {
  readonly paper: SheetPaper;
  readonly shown: ShownScene;
  readonly turn: Turn;
  readonly window: PageRect;
  readonly panel: readonly MarkGroup[];
  /** Drill and stop in one line, where the call-outs found no room. */
  readonly drill?: string;
  /** What found no room beside the drawing and needs a sheet of its own. */
  readonly apart: "nothing" | "table and notes" | "everything";
}

/** The first way in which the whole scene fits one sheet, or undefined: then it needs tiles. */
export function fitSheet(sheet: DrawingSheet, setting: LayoutSetting): FittedSheet | undefined {
  for (const beside of BESIDE) {
    for (const attempt of attemptsOf(sheet, beside)) {
      const fitted = tryFit(sheet, attempt, setting);
      if (fitted) return fitted;
    }
  }
  return undefined;
}

function attemptsOf(sheet: DrawingSheet, beside: Beside): Attempt[] {
  const orientations: Orientation[] = sheet.orientation ? [sheet.orientation] : ["portrait", "landscape"];
  const turns: Turn[] = sheet.turn === undefined ? [0, 90] : [sheet.turn];
  return orientations.flatMap((orientation) =>
    turns.map((turn) => ({
      paper: sheetPaper(sheet.paper, orientation, factorsFor(orientation, sheet.printFactors)),
      turn,
      beside,
    })),
  );
}

function tryFit(
  sheet: DrawingSheet,
  { paper, turn, beside }: Attempt,
  setting: LayoutSetting,
): FittedSheet | undefined {
  const { scene } = sheet;
  const drill = beside === "drill line" ? drillLine(scene, setting.units) : undefined;
  const room = drawingRoom(paper, scene, drill !== undefined);
  const side = paper.orientation === "landscape";
  const panelWidth = side ? SIDE_PANEL_MM : widthOf(room) - 2 * PAD_MM;
  const blocks = panelBlocks(sheet, panelWidth, beside, side, setting);
  const panelHeight = blocks.reduce((most, block) => Math.max(most, block.down + block.heightMm), 0);
  if (side && panelHeight > heightOf(room) - 2 * PAD_MM) return undefined;
  const empty = blocks.length === 0;
  const window = side
    ? { ...room, right: room.right - (empty ? 0 : SIDE_PANEL_MM + 2 * PAD_MM) }
    : { ...room, bottom: room.bottom - (empty ? 0 : panelHeight + 2 * PAD_MM) };
  if (heightOf(window) < 40) return undefined;
  const shown = placeInWindow(scene, turn, window, setting);
  if (shown === undefined) return undefined;
  const corner = side
    ? { right: window.right + PAD_MM, down: room.top + PAD_MM }
    : { right: room.left + PAD_MM, down: window.bottom + PAD_MM };
  const panel = blocks.map(
    (block): MarkGroup => ({
      id: block.id,
      role: block.role,
      title: block.title,
      marks: shifted(block.marks, corner.right + block.right, corner.down + block.down),
    }),
  );
  return {
    paper,
    shown,
    turn,
    window,
    panel,
    apart: apartOf(sheet, beside),
    ...(drill === undefined ? {} : { drill }),
  };
}

function apartOf(sheet: DrawingSheet, beside: Beside): FittedSheet["apart"] {
  if (beside === "drill line") return "everything";
  const notesApart = beside === "call-outs" && (sheet.notes?.length ?? 0) > 0;
  return notesApart || (beside !== "all" && hasTable(sheet)) ? "table and notes" : "nothing";
}

/** Drills and stops of a scene in one line; undefined where nothing is to be drilled. */
export function drillLine(scene: Scene, units: LengthUnit): string | undefined {
  const lines = calloutLines(scene).map((words) => wordsText(words, units));
  return lines.length === 0 ? undefined : lines.join("  ·  ");
}

/** The room between view band and bottom strip, right of the left rule. */
export function drawingRoom(paper: SheetPaper, scene: Scene, drillLine = false): PageRect {
  const { frame } = paper;
  const band = bandHeightMm(scene.view, drillLine);
  return {
    left: frame.left + LEFT_RULE_MM,
    top: frame.top + TOP_RULE_MM + band,
    right: frame.right,
    bottom: frame.bottom - STRIP_MM,
  };
}

export function hasTable(sheet: DrawingSheet): boolean {
  return sheet.table !== false && sheet.scene.items.some((item) => item.geometry.kind === "hole");
}

interface PlacedBlock extends PanelBlock {
  readonly right: number;
  readonly down: number;
}

/** Call-outs on top; then table left, notes and key right of it, or all below one another in a side panel. */
function panelBlocks(
  sheet: DrawingSheet,
  widthMm: number,
  beside: Beside,
  side: boolean,
  setting: TextSetting,
): PlacedBlock[] {
  const { scene, notes = [] } = sheet;
  const out: PlacedBlock[] = [];
  let down = 0;
  const add = (block: PanelBlock | undefined, right = 0) => {
    if (block === undefined) return;
    out.push({ ...block, right, down });
    down += block.heightMm + PAD_MM;
  };
  if (beside === "drill line") return out;
  add(calloutBlock(scene, widthMm, setting));
  if (beside === "call-outs") return out;
  const withTable = beside === "all" && hasTable(sheet);
  if (side || !withTable) {
    if (withTable) add(holeTableBlock(scene, widthMm, setting));
    add(notesBlock(notes, widthMm, setting));
    add(keyBlock(scene, widthMm, setting));
    return out;
  }
  const top = down;
  const table = holeTableBlock(scene, widthMm * 0.62, setting);
  add(table);
  down = top;
  const right = (table?.widthMm ?? 0) + 2 * PAD_MM;
  add(notesBlock(notes, widthMm - right, setting), right);
  add(keyBlock(scene, widthMm - right, setting), right);
  return out;
}

/** Scene centred in the window, or undefined if it is too large. */
function placeInWindow(scene: Scene, turn: Turn, window: PageRect, setting: LayoutSetting): ShownScene | undefined {
  const placing: Placing = { view: scene.view, turn, origin: { right: 0, down: 0 }, scale: 1 };
  const room = grow(window, -PAD_MM);
  const { bounds } = presentScene(scene, { placing, ...setting });
  if (widthOf(bounds) > widthOf(room) || heightOf(bounds) > heightOf(room)) return undefined;
  const origin = {
    right: room.left + (widthOf(room) - widthOf(bounds)) / 2 - bounds.left,
    down: room.top + (heightOf(room) - heightOf(bounds)) / 2 - bounds.top,
  };
  return presentScene(scene, { placing: { ...placing, origin }, ...setting });
}

export interface FurnitureInput {
  readonly sheet: DrawingSheet;
  readonly paper: SheetPaper;
  readonly turn: Turn;
  readonly number: SheetNumber;
  /** Drill and stop in one line, on tiles. */
  readonly drill?: string;
}

/** Everything round the drawing: frame, rules, view band, print check, title block. */
export function furniture({ sheet, paper, turn, number, drill }: FurnitureInput, setting: LayoutSetting): MarkGroup[] {
  const { frame } = paper;
  const { scene, fields } = sheet;
  const behind = scene.view === "behind";
  const statement = viewStatement(scene.frame, scene.view, turn);
  const bandRoom = rectOf(
    frame.left + LEFT_RULE_MM,
    frame.top + TOP_RULE_MM,
    widthOf(frame) - LEFT_RULE_MM,
    bandHeightMm(scene.view, drill !== undefined),
  );
  const strip = {
    left: frame.left + LEFT_RULE_MM,
    top: frame.bottom - STRIP_MM,
    right: frame.right,
    bottom: frame.bottom,
  };
  const content = {
    ...fields,
    ...number,
    scale: "1 : 1",
    units: setting.units,
    strings: scene.frame.bassSide !== undefined,
  };
  return [
    ...ruleGroups(frame),
    viewBand(
      bandRoom,
      { statement, datum: datumLine(scene), behind, ...(drill === undefined ? {} : { drill }) },
      setting.measure,
    ),
    printCheckPanel({ ...strip, right: strip.left + PRINT_CHECK_MM }, frame, stateLines(sheet, paper), setting.measure),
    titleBlock({ ...strip, left: Math.max(strip.left + PRINT_CHECK_MM, strip.right - 130) }, content, setting.measure),
  ];
}

function datumLine(scene: Scene): string {
  return `All places count from DATUM: ${scene.datum.name}.`;
}

/** What the sheet says of its own truth. */
function stateLines(sheet: DrawingSheet, paper: SheetPaper): string[] {
  const code = `Code of this sheet: ${sheetCode(paper)}  ·  enter it with the four readings.`;
  if (sheet.printFactors === undefined)
    return ["Not proved until the boxes are filled in.", 'Print at 100 % ("actual size"), never "fit to page".', code];
  const shown = (factor: number) => factor.toFixed(4);
  return [
    `CORRECTED: drawn × ${shown(paper.factors.across)} across, × ${shown(paper.factors.down)} down`,
    "for one printer and its settings. Not proved until the boxes are filled in.",
    code,
  ];
}

/** A page around ready-made groups. */
export function pageOf(sheet: DrawingSheet, paper: SheetPaper, turn: Turn, groups: readonly MarkGroup[]): Page {
  const { fields, scene } = sheet;
  const { alongMm, acrossMm } = nominalOf(paper.frame);
  return {
    id: sheet.id,
    widthMm: paper.widthMm,
    heightMm: paper.heightMm,
    factors: paper.factors,
    title: `${fields.title}, ${fields.instrument}`,
    description: `${scene.title} at 1 : 1, ${viewStatement(scene.frame, scene.view, turn)}. Lengths in mm count from the datum: ${scene.datum.name}. Rules of ${acrossMm} mm across and ${alongMm} mm down the sheet.`,
    groups,
  };
}

/** Draft of a sheet that holds the whole scene. */
export function wholeSheet(sheet: DrawingSheet, fitted: FittedSheet, setting: LayoutSetting): PageDraft {
  const { paper, turn, shown, panel, drill } = fitted;
  const input = { sheet, paper, turn, ...(drill === undefined ? {} : { drill }) };
  return (number) =>
    pageOf(sheet, paper, turn, [...furniture({ ...input, number }, setting), ...shown.groups, ...panel]);
}
