/**
 * Pages as PDF: user unit 1 (1/72 in), page box exactly the paper, every place written in points to 6 decimals
 * (4e-7 mm), circles as four cubic curves (2.7e-4 of the radius), fonts embedded as subsets. The reader is asked not to
 * scale when printing. The same pages, fonts and date give the same bytes.
 */

import {
  type LayOutOptions,
  layOut,
  type Mark,
  type MarkGroup,
  type Page,
  type PaperDocument,
  type Stroke,
  type TextMark,
} from "../core/drawing/index.ts";
import { InputError } from "../core/errors.ts";
import { fontSizePoints, openDocument, type PaperFonts, PLAIN, POINTS_PER_MM, textMeasure } from "./fonts.ts";

export interface PdfOptions {
  readonly fonts: PaperFonts;
  /** Written into the file: there is no clock here. */
  readonly created: Date;
  readonly title: string;
  readonly language?: string;
}

/** Control points of a quarter circle, in radii. */
const KAPPA = (4 / 3) * (Math.SQRT2 - 1);

/** Documents laid out and written. */
export function printPdf(
  documents: readonly PaperDocument[],
  options: PdfOptions & Omit<LayOutOptions, "measure">,
): Promise<Uint8Array> {
  const units = options.units === undefined ? {} : { units: options.units };
  return writePdf(layOut(documents, { measure: textMeasure(options.fonts), ...units }), options);
}

/**
 * @throws InputError if there is no page, or the date is none
 */
export async function writePdf(
  pages: readonly Page[],
  { fonts, created, title, language = "en-GB" }: PdfOptions,
): Promise<Uint8Array> {
  if (pages.length === 0) throw new InputError("pages", "is empty", "Give at least one sheet");
  if (Number.isNaN(created.getTime())) throw new InputError("created", "is not a date", "Pass the time of writing");
  const info = { Title: title, Creator: "Fettle", Producer: "Fettle", CreationDate: created };
  const document = openDocument(fonts, {
    autoFirstPage: false,
    info,
    lang: language,
    displayTitle: true,
    pdfVersion: "1.7",
    margin: 0,
  });
  const bytes = collect(document);
  askForTrueScale(document);
  for (const page of pages) {
    const [width, height] = [page.widthMm * POINTS_PER_MM, page.heightMm * POINTS_PER_MM];
    document.addPage({ size: [width, height], margin: 0 });
    if (pages.length > 1) document.outline.addItem(page.title);
    const pen: Pen = {
      document,
      across: page.factors.across * POINTS_PER_MM,
      down: page.factors.down * POINTS_PER_MM,
      factors: page.factors,
    };
    for (const group of page.groups) drawGroup(group, pen);
  }
  document.end();
  return bytes;
}

interface Pen {
  readonly document: PDFKit.PDFDocument;
  /** Points per true mm. */
  readonly across: number;
  readonly down: number;
  readonly factors: Page["factors"];
}

function drawGroup(group: MarkGroup, pen: Pen): void {
  const { document } = pen;
  if (group.clip) {
    const { left, top, right, bottom } = group.clip;
    document.save();
    document.rect(left * pen.across, top * pen.down, (right - left) * pen.across, (bottom - top) * pen.down).clip();
  }
  for (const mark of group.marks) drawMark(mark, pen);
  if (group.clip) document.restore();
}

function drawMark(mark: Mark, pen: Pen): void {
  if (mark.kind === "text") {
    drawText(mark, pen);
    return;
  }
  const { document, across, down } = pen;
  if (mark.kind === "circle") drawCircle(mark.centre.right * across, mark.centre.down * down, mark.radiusMm, pen);
  else {
    for (const segment of mark.path) {
      if (segment.to === "close") document.closePath();
      else if (segment.to === "move") document.moveTo(segment.at.right * across, segment.at.down * down);
      else if (segment.to === "line") document.lineTo(segment.at.right * across, segment.at.down * down);
      else {
        const { first, second, at } = segment;
        document.bezierCurveTo(
          first.right * across,
          first.down * down,
          second.right * across,
          second.down * down,
          at.right * across,
          at.down * down,
        );
      }
    }
  }
  paint(mark.stroke, mark.fill, document);
}

function drawCircle(x: number, y: number, radiusMm: number, { document, across, down }: Pen): void {
  const [a, b] = [radiusMm * across, radiusMm * down];
  const [p, q] = [a * KAPPA, b * KAPPA];
  document
    .moveTo(x + a, y)
    .bezierCurveTo(x + a, y + q, x + p, y + b, x, y + b)
    .bezierCurveTo(x - p, y + b, x - a, y + q, x - a, y)
    .bezierCurveTo(x - a, y - q, x - p, y - b, x, y - b)
    .bezierCurveTo(x + p, y - b, x + a, y - q, x + a, y)
    .closePath();
}

function paint(stroke: Stroke | undefined, fill: "ink" | "paper" | undefined, document: PDFKit.PDFDocument): void {
  if (fill) document.fillColor(fill === "ink" ? "black" : "white");
  if (stroke) {
    document.lineWidth(stroke.widthMm * POINTS_PER_MM).strokeColor(stroke.colour ?? "black");
    if (stroke.dashMm.length === 0) document.undash();
    // The types know one number; the library takes the whole pattern.
    else document.dash(stroke.dashMm.map((part) => part * POINTS_PER_MM) as unknown as number, {});
  }
  if (fill && stroke) document.fillAndStroke();
  else if (fill) document.fill();
  else if (stroke) document.stroke();
}

/** Text keeps the smaller of the two factors, so that it never outgrows a box drawn with them. */
function drawText(mark: TextMark, { document, across, down, factors }: Pen): void {
  const size = fontSizePoints(mark.heightMm) * Math.min(factors.across, factors.down);
  document
    .font(mark.weight)
    .fontSize(size)
    .fillColor(mark.ink === "ink" ? "black" : "white");
  const [x, y] = [mark.at.right * across, mark.at.down * down];
  const width = mark.anchor === "start" ? 0 : document.widthOfString(mark.text, PLAIN);
  const start = mark.anchor === "middle" ? x - width / 2 : mark.anchor === "end" ? x - width : x;
  const options = { ...PLAIN, baseline: "alphabetic" } as const;
  if (mark.turnDegrees === 0) {
    document.text(mark.text, start, y, options);
    return;
  }
  document.save();
  document.rotate(-mark.turnDegrees, { origin: [x, y] });
  document.text(mark.text, start, y, options);
  document.restore();
}

/** Viewer preferences live in the catalogue, which the library keeps to itself and its types leave out. */
function askForTrueScale(document: PDFKit.PDFDocument): void {
  const inside = document as unknown as { _root: { data: { ViewerPreferences?: { data: Record<string, unknown> } } } };
  const preferences = inside._root.data.ViewerPreferences;
  if (preferences) Object.assign(preferences.data, { PrintScaling: "None", PickTrayByPDFSize: true });
}

function collect(document: PDFKit.PDFDocument): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    document.on("data", (chunk: Uint8Array) => chunks.push(chunk));
    document.on("error", reject);
    document.on("end", () => {
      const bytes = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
      let offset = 0;
      for (const chunk of chunks) {
        bytes.set(chunk, offset);
        offset += chunk.length;
      }
      resolve(bytes);
    });
  });
}
