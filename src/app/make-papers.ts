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
  const [{ paperFiles }, { installedFonts }] = await Promise.all([
    import("./paper-files.ts"),
    import("../papers/font-node.ts"),
  ]);
  const sets = papers(job, assess(job), {
    paper,
    date: now.toISOString().slice(0, 10),
    version: "1",
    ...(correction ? { printFactors: correction } : {}),
  });
  return paperFiles(sets, { fonts: installedFonts(), units, title: job.title, created: now });
}
