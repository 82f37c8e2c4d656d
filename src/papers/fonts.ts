/**
 * The embedded font: DejaVu Sans, regular and bold, as TrueType bytes, and text widths measured in it. The bytes are
 * passed in, so a browser can fetch them and a server can read them from its packages.
 */
import PDFDocument from "pdfkit";
import { CAPITAL_HEIGHT, type TextMeasure } from "../core/drawing/index.ts";

export interface PaperFonts {
  readonly regular: Uint8Array;
  readonly bold: Uint8Array;
}

export const POINTS_PER_MM = 72 / 25.4;

/** Font size in points at which capitals are `heightMm` high. */
export function fontSizePoints(heightMm: number): number {
  return (heightMm / CAPITAL_HEIGHT) * POINTS_PER_MM;
}

/** One for each pair of fonts: a font is read once, however many papers are set in it. */
const measures = new WeakMap<PaperFonts, TextMeasure>();

/** Widths as the PDF writer will set them; kept, since sheets repeat their words. */
export function textMeasure(fonts: PaperFonts): TextMeasure {
  const known = measures.get(fonts);
  if (known) return known;
  const made = newMeasure(fonts);
  measures.set(fonts, made);
  return made;
}

function newMeasure(fonts: PaperFonts): TextMeasure {
  const document = openDocument(fonts, { autoFirstPage: false });
  const perMm = new Map<string, number>();
  return (text, heightMm, weight) => {
    const key = `${weight}|${text}`;
    let width = perMm.get(key);
    if (width === undefined) {
      width = document.font(weight).fontSize(100).widthOfString(text, PLAIN) / 100;
      perMm.set(key, width);
    }
    return (width * fontSizePoints(heightMm)) / POINTS_PER_MM;
  };
}

/**
 * A text is exactly as wide as its glyphs. Kerning is off: reading the font's pair tables is slow, and a
 * lettered drawing does without. The types allow only a list of features to add; the library also takes a switch.
 */
export const PLAIN = {
  lineBreak: false,
  wordSpacing: 0,
  characterSpacing: 0,
  features: { kern: false } as unknown as PDFKit.Mixins.OpenTypeFeatures[],
};

/** A document that knows the two fonts by their weights and loads none of the fourteen standard ones. */
export function openDocument(fonts: PaperFonts, options: PDFKit.PDFDocumentOptions): PDFKit.PDFDocument {
  // The types want a name here; without one the library opens no font of its own.
  const font = null as unknown as string;
  const document = new PDFDocument({ ...options, font });
  document.registerFont("regular", asSource(fonts.regular));
  document.registerFont("bold", asSource(fonts.bold));
  return document;
}

/** The types ask for an ArrayBuffer or a name; a Uint8Array view is what the library reads. */
function asSource(bytes: Uint8Array): PDFKit.Mixins.PDFFontSource {
  return bytes as unknown as PDFKit.Mixins.PDFFontSource;
}
