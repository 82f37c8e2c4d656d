/** Blocks of flowing text as pieces that go on a page whole. Marks count from the piece's top left corner. */

import type { BigFigure, Block, Caution, Step, WriteBox } from "./flow.ts";
import { layPicture, laySketch } from "./flow-pictures.ts";
import { lineMark, type Mark, rectMark, textMark, thin } from "./marks.ts";
import { lineMarks, type TextSetting, textBlock, wrap } from "./rich-text.ts";
import type { Words } from "./scene.ts";
import { shifted } from "./shift.ts";
import { layTable } from "./table.ts";

export interface FlowPiece {
  readonly id: string;
  readonly role: string;
  readonly title?: string;
  readonly heightMm: number;
  readonly marks: readonly Mark[];
  /** Must stand on the page of the piece after it. */
  readonly keepWithNext?: boolean;
  /** Starts a new page. */
  readonly breakBefore?: boolean;
  /** Only space: dropped at the top of a page. */
  readonly space?: boolean;
  /** Repeated above this piece where it starts a page: the head of a table. */
  readonly repeat?: FlowPiece;
}

const TEXT_MM = 2.4;
const SMALL_MM = 1.9;
const BOX_MM = { width: 26, height: 8 };
const STEP_LEFT_MM = 17;
const GAP_MM = 2.2;

export function layBlock(block: Block, id: string, widthMm: number, setting: TextSetting): FlowPiece[] {
  switch (block.kind) {
    case "heading": {
      const size = block.level === 2 ? 2.8 : 3.4;
      const laid = textBlock(block.words, { heightMm: size, weight: "bold" }, widthMm, setting);
      return [
        { id, role: "heading", heightMm: laid.heightMm + 4.5, marks: shifted(laid.marks, 0, 2.6), keepWithNext: true },
      ];
    }
    case "paragraph": {
      const style = {
        heightMm: block.small ? SMALL_MM : TEXT_MM,
        weight: block.bold ? ("bold" as const) : ("regular" as const),
      };
      const laid = textBlock(block.words, style, widthMm, setting);
      return [{ id, role: "paragraph", heightMm: laid.heightMm + GAP_MM, marks: laid.marks }];
    }
    case "caution": {
      const laid = cautionMarks(block, widthMm, setting);
      return [{ id, role: "caution", heightMm: laid.heightMm + GAP_MM, marks: laid.marks }];
    }
    case "step":
      return layStep(block, id, widthMm, setting);
    case "table":
      return layTableBlock(block, id, widthMm, setting);
    case "boxes": {
      const laid = boxesMarks(block.boxes, widthMm, setting);
      return [{ id, role: "boxes", heightMm: laid.heightMm + GAP_MM, marks: laid.marks }];
    }
    case "lines":
      return layLines(block, id, widthMm, setting);
    case "sketch":
      return [laySketch(block, id, widthMm, setting)];
    case "picture":
      return [layPicture(block, id, widthMm, setting)];
    case "space":
      return [{ id, role: "space", heightMm: block.heightMm, marks: [], space: true }];
    case "page break":
      return [{ id, role: "space", heightMm: 0, marks: [], space: true, breakBefore: true }];
    default:
      return block satisfies never;
  }
}

interface Laid {
  readonly marks: readonly Mark[];
  readonly heightMm: number;
}

/** Title, warning, cautions and figures form one piece: none is ever seen without the others. */
function layStep(step: Step, id: string, widthMm: number, setting: TextSetting): FlowPiece[] {
  const inner = widthMm - STEP_LEFT_MM;
  const head: Mark[] = [
    rectMark({ left: 0, top: 0.6, right: 5.5, bottom: 6.1 }, { stroke: thin(0.5) }),
    textMark({ right: 7.5, down: 4.6 }, step.number, { heightMm: 3, weight: "bold" }),
  ];
  let down = 0;
  const put = (laid: Laid, gap: number) => {
    head.push(...shifted(laid.marks, STEP_LEFT_MM, down));
    down += laid.heightMm + gap;
  };
  put(shiftedDown(textBlock(step.title, { heightMm: 2.7, weight: "bold" }, inner, setting), 1.2), 0.4);
  if (step.permanent) put(permanentMarks(setting), 1);
  for (const caution of step.cautions ?? []) put(cautionMarks(caution, inner, setting), 1.2);
  if (step.figures && step.figures.length > 0) put(figureMarks(step.figures, inner, setting), 1.5);
  const headPiece: FlowPiece = {
    id: step.id,
    role: "step",
    title: `step ${step.number}`,
    heightMm: Math.max(down, 7),
    marks: head,
    keepWithNext: true,
  };
  const rest = (step.body ?? []).map((words, index): FlowPiece => {
    const laid = textBlock(words, { heightMm: TEXT_MM }, inner, setting);
    return {
      id: `${step.id}-text-${index + 1}`,
      role: "step-text",
      heightMm: laid.heightMm + 0.8,
      marks: shifted(laid.marks, STEP_LEFT_MM, 0),
      keepWithNext: true,
    };
  });
  const boxes = step.boxes && step.boxes.length > 0 ? boxesMarks(step.boxes, inner, setting) : undefined;
  const boxPiece: FlowPiece[] = boxes
    ? [
        {
          id: `${step.id}-boxes`,
          role: "boxes",
          heightMm: boxes.heightMm,
          marks: shifted(boxes.marks, STEP_LEFT_MM, 0),
          keepWithNext: true,
        },
      ]
    : [];
  const ticks = step.ticks && step.ticks.length > 0 ? tickMarks(step.ticks, inner, setting) : undefined;
  const tickPiece: FlowPiece[] = ticks
    ? [
        {
          id: `${step.id}-ticks`,
          role: "ticks",
          heightMm: ticks.heightMm,
          marks: shifted(ticks.marks, STEP_LEFT_MM, 0),
          keepWithNext: true,
        },
      ]
    : [];
  return [
    ...[headPiece, ...rest, ...tickPiece, ...boxPiece],
    { id: `${id}-gap`, role: "space", heightMm: 3.5, marks: [], space: true },
  ];
}

function shiftedDown(laid: Laid, by: number): Laid {
  return { marks: shifted(laid.marks, 0, by), heightMm: laid.heightMm + by };
}

function permanentMarks(setting: TextSetting): Laid {
  const text = "CANNOT BE UNDONE";
  const width = setting.measure(text, 2.1, "bold") + 3;
  return {
    heightMm: 4.6,
    marks: [
      rectMark({ left: 0, top: 0.4, right: width, bottom: 4.4 }, { fill: "ink" }),
      textMark({ right: 1.5, down: 3.45 }, text, { heightMm: 2.1, weight: "bold", ink: "paper" }),
    ],
  };
}

/** A caution: heavy bar, the word itself, and the source small behind it. */
function cautionMarks(caution: Caution, widthMm: number, setting: TextSetting): Laid {
  const left = 4;
  const word = "CAUTION";
  const indent = left + setting.measure(word, TEXT_MM, "bold") + 2.5;
  const body = textBlock(caution.words, { heightMm: TEXT_MM }, widthMm - indent, setting);
  const source =
    caution.source === undefined
      ? undefined
      : textBlock(`Source: ${caution.source}`, { heightMm: 1.7 }, widthMm - indent, setting);
  const height = body.heightMm + (source?.heightMm ?? 0) + 1;
  return {
    heightMm: height,
    marks: [
      rectMark({ left: 0.6, top: 0.4, right: 2, bottom: height - 0.2 }, { fill: "ink" }),
      textMark({ right: left, down: TEXT_MM * 1.25 + 0.4 }, word, { heightMm: TEXT_MM, weight: "bold" }),
      ...shifted(body.marks, indent, 0.4),
      ...(source ? shifted(source.marks, indent, 0.4 + body.heightMm) : []),
    ],
  };
}

function figureMarks(figures: readonly BigFigure[], widthMm: number, setting: TextSetting): Laid {
  const [gap, height, big] = [3, 13, 6];
  const marks: Mark[] = [];
  let [left, top] = [0, 0];
  for (const { label, value } of figures) {
    const line = wrap(value, { heightMm: big, weight: "bold" }, Infinity, setting)[0] ?? { runs: [], widthMm: 0 };
    // Only the figure itself is big: its unit and what is said after it are not. Words instead of one are all alike.
    const main = line.runs.findIndex((run) => /^[−\d]/.test(run.text));
    const runs = line.runs.map((run, index) => (index <= main ? run : { ...run, heightMm: main < 0 ? 4 : 2.6 }));
    const labelWidth = setting.measure(label, 2, "bold");
    const valueWidth = runs.reduce((sum, run) => sum + setting.measure(run.text, run.heightMm, run.weight), 0);
    const width = labelWidth + valueWidth + 6.5;
    if (left > 0 && left + width > widthMm) {
      left = 0;
      top += height + 1.5;
    }
    marks.push(
      rectMark({ left, top: top + 0.5, right: left + width, bottom: top + height - 0.5 }, { stroke: thin(0.5) }),
    );
    marks.push(textMark({ right: left + 2, down: top + 9.4 }, label, { heightMm: 2, weight: "bold" }));
    marks.push(
      ...lineMarks({ runs, widthMm: valueWidth }, { right: left + 3.5 + labelWidth, down: top + 9.4 }, setting.measure),
    );
    left += width + gap;
  }
  return { marks, heightMm: top + height };
}

const TICK_MM = 3.2;
/** Two columns where every text fits half the width. */
const COLUMN_GAP_MM = 5;

function tickMarks(ticks: readonly Words[], widthMm: number, setting: TextSetting): Laid {
  const indent = TICK_MM + 2;
  const half = (widthMm - COLUMN_GAP_MM) / 2;
  const lay = (width: number) => ticks.map((words) => textBlock(words, { heightMm: TEXT_MM }, width - indent, setting));
  const short = lay(half);
  const lineHeight = Math.min(...lay(Number.MAX_SAFE_INTEGER).map((laid) => laid.heightMm));
  const columns = ticks.length > 2 && short.every((laid) => laid.heightMm <= lineHeight * 1.01) ? 2 : 1;
  const laid = columns === 2 ? short : lay(widthMm);
  const rows = Math.ceil(laid.length / columns);
  const marks: Mark[] = [];
  let down = 0.6;
  for (let row = 0; row < rows; row += 1) {
    let height = TICK_MM + 1.2;
    for (let column = 0; column < columns; column += 1) {
      const one = laid[column * rows + row];
      if (!one) continue;
      const left = column * (half + COLUMN_GAP_MM);
      marks.push(
        rectMark(
          { left, top: down + 0.5, right: left + TICK_MM, bottom: down + 0.5 + TICK_MM },
          { stroke: thin(0.35) },
        ),
      );
      marks.push(...shifted(one.marks, left + indent, down));
      height = Math.max(height, one.heightMm + 0.6);
    }
    down += height;
  }
  return { marks, heightMm: down + 0.8 };
}

/** Labelled boxes to write in, as many to a row as fit. */
function boxesMarks(boxes: readonly WriteBox[], widthMm: number, setting: TextSetting): Laid {
  const marks: Mark[] = [];
  const [gap, row] = [6, BOX_MM.height + 2.4];
  let [left, top] = [0, 0];
  for (const { label, unit = "" } of boxes) {
    const unitWidth = unit === "" ? 0 : setting.measure(unit, SMALL_MM, "regular") + 1.2;
    const most = widthMm - BOX_MM.width - unitWidth - 2;
    const lines = wrap(label, { heightMm: TEXT_MM }, Math.min(most, 70), setting);
    const labelWidth = Math.max(...lines.map((line) => line.widthMm));
    const width = labelWidth + 2 + BOX_MM.width + unitWidth;
    const height = Math.max(row, lines.length * TEXT_MM * 1.85 + 1.5);
    if (left > 0 && left + width > widthMm) {
      left = 0;
      top += row;
    }
    const middle = top + height / 2;
    lines.forEach((line, index) => {
      marks.push(
        ...lineMarks(
          line,
          { right: left, down: middle + TEXT_MM / 2 + (index - (lines.length - 1) / 2) * TEXT_MM * 1.85 },
          setting.measure,
        ),
      );
    });
    const boxLeft = left + labelWidth + 2;
    marks.push(
      rectMark(
        {
          left: boxLeft,
          top: middle - BOX_MM.height / 2,
          right: boxLeft + BOX_MM.width,
          bottom: middle + BOX_MM.height / 2,
        },
        { stroke: thin(0.35) },
      ),
    );
    if (unit !== "")
      marks.push(
        textMark({ right: boxLeft + BOX_MM.width + 1.2, down: middle + SMALL_MM / 2 }, unit, { heightMm: SMALL_MM }),
      );
    left += width + gap;
    if (height > row) top += height - row;
  }
  return { marks, heightMm: top + row };
}

function layTableBlock(
  block: Extract<Block, { kind: "table" }>,
  id: string,
  widthMm: number,
  setting: TextSetting,
): FlowPiece[] {
  const laid = layTable(block.table, widthMm, block.large ? 3.2 : 2.3, setting);
  const caption =
    block.caption === undefined
      ? undefined
      : textBlock(block.caption, { heightMm: TEXT_MM, weight: "bold" }, widthMm, setting);
  const head: FlowPiece = {
    id: `${id}-head`,
    role: "table-head",
    heightMm: laid.head.heightMm,
    marks: laid.head.marks,
    keepWithNext: true,
  };
  return [
    ...(caption
      ? [
          {
            id: `${id}-caption`,
            role: "caption",
            heightMm: caption.heightMm + 0.8,
            marks: caption.marks,
            keepWithNext: true,
          },
        ]
      : []),
    head,
    ...laid.rows.map(
      (row, index): FlowPiece => ({
        id: `${id}-row-${index + 1}`,
        role: "table-row",
        heightMm: row.heightMm,
        marks: row.marks,
        repeat: head,
      }),
    ),
    { id: `${id}-gap`, role: "space", heightMm: 3, marks: [], space: true },
  ];
}

function layLines(
  block: Extract<Block, { kind: "lines" }>,
  id: string,
  widthMm: number,
  setting: TextSetting,
): FlowPiece[] {
  const label = block.label === undefined ? undefined : textBlock(block.label, { heightMm: TEXT_MM }, widthMm, setting);
  const out: FlowPiece[] = label
    ? [{ id: `${id}-label`, role: "paragraph", heightMm: label.heightMm, marks: label.marks, keepWithNext: true }]
    : [];
  for (let index = 0; index < block.count; index += 1) {
    out.push({
      id: `${id}-line-${index + 1}`,
      role: "line",
      heightMm: 8,
      marks: [lineMark({ right: 0, down: 7.5 }, { right: widthMm, down: 7.5 }, thin(0.18))],
      keepWithNext: index < block.count - 1,
    });
  }
  return out;
}
