/** Use case: what the wiring of a job file does. */
import { InputError, type Job, type WiringReport, wiringDrawing, wiringOf } from "../core/index.ts";
import { writeSvg } from "../papers/index.ts";
import { inFile, openJob } from "./assess-job.ts";
import { keepFile } from "./whole-file.ts";

export interface WiredJob {
  readonly job: Job;
  readonly report: WiringReport;
}

/** @throws InputError where the file cannot be read, or describes no wiring */
export async function wiringOfJob(path: string): Promise<WiredJob> {
  const { file, job } = await openJob(path);
  const report = inFile(file, () => wiringOf(job));
  if (!report)
    throw new InputError(
      file.name,
      "describes no wiring",
      "Give the pickups their coils, and a wiring: section with the wires",
    );
  return { job, report };
}

/** Writes the control plate as SVG, whole or not at all. @throws InputError where the file cannot be written */
export async function writeWiringSvg(job: Job, path: string, state: string | undefined): Promise<void> {
  const page = wiringDrawing(job, state);
  if (page) await keepFile(path, writeSvg(page), { replace: true, where: path });
}
