/** What the outside may ask of a job's wiring. */
import type { Job } from "./answers.ts";
import { inState, netlistOf, spiceText } from "./circuit/index.ts";
import type { Page } from "./drawing/index.ts";
import { InputError } from "./errors.ts";
import { signalPage, type WiringReport, wiringPage, wiringReport } from "./wiring/index.ts";

/** @returns undefined where the job describes no wiring */
export function wiringOf(job: Job): WiringReport | undefined {
  return wiringReport(job.instrument.wiring, { readings: job.resolved.valid });
}

/**
 * The control plate from behind as a page, 1:1.
 *
 * @param state whose signal stands out by wider lines
 * @returns undefined where the job describes no wiring
 */
export function wiringDrawing({ instrument }: Job, state?: string): Page | undefined {
  const { wiring } = instrument;
  return wiring && wiring.coils.length > 0 ? wiringPage(wiring, instrument.title, state) : undefined;
}

/** The signal of a state as a page; undefined where it is silent, or series and parallel do not make it. */
export function signalDrawing({ instrument }: Job, report: WiringReport, state: string): Page | undefined {
  const { wiring } = instrument;
  return wiring && signalPage(wiring, report, state);
}

/** The state's circuit as text for a SPICE simulator, strings as they excite the coils. @throws InputError for a state that there is not */
export function spiceOf(report: WiringReport, id: string, title: string): string {
  const at = report.states.findIndex((state) => state.id === id);
  const facts = report.facts.states[at];
  if (!facts)
    throw new InputError(
      id,
      "is not a state of this wiring",
      `Its states are ${report.states.map((state) => state.id).join(", ")}`,
    );
  const inside = inState(facts.inside.circuit, facts.inside.state);
  const volts = new Map(inside.circuit.coils.map(({ id: coil, kick }) => [`${coil}:emf`, kick ?? 1]));
  return spiceText(netlistOf(inside, report.load), { title, output: inside.output, volts }).text;
}
