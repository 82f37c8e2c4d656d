/** Title block and view band, in the spirit of ISO 7200 (fields) and ISO 5457 (frame and place); from memory of both. */
import type { LengthUnit } from "../quantity/index.ts";
import { heightOf, type PageRect, widthOf } from "./geometry.ts";
import { lineMark, type Mark, type MarkGroup, rectMark, type TextMeasure, textMark, thin } from "./marks.ts";
import { fitted } from "./rich-text.ts";
import type { View } from "./scene.ts";

export interface TitleFields {
  /** What this paper is, e.g. "Bridge template". */
  readonly title: string;
  readonly jobId: string;
  readonly instrument: string;
  /** As it is to be read, e.g. "2026-03-14": the core has no clock. */
  readonly date: string;
  /** Version of the job that the sheet shows. */
  readonly version: string;
  /** State of the instrument that the figures hold in, e.g. "as found". */
  readonly state: string;
}

export interface SheetNumber {
  readonly number: number;
  readonly of: number;
}

interface Field {
  readonly label: string;
  readonly value: string;
  readonly bold?: boolean;
  /** Column and row spans in the grid of 12 columns. */
  readonly column: number;
  readonly span: number;
}

const COLUMNS = 12;
const LABEL_MM = 1.5;

export interface TitleBlockContent extends TitleFields, SheetNumber {
  /** "1 : 1", "1 : 2", "none" for text. */
  readonly scale: string;
  readonly units: LengthUnit;
  readonly strings: boolean;
}

/** The block in `room`: title, instrument, then the small fields. */
export function titleBlock(room: PageRect, content: TitleBlockContent, measure: TextMeasure): MarkGroup {
  const rows: { heightShare: number; fields: Field[] }[] = [
    { heightShare: 0.31, fields: [{ label: "title", value: content.title, bold: true, column: 0, span: 12 }] },
    { heightShare: 0.23, fields: [{ label: "instrument", value: content.instrument, column: 0, span: 12 }] },
    {
      heightShare: 0.23,
      fields: [
        { label: "job", value: content.jobId, bold: true, column: 0, span: 3 },
        { label: "state", value: content.state, column: 3, span: 3 },
        { label: "version", value: content.version, column: 6, span: 2 },
        { label: "date", value: content.date, column: 8, span: 4 },
      ],
    },
    {
      heightShare: 0.23,
      fields: [
        { label: "scale", value: content.scale, bold: true, column: 0, span: 2 },
        { label: "lengths in", value: content.units, column: 2, span: 2 },
        { label: "strings", value: content.strings ? "1 = thinnest" : "–", column: 4, span: 4 },
        { label: "sheet", value: `${content.number} of ${content.of}`, bold: true, column: 8, span: 4 },
      ],
    },
  ];
  const marks: Mark[] = [rectMark(room, { stroke: thin(0.5) })];
  let top = room.top;
  rows.forEach((row, index) => {
    const height = heightOf(room) * row.heightShare;
    if (index > 0) marks.push(lineMark({ right: room.left, down: top }, { right: room.right, down: top }, thin(0.18)));
    for (const field of row.fields) marks.push(...fieldMarks(field, room, top, height, measure));
    top += height;
  });
  return {
    id: "title-block",
    role: "title-block",
    title: `${content.title}, sheet ${content.number} of ${content.of}`,
    marks,
  };
}

function fieldMarks(field: Field, room: PageRect, top: number, height: number, measure: TextMeasure): Mark[] {
  const step = widthOf(room) / COLUMNS;
  const left = room.left + field.column * step;
  const width = field.span * step;
  const size = Math.min(height * 0.34, 4.2);
  const weight = field.bold ? "bold" : "regular";
  const value = fitted(field.value, size, weight, width - 2.4, measure);
  const marks: Mark[] = [
    textMark({ right: left + 1.2, down: top + LABEL_MM + 0.8 }, field.label, { heightMm: LABEL_MM }),
    textMark({ right: left + 1.2, down: top + height - Math.min(1.8, height * 0.2) }, value.text, {
      heightMm: value.heightMm,
      weight,
    }),
  ];
  if (field.column > 0)
    marks.push(lineMark({ right: left, down: top }, { right: left, down: top + height }, thin(0.18)));
  return marks;
}

const BAND_FRONT_MM = 13;
const BAND_BEHIND_MM = 18;

const DRILL_LINE_MM = 6;

export function bandHeightMm(view: View, drillLine: boolean): number {
  return (view === "behind" ? BAND_BEHIND_MM : BAND_FRONT_MM) + (drillLine ? DRILL_LINE_MM : 0);
}

export interface BandContent {
  readonly statement: string;
  readonly datum: string;
  readonly behind: boolean;
  /** Drill and stop, on sheets that have no room for the large call-outs. */
  readonly drill?: string;
}

/** The band that says how to hold the sheet. A back sheet is reversed out in black so that it cannot be mistaken. */
export function viewBand(
  room: PageRect,
  { statement, datum, behind, drill }: BandContent,
  measure: TextMeasure,
): MarkGroup {
  const ink = behind ? "paper" : "ink";
  const ground: Mark = behind
    ? rectMark(room, { fill: "ink" })
    : lineMark({ right: room.left, down: room.bottom }, { right: room.right, down: room.bottom }, thin());
  const right = room.left + 3;
  const width = widthOf(room) - 6;
  const words = fitted(statement, behind ? 5 : 3.2, "bold", width, measure);
  const second = fitted(datum, 2.2, "regular", width, measure);
  const third = drill === undefined ? undefined : fitted(drill, 2.9, "bold", width, measure);
  const first = room.top + (behind ? 4.2 : 2.4) + words.heightMm;
  return {
    id: "view",
    role: "view",
    title: statement,
    marks: [
      ground,
      textMark({ right, down: first }, words.text, { heightMm: words.heightMm, weight: "bold", ink }),
      textMark({ right, down: room.bottom - 2.4 - (third ? DRILL_LINE_MM : 0) }, second.text, {
        heightMm: second.heightMm,
        ink,
      }),
      ...(third
        ? [textMark({ right, down: room.bottom - 2.2 }, third.text, { heightMm: third.heightMm, weight: "bold", ink })]
        : []),
    ],
  };
}
