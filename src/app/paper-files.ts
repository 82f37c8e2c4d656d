/** The files of a set of papers: one PDF a paper, and every drawing as DXF and SVG too. Knows nothing of Node. */
import { layOut } from "../core/drawing/index.ts";
import type { LengthUnit } from "../core/quantity/index.ts";
import type { PaperSet } from "../core/sheets/index.ts";
import { type PaperFonts, printPdf, textMeasure, writeDxf, writeSvg } from "../papers/index.ts";

export interface WrittenPaper {
  /** File name without a folder, e.g. "bridge-template.pdf". */
  readonly name: string;
  readonly content: Uint8Array | string;
}

export interface WritingOptions {
  readonly fonts: PaperFonts;
  readonly units: LengthUnit;
  /** Of the job, for the title of each PDF. */
  readonly title: string;
  readonly created: Date;
}

export async function paperFiles(sets: readonly PaperSet[], options: WritingOptions): Promise<WrittenPaper[]> {
  const files: WrittenPaper[] = [];
  for (const set of sets) files.push(await pdfOf(set, options), ...drawingFiles(set, options));
  return files;
}

export async function pdfOf({ id, title, documents }: PaperSet, options: WritingOptions): Promise<WrittenPaper> {
  const { fonts, created, units, title: job } = options;
  return {
    name: `${id}.pdf`,
    content: await printPdf(documents, { fonts, created, title: `${title}, ${job}`, units }),
  };
}

/** DXF and SVG; none for a paper of words. */
export function drawingFiles({ id, documents }: PaperSet, { fonts, units }: WritingOptions): WrittenPaper[] {
  const measure = textMeasure(fonts);
  return documents.flatMap((document): WrittenPaper[] => {
    if (document.kind !== "drawing") return [];
    const pages = layOut([document], { measure, units });
    return [
      { name: `${id}.dxf`, content: writeDxf(document.scene, { measure, units }) },
      ...pages.map((page, index) => ({
        name: pages.length === 1 ? `${id}.svg` : `${id}-${index + 1}.svg`,
        content: writeSvg(page),
      })),
    ];
  });
}

/** Every page as it will be printed. */
export function pagesOf(
  { id, documents }: PaperSet,
  { fonts, units }: Pick<WritingOptions, "fonts" | "units">,
): string[] {
  const pages = layOut(documents, { measure: textMeasure(fonts), units });
  return pages.map((page, index) => writeSvg(page, { idPrefix: `${id}-${index + 1}-` }));
}
