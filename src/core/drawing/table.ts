/**
 * Tables for paper: figures stand with their points under one another, units are in the head or smaller behind the
 * figure, text columns wrap, nothing is wider than its cell. Rows never break over a page; the head repeats.
 */
import type { Figure } from "../quantity/index.ts";
import { lineMark, type Mark, rectMark, textMark, thin } from "./marks.ts";
import {
  LEADING,
  lineMarks,
  type Run,
  runsOfFigure,
  type TextLine,
  type TextSetting,
  widthOfRuns,
  wrap,
} from "./rich-text.ts";
import type { Words } from "./scene.ts";

export interface Column {
  readonly head: string;
  /** Shown under the head, lighter. Leave it out where each figure carries its own. */
  readonly unit?: string;
  /** `figure`: aligned on the point. `tick`: an empty square. `write`: an empty box. */
  readonly align: "text" | "figure" | "centre" | "tick" | "write";
  readonly bold?: boolean;
  /** Fixed width; else what the content needs, and text columns share what is left. */
  readonly widthMm?: number;
}

/** A number is shown as it is; a Figure in its own unit; nothing for a tick or a box. */
export type Cell = Words | Figure | undefined;

export interface Table {
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Cell[])[];
}

export interface LaidRow {
  readonly heightMm: number;
  readonly marks: readonly Mark[];
}

export interface LaidTable {
  readonly head: LaidRow;
  readonly rows: readonly LaidRow[];
  readonly widthMm: number;
}

const PAD_MM = 1.2;
const TICK_MM = 3.6;
const WRITE_MM = { width: 18, height: 6.5 };
/** A wrapping column stays at least this wide. */
const LEAST_TEXT_MM = 18;

interface Content {
  readonly runs: readonly Run[];
  readonly words: Words;
  /** A number in a column of figures; a word there ("through") stands in the middle instead. */
  readonly isNumber: boolean;
  /** Width left of the decimal point. */
  readonly beforeMm: number;
  readonly widthMm: number;
}

/** Lays the table into `widthMm` with capitals of `heightMm`. */
export function layTable(table: Table, widthMm: number, heightMm: number, setting: TextSetting): LaidTable {
  const contents = table.rows.map((row) =>
    table.columns.map((column, index) => contentOf(row[index], column, heightMm, setting)),
  );
  const widths = columnWidths(table, contents, widthMm, heightMm, setting);
  const points = table.columns.map((_, index) => Math.max(0, ...contents.map((row) => row[index]?.beforeMm ?? 0)));
  const total = widths.reduce((sum, width) => sum + width, 0);
  const grid: Grid = { columns: table.columns, widths, points, totalMm: total, heightMm, setting };
  const rows = contents.map((row) => layRow(row, grid));
  return { head: layHead(table.columns, widths, total, heightMm, setting), rows, widthMm: total };
}

function contentOf(cell: Cell, column: Column, heightMm: number, setting: TextSetting): Content {
  const style = { heightMm, weight: column.bold ? ("bold" as const) : ("regular" as const) };
  const isFigure = (value: Cell): value is Figure => typeof value === "object" && !Array.isArray(value);
  const words: Words = cell === undefined ? "" : isFigure(cell) ? [cell] : cell;
  // A unit named in the head is not said again in every row.
  const runs =
    isFigure(cell) && column.unit !== undefined
      ? runsOfFigure({ ...cell, unit: cell.unit }, style, setting.units).slice(0, cell.u === undefined ? 1 : 2)
      : (wrap(words, style, Infinity, setting)[0]?.runs ?? []);
  const widthMm = widthOfRuns(runs, setting.measure);
  const number = runs[0]?.text ?? "";
  const point = number.search(/[.,]/);
  const isNumber = column.align === "figure" && /^[−\d]/.test(number);
  const beforeMm = isNumber ? setting.measure(point < 0 ? number : number.slice(0, point), heightMm, style.weight) : 0;
  return { runs, words, isNumber, beforeMm, widthMm };
}

function columnWidths(
  table: Table,
  contents: readonly (readonly Content[])[],
  widthMm: number,
  heightMm: number,
  setting: TextSetting,
): number[] {
  const headMm = heightMm * 0.85;
  const natural = table.columns.map((column, index) => {
    if (column.widthMm !== undefined) return column.widthMm;
    const head = Math.max(
      setting.measure(column.head, headMm, "bold"),
      setting.measure(column.unit ?? "", headMm, "regular"),
    );
    if (column.align === "tick") return Math.max(head, TICK_MM) + 2 * PAD_MM;
    if (column.align === "write") return Math.max(head, WRITE_MM.width) + 2 * PAD_MM;
    const cells = contents.map((row) => row[index]);
    const before = Math.max(0, ...cells.map((cell) => cell?.beforeMm ?? 0));
    const after = Math.max(0, ...cells.map((cell) => (cell?.isNumber ? cell.widthMm - cell.beforeMm : 0)));
    const widest = Math.max(before + after, ...cells.map((cell) => (cell && !cell.isNumber ? cell.widthMm : 0)));
    return Math.max(head, widest) + 2 * PAD_MM;
  });
  const flexible = table.columns.map((column) => column.align === "text" && column.widthMm === undefined);
  return shareWidth(natural, flexible, widthMm);
}

/**
 * Columns no wider than `widthMm` in all: the widest flexible ones are cut to one common width, narrower ones keep
 * theirs, and none goes below the least a word needs.
 */
function shareWidth(natural: readonly number[], flexible: readonly boolean[], widthMm: number): number[] {
  const fixed = natural.reduce((sum, width, index) => (flexible[index] ? sum : sum + width), 0);
  const rising = natural.filter((_, index) => flexible[index]).sort((a, b) => a - b);
  let room = widthMm - fixed;
  let common = Number.POSITIVE_INFINITY;
  for (const [index, width] of rising.entries()) {
    const share = room / (rising.length - index);
    if (width > share) {
      common = share;
      break;
    }
    room -= width;
  }
  return natural.map((width, index) => (flexible[index] ? Math.min(width, Math.max(common, LEAST_TEXT_MM)) : width));
}

/** What all rows of a table share. */
interface Grid {
  readonly columns: readonly Column[];
  readonly widths: readonly number[];
  /** Decimal point of each column, from the start of its content. */
  readonly points: readonly number[];
  readonly totalMm: number;
  readonly heightMm: number;
  readonly setting: TextSetting;
}

function layRow(row: readonly Content[], grid: Grid): LaidRow {
  const { columns, widths, heightMm, setting } = grid;
  const wrapped = row.map((content, index) => {
    const column = columns[index];
    const style = { heightMm, weight: column?.bold ? ("bold" as const) : ("regular" as const) };
    const width = (widths[index] ?? 0) - 2 * PAD_MM + 1e-3;
    return column?.align === "text" ? wrap(content.words, style, width, setting) : [];
  });
  const has = (align: Column["align"]) => columns.some((column) => column.align === align);
  const lines = Math.max(1, ...wrapped.map((one) => one.length));
  const least = has("write") ? WRITE_MM.height + 1.2 : has("tick") ? TICK_MM + 1.2 : 0;
  const height = Math.max((lines - 1) * heightMm * LEADING + heightMm * 1.95, least);
  const marks: Mark[] = [lineMark({ right: 0, down: height }, { right: grid.totalMm, down: height }, thin(0.13))];
  let left = 0;
  columns.forEach((column, index) => {
    const cell = { left, width: widths[index] ?? 0, height };
    const content = row[index];
    if (column.align === "text") marks.push(...textCell(wrapped[index] ?? [], cell, grid));
    else if (column.align === "tick" || column.align === "write") marks.push(emptyBox(column.align, cell));
    else if (content) marks.push(...figureCell(content, cell, grid.points[index] ?? 0, grid));
    left += cell.width;
  });
  return { heightMm: height, marks };
}

interface CellRoom {
  readonly left: number;
  readonly width: number;
  readonly height: number;
}

function textCell(lines: readonly TextLine[], { left, height }: CellRoom, { heightMm, setting }: Grid): Mark[] {
  const step = heightMm * LEADING;
  const first = height / 2 + heightMm / 2 - ((lines.length - 1) * step) / 2;
  return lines.flatMap((text, index) =>
    lineMarks(text, { right: left + PAD_MM, down: first + index * step }, setting.measure),
  );
}

/** A figure with its point under the others', or a word in the middle of the column. */
function figureCell(content: Content, { left, width, height }: CellRoom, pointMm: number, grid: Grid): Mark[] {
  const right = content.isNumber ? left + PAD_MM + pointMm - content.beforeMm : left + (width - content.widthMm) / 2;
  return lineMarks(content, { right, down: height / 2 + grid.heightMm / 2 }, grid.setting.measure);
}

function emptyBox(kind: "tick" | "write", { left, width, height }: CellRoom): Mark {
  const across = kind === "tick" ? TICK_MM : width - 2 * PAD_MM;
  const down = kind === "tick" ? TICK_MM : height - 1.2;
  const [x, y] = [left + (width - across) / 2, (height - down) / 2];
  return rectMark({ left: x, top: y, right: x + across, bottom: y + down }, { stroke: thin(0.35) });
}

function layHead(
  columns: readonly Column[],
  widths: readonly number[],
  totalMm: number,
  heightMm: number,
  setting: TextSetting,
): LaidRow {
  const headMm = heightMm * 0.85;
  const units = columns.some((column) => column.unit !== undefined && column.unit !== "");
  const height = headMm * (units ? 3.4 : 2.1);
  const marks: Mark[] = [lineMark({ right: 0, down: height }, { right: totalMm, down: height }, thin(0.35))];
  let left = 0;
  columns.forEach((column, index) => {
    const width = widths[index] ?? 0;
    const middle = column.align === "tick" || column.align === "centre" || column.align === "write";
    const at = (text: string, down: number, weight: "bold" | "regular", size: number): Mark =>
      textMark({ right: middle ? left + width / 2 : left + PAD_MM, down }, text, {
        heightMm: size,
        weight,
        anchor: middle ? "middle" : "start",
      });
    marks.push(at(column.head, headMm * 1.35, "bold", headMm));
    if (column.unit) marks.push(at(unitShown(column.unit, setting), headMm * 2.85, "regular", headMm * 0.9));
    left += width;
  });
  return { heightMm: height, marks };
}

/** The head's "mm" follows the mm/inch switch like the figures below it. */
function unitShown(unit: string, setting: TextSetting): string {
  return unit === "mm" && setting.units === "inch" ? "in" : unit;
}
