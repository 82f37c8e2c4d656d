/** Use case: what the wiring of a job file does. */
import { InputError, type Job, signalDrawing, type WiringReport, wiringDrawing, wiringOf } from "../core/index.ts";
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

export interface DrawingWanted {
  readonly kind: "plate" | "signal";
  /** Whose signal stands out on the plate, or is drawn; the first state where a signal is asked for and none is named. */
  readonly state: string | undefined;
}

/**
 * Writes a drawing as SVG, whole or not at all.
 *
 * @throws InputError where there is nothing to draw, or the file cannot be written
 */
export async function writeWiringSvg({ job, report }: WiredJob, path: string, wanted: DrawingWanted): Promise<void> {
  const state = wanted.state ?? report.states[0]?.id ?? "";
  const page = wanted.kind === "plate" ? wiringDrawing(job, wanted.state) : signalDrawing(job, report, state);
  if (!page)
    throw new InputError(
      "--drawing",
      `there is no signal to draw in ${state}`,
      "Name a state in which a coil is heard, or draw the plate",
    );
  await keepFile(path, writeSvg(page), { replace: true, where: path });
}
