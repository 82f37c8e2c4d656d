/** The demo jobs' wirings, as they are or with an edit of their plain data. */
import { readFileSync } from "node:fs";
import { parse } from "yaml";
import { parseJob, resolveActual } from "../../src/core/job/index.ts";
import { type StateReport, type WiringReport, wiringReport } from "../../src/core/wiring/index.ts";

// biome-ignore lint/suspicious/noExplicitAny: plain data of a job file, edited by path
type Data = any;

export function wiringOf(name: "lowtide" | "ferry", edit: (data: Data) => void = () => undefined): WiringReport {
  const data = parse(readFileSync(new URL(`../../examples/${name}.yaml`, import.meta.url), "utf8"));
  edit(data);
  const { instrument, valid } = resolveActual(parseJob(data).file, {});
  const report = wiringReport(instrument.wiring, { readings: valid });
  if (!report) throw new Error(`${name} describes no wiring`);
  return report;
}

export function stateOf(report: WiringReport, id: string): StateReport {
  const state = report.states.find((one) => one.id === id);
  if (!state) throw new Error(`no state ${id}`);
  return state;
}

/** "fault: out of phase", for comparing what was raised. */
export function raised(report: WiringReport): string[] {
  return report.findings.map(({ grade, kind }) => `${grade}: ${kind}`);
}
