/** Which papers a job gets: one PDF a paper, and every drawing as DXF and SVG too. */
import type { PaperName, PrintFactors } from "../core/drawing/index.ts";
import { assess, type Job, papers } from "../core/index.ts";
import type { LengthUnit } from "../core/quantity/index.ts";
import type { PaperFile } from "./write-papers.ts";

export interface PaperOptions {
  readonly paper: PaperName;
  readonly units: LengthUnit;
  /** For an upright sheet; a sheet on its side takes them the other way round. */
  readonly correction?: PrintFactors | undefined;
  /** Time of writing. */
  readonly now: Date;
}

/** The writers are loaded only when something is printed: other commands start without them. */
export async function makePapers(
  job: Job,
  { paper, units, correction, now }: PaperOptions,
): Promise<readonly PaperFile[]> {
  const [{ printPdf, textMeasure, writeDxf, writeSvg }, { installedFonts }, { layOut }] = await Promise.all([
    import("../papers/index.ts"),
    import("../papers/font-node.ts"),
    import("../core/drawing/index.ts"),
  ]);
  const fonts = installedFonts();
  const measure = textMeasure(fonts);
  const date = now.toISOString().slice(0, 10);
  const sets = papers(job, assess(job), {
    paper,
    date,
    version: "1",
    ...(correction ? { printFactors: correction } : {}),
  });
  const files: PaperFile[] = [];
  for (const { id, title, documents } of sets) {
    files.push({
      name: `${id}.pdf`,
      content: await printPdf(documents, { fonts, created: now, title: `${title}, ${job.title}`, units }),
    });
    for (const document of documents) {
      if (document.kind !== "drawing") continue;
      files.push({ name: `${id}.dxf`, content: writeDxf(document.scene, { measure, units }) });
      const pages = layOut([document], { measure, units });
      for (const [index, page] of pages.entries()) {
        files.push({ name: pages.length === 1 ? `${id}.svg` : `${id}-${index + 1}.svg`, content: writeSvg(page) });
      }
    }
  }
  return files;
}
