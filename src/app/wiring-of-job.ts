/** Use case: what the wiring of a job file does. */
import { InputError, type Job, type WiringReport, wiringOf } from "../core/index.ts";
import { inFile, openJob } from "./assess-job.ts";

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
