export { cardOutline, ID1_CARD_MM } from "./reference-objects.ts";
export {
  arcOfSide,
  type FrameArc,
  type FramePoint,
  type PagePoint,
  type PageRect,
  pointOnArc,
  rectangle,
  type RectangleShape,
  type Vertex,
} from "./geometry.ts";
export type { BigFigure, Block, Caution, FlowDocument, Step, WriteBox } from "./flow.ts";
export { type DrillGroup, drillGroups, holeTable, markingOutTable, type MarkingOutOptions, markRuns, type SceneHole, sceneHoles } from "./holes.ts";
export { layOut, type LayOutOptions, type PaperDocument } from "./layout.ts";
export { CAPITAL_HEIGHT, type Fill, type Mark, type MarkGroup, type Page, type Segment, type Stroke, textBox as textBoxOf, type TextMark, type TextMeasure, type Weight } from "./marks.ts";
export { type Orientation, PAPER_MM, type PaperName, sheetPaper, type SheetPaper } from "./paper.ts";
export { type Placing, toPage, type Turn, viewStatement } from "./placing.ts";
export { presentScene, type PresentOptions, type ShownScene } from "./present.ts";
export { CORRECTABLE, printCheck, type PrintCheck, type PrintFactors, type PrintMeasured, type PrintNominal, SKEW_LIMIT, SLIP_LIMIT, USE_AS_IS } from "./print-check.ts";
export { dashPattern, type Hatch, type HoleSymbol, type LineType, type Role, ROLE_STYLE, ROLES, type RoleStyle, styleOf, TO_DRILL } from "./roles.ts";
export { nominalOf } from "./rules.ts";
export {
  arc,
  circle,
  type Datum,
  dimension,
  type DimensionShape,
  type Frame,
  type Geometry,
  hole,
  type HoleShape,
  type Item,
  line,
  makeScene,
  note,
  openOutline,
  outline,
  runningDimension,
  type RunningShape,
  type Scene,
  type TextShape,
  type View,
  type Words,
} from "./scene.ts";
export { sceneFigure, type SceneFigureOptions } from "./scene-figure.ts";
export type { DrawingSheet } from "./sheet.ts";
export type { Cell, Column, Table } from "./table.ts";
export { type Tile, tile, type Tiling } from "./tiles.ts";
export type { TitleFields } from "./title-block.ts";
export { lengthFigure, wordsText } from "./words.ts";
