/** Which papers a job gets. */

import type { PaperName, PrintFactors } from "../core/drawing/index.ts";
import type { Job } from "../core/index.ts";
import type { LengthUnit } from "../core/quantity/index.ts";
import type { PaperFile } from "./write-papers.ts";

export interface PaperOptions {
  readonly paper: PaperName;
  readonly units: LengthUnit;
  /** For an upright sheet; a sheet on its side takes them the other way round. */
  readonly correction?: PrintFactors | undefined;
}

export async function makePapers(_job: Job, _options: PaperOptions): Promise<readonly PaperFile[]> {
  return [];
}
