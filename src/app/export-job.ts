/** Writes one job of the log as one file: a bundle with all that the log has of it, or the document alone as YAML. */
import { InputError } from "../core/errors.ts";
import type { Keeper } from "../store/index.ts";
import { bundleText } from "./job-bundle.ts";
import { jobInLog, titleOf } from "./job-in-log.ts";
import { jobText } from "./job-text.ts";
import { keepFile } from "./whole-file.ts";

export interface ExportOptions {
  readonly replace: boolean;
  /** Names the file in messages. */
  readonly where: string;
}

/** @throws InputError if the log does not have the job or the file cannot be written */
export async function exportJob(keeper: Keeper, id: string, path: string, options: ExportOptions): Promise<void> {
  if (/\.ya?ml$/i.test(path)) {
    const { data } = await jobInLog(keeper, id);
    return keepFile(path, jobText(data, titleOf(data, id)), options);
  }
  if (/\.fettle\.json$/i.test(path)) return keepFile(path, bundleText(keeper, id), options);
  throw new InputError(
    options.where,
    `cannot tell from "${path.slice(-60)}" what to write`,
    "End the name in .fettle.json for all there is of the job, in .yaml for the document alone",
  );
}
