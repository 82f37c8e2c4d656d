/**
 * Flowing text sheets: traveller, findings, marking-out list, slip for the shop. Blocks are laid out in the embedded
 * font's widths and put on pages; a step stays with its cautions and boxes, a heading with what follows, a table row
 * whole. Black on white, boxes to write in, every sheet numbered.
 */

import { type FlowPiece, layBlock } from "./flow-blocks.ts";
import type { MarkGroup, Page } from "./marks.ts";
import { lineMark, type Mark, textMark, thin } from "./marks.ts";
import { PAPER_MM, type PaperName } from "./paper.ts";
import { fitted, textBlock } from "./rich-text.ts";
import type { Scene, Words } from "./scene.ts";
import type { LayoutSetting, PageDraft } from "./sheet.ts";
import { shifted } from "./shift.ts";
import type { Table } from "./table.ts";
import type { TitleFields } from "./title-block.ts";

export interface Caution {
  readonly words: Words;
  /** Where it comes from, e.g. "common practice"; small, behind it. */
  readonly source?: string;
}

/** A place to write a reading down. */
export interface WriteBox {
  readonly label: Words;
  readonly unit?: string;
}

/** A figure to be read at arm's length. */
export interface BigFigure {
  readonly label: string;
  readonly value: Words;
}

export interface Step {
  readonly kind: "step";
  readonly id: string;
  readonly number: string;
  readonly title: Words;
  /** Said under the title: cannot be undone. */
  readonly permanent?: boolean;
  readonly cautions?: readonly Caution[];
  readonly figures?: readonly BigFigure[];
  readonly body?: readonly Words[];
  /** What only has to be confirmed: a small square before each, in columns. */
  readonly ticks?: readonly Words[];
  readonly boxes?: readonly WriteBox[];
}

export type Block =
  | { readonly kind: "heading"; readonly words: Words; readonly level?: 1 | 2 }
  | { readonly kind: "paragraph"; readonly words: Words; readonly bold?: boolean; readonly small?: boolean }
  | ({ readonly kind: "caution" } & Caution)
  | Step
  | { readonly kind: "table"; readonly table: Table; readonly caption?: Words; readonly large?: boolean }
  | { readonly kind: "boxes"; readonly boxes: readonly WriteBox[] }
  /** Ruled lines to write on. */
  | { readonly kind: "lines"; readonly count: number; readonly label?: Words }
  /** A picture to explain, not to measure from. */
  | {
      readonly kind: "sketch";
      readonly scene: Scene;
      readonly turn?: 0 | 90;
      readonly caption?: Words;
      readonly mostHighMm?: number;
    }
  /** Marks as they are, from the picture's top left corner: 1:1 where the page is wide enough. */
  | ({ readonly kind: "picture" } & Picture)
  | { readonly kind: "space"; readonly heightMm: number }
  | { readonly kind: "page break" };

export interface Picture {
  readonly title: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly groups: readonly MarkGroup[];
  /** Empty: nothing is said below it, its size neither. */
  readonly caption?: Words;
}

export interface FlowDocument {
  readonly kind: "text";
  readonly id: string;
  readonly fields: TitleFields;
  readonly paper: PaperName;
  readonly blocks: readonly Block[];
  /** States the numbering of strings on every sheet; on unless false. */
  readonly strings?: boolean;
}

const MARGIN_MM = 15;
const FIRST_HEAD_MM = 22;
const NEXT_HEAD_MM = 9;
const FOOT_MM = 9;

/** Drafts of the document's pages. */
export function flowPages(
  document: FlowDocument,
  setting: LayoutSetting,
  ready: readonly FlowPiece[] = [],
): PageDraft[] {
  const { width, height } = PAPER_MM[document.paper];
  const room = { width: width - 2 * MARGIN_MM, height: height - 2 * MARGIN_MM - FOOT_MM };
  const pieces = [
    ...document.blocks.flatMap((block, index) =>
      keptWithHeading(document.blocks, index, layBlock(block, `b${index + 1}`, room.width, setting)),
    ),
    ...ready,
  ];
  const pages = paginate(pieces, room.height - FIRST_HEAD_MM, room.height - NEXT_HEAD_MM);
  return pages.map((placed, index) => (number) => {
    const head = index === 0 ? FIRST_HEAD_MM : NEXT_HEAD_MM;
    const groups = placed.map(({ piece, down }): MarkGroup => {
      const marks = shifted(piece.marks, MARGIN_MM, MARGIN_MM + head + down);
      return piece.title === undefined
        ? { id: `${piece.id}`, role: piece.role, marks }
        : { id: piece.id, role: piece.role, title: piece.title, marks };
    });
    return {
      id: `${document.id}-${index + 1}`,
      widthMm: width,
      heightMm: height,
      factors: { across: 1, down: 1 },
      title: `${document.fields.title}, ${document.fields.instrument}`,
      description: `${document.fields.title}, page ${index + 1} of ${pages.length}`,
      groups: [...headAndFoot(document, index, number, setting), ...unique(groups)],
    } satisfies Page;
  });
}

/** A paragraph that leads from a heading to something must not stay behind without it. */
function keptWithHeading(blocks: readonly Block[], index: number, pieces: readonly FlowPiece[]): readonly FlowPiece[] {
  const leads =
    blocks[index]?.kind === "paragraph" && blocks[index - 1]?.kind === "heading" && blocks[index + 1] !== undefined;
  return leads ? pieces.map((piece) => ({ ...piece, keepWithNext: true })) : pieces;
}

/** Repeated heads share an id over pages, never on one page. */
function unique(groups: readonly MarkGroup[]): MarkGroup[] {
  const seen = new Map<string, number>();
  return groups.map((group) => {
    const count = (seen.get(group.id) ?? 0) + 1;
    seen.set(group.id, count);
    return count === 1 ? group : { ...group, id: `${group.id}-${count}` };
  });
}

interface PlacedPiece {
  readonly piece: FlowPiece;
  readonly down: number;
}

/**
 * Puts pieces on pages. Pieces that must stay together move together; a chain longer than a page keeps what it can.
 *
 * @returns one list a page, at least one page
 */
function paginate(pieces: readonly FlowPiece[], firstHeightMm: number, nextHeightMm: number): PlacedPiece[][] {
  const pages: PlacedPiece[][] = [[]];
  let down = 0;
  const room = () => (pages.length === 1 ? firstHeightMm : nextHeightMm);
  const turnPage = () => {
    pages.push([]);
    down = 0;
  };
  for (const chain of chains(pieces)) {
    const chainHeight = chain.reduce((sum, piece) => sum + piece.heightMm, 0);
    if (chain[0]?.breakBefore && down > 0) turnPage();
    if (down > 0 && down + chainHeight > room() && chainHeight <= nextHeightMm) turnPage();
    for (const piece of chain) {
      if (down > 0 && down + piece.heightMm > room()) turnPage();
      if (down === 0 && piece.space) continue;
      if (down === 0 && piece.repeat && pages.length > 1) {
        pages.at(-1)?.push({ piece: piece.repeat, down });
        down += piece.repeat.heightMm;
      }
      pages.at(-1)?.push({ piece, down });
      down += piece.heightMm;
    }
  }
  return pages;
}

/** Pieces tied by `keepWithNext`. */
function chains(pieces: readonly FlowPiece[]): FlowPiece[][] {
  const out: FlowPiece[][] = [];
  let open = false;
  for (const piece of pieces) {
    if (open && !piece.breakBefore) out.at(-1)?.push(piece);
    else out.push([piece]);
    open = piece.keepWithNext === true;
  }
  return out;
}

function headAndFoot(
  document: FlowDocument,
  index: number,
  number: { number: number; of: number },
  setting: LayoutSetting,
): MarkGroup[] {
  const { fields, paper } = document;
  const { width, height } = PAPER_MM[paper];
  const { measure } = setting;
  const right = width - MARGIN_MM;
  const across = width - 2 * MARGIN_MM;
  const marks: Mark[] = [];
  const line = [`job ${fields.jobId}`, fields.state, `version ${fields.version}`, fields.date].join("  ·  ");
  if (index === 0) {
    const title = fitted(fields.title, 5, "bold", across, measure);
    const instrument = fitted(fields.instrument, 2.8, "regular", across, measure);
    const small = textBlock(line, { heightMm: 2.1 }, across, setting);
    marks.push(
      textMark({ right: MARGIN_MM, down: MARGIN_MM + 5.5 }, title.text, { heightMm: title.heightMm, weight: "bold" }),
    );
    marks.push(
      textMark({ right: MARGIN_MM, down: MARGIN_MM + 11 }, instrument.text, { heightMm: instrument.heightMm }),
    );
    marks.push(...shifted(small.marks, MARGIN_MM, MARGIN_MM + 12.6));
    marks.push(lineMark({ right: MARGIN_MM, down: MARGIN_MM + 18.5 }, { right, down: MARGIN_MM + 18.5 }, thin(0.5)));
  } else {
    const head = fitted(`${fields.title}  ·  ${fields.instrument}`, 2.1, "bold", across, measure);
    marks.push(
      textMark({ right: MARGIN_MM, down: MARGIN_MM + 3 }, head.text, { heightMm: head.heightMm, weight: "bold" }),
    );
    marks.push(lineMark({ right: MARGIN_MM, down: MARGIN_MM + 5 }, { right, down: MARGIN_MM + 5 }, thin(0.25)));
  }
  const foot = height - MARGIN_MM;
  const says = [
    setting.units === "inch" ? "lengths in inches unless said" : "lengths in mm unless said",
    document.strings === false ? "" : "strings numbered 1 = thinnest",
  ]
    .filter(Boolean)
    .join("  ·  ");
  const sheet = `sheet ${number.number} of ${number.of}`;
  const sheetWidth = measure(sheet, 2.3, "bold");
  const left = fitted(
    `${says}  ·  job ${fields.jobId}, version ${fields.version}`,
    1.9,
    "regular",
    across - sheetWidth - 4,
    measure,
  );
  marks.push(lineMark({ right: MARGIN_MM, down: foot - 4.5 }, { right, down: foot - 4.5 }, thin(0.25)));
  marks.push(textMark({ right: MARGIN_MM, down: foot - 0.8 }, left.text, { heightMm: left.heightMm }));
  marks.push(textMark({ right, down: foot - 0.8 }, sheet, { heightMm: 2.3, weight: "bold", anchor: "end" }));
  return [{ id: "head-and-foot", role: "title-block", title: `${fields.title}, ${sheet}`, marks }];
}
