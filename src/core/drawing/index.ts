export type { BigFigure, Block, Caution, FlowDocument, Picture, Step, WriteBox } from "./flow.ts";
export {
  arcOfSide,
  type FrameArc,
  type FramePoint,
  type PagePoint,
  type PageRect,
  pointOnArc,
  type RectangleShape,
  rectangle,
  type Vertex,
} from "./geometry.ts";
export {
  type DrillGroup,
  depthInWords,
  drillGroups,
  holeTable,
  type MarkingOutOptions,
  markingOutTable,
  markRuns,
  type SceneHole,
  sceneHoles,
} from "./holes.ts";
export { type LayOutOptions, layOut, type PaperDocument } from "./layout.ts";
export {
  CAPITAL_HEIGHT,
  type Fill,
  type Mark,
  type MarkGroup,
  type Page,
  polygonMark,
  type Segment,
  type Stroke,
  type TextMark,
  type TextMeasure,
  textBox as textBoxOf,
  textMark,
  thin,
  type Weight,
} from "./marks.ts";
export { type NextPrint, nextPrint } from "./next-print.ts";
export { type Orientation, PAPER_MM, type PaperName, type SheetPaper, sheetPaper } from "./paper.ts";
export { type Placing, type Turn, toPage, viewStatement } from "./placing.ts";
export { type PresentOptions, presentScene, type ShownScene } from "./present.ts";
export {
  CORRECTABLE,
  type PrintCheck,
  type PrintFactors,
  type PrintMeasured,
  type PrintNominal,
  printCheck,
  SKEW_LIMIT,
  SLIP_LIMIT,
  USE_AS_IS,
} from "./print-check.ts";
export { cardOutline, ID1_CARD_MM } from "./reference-objects.ts";
export {
  dashPattern,
  type Hatch,
  type HoleSymbol,
  type LineType,
  ROLE_STYLE,
  ROLES,
  type Role,
  type RoleStyle,
  styleOf,
  TO_DRILL,
} from "./roles.ts";
export { nominalOf } from "./rules.ts";
export {
  arc,
  circle,
  type Datum,
  type DimensionShape,
  dimension,
  type Frame,
  type Geometry,
  type HoleShape,
  hole,
  type Item,
  line,
  makeScene,
  note,
  openOutline,
  outline,
  type RunningShape,
  runningDimension,
  type Scene,
  type TextShape,
  type View,
  type Words,
} from "./scene.ts";
export { type SceneFigureOptions, sceneFigure } from "./scene-figure.ts";
export type { DrawingSheet } from "./sheet.ts";
export { GIVE_THE_CODE } from "./sheet-code.ts";
export type { Cell, Column, Table } from "./table.ts";
export { type Tile, type Tiling, tile } from "./tiles.ts";
export type { TitleFields } from "./title-block.ts";
export { lengthFigure, wordsText } from "./words.ts";
