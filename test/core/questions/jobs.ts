/** Demo jobs and fixture jobs as plain data, changed at will, and their verdicts by id. */
import { readFileSync } from "node:fs";
import { parse } from "yaml";
import { assess, loadJob } from "../../../src/core/index.ts";
import type { Instrument } from "../../../src/core/job/index.ts";
import { type Asking, createLedger } from "../../../src/core/ledger/index.ts";
import { type Phrase, showPhrase } from "../../../src/core/quantity/index.ts";
import { type Placement, placement, questionsAbout } from "../../../src/core/questions/index.ts";
import type { Verdict } from "../../../src/core/verdict/index.ts";

/** A job file as read: whatever the text holds. */
export type JobData = Record<string, unknown>;

export function example(name: "lowtide" | "ferry"): JobData {
  return parse(readFileSync(`examples/${name}.yaml`, "utf8"));
}

export function fixture(name: string): JobData {
  return parse(readFileSync(`test/fixtures/jobs/${name}.yaml`, "utf8"));
}

/**
 * A copy with one value put at a path such as "fit.setup.strings.3.cents"; undefined takes it out. A list is entered by
 * its index, or by the id of one of its items.
 */
export function withValue(data: JobData, path: string, value: unknown): JobData {
  const copy = structuredClone(data);
  const keys = path.split(".");
  const last = keys.pop() ?? "";
  let at: unknown = copy;
  for (const key of keys) {
    const held = at as Record<string, unknown>;
    const next = Array.isArray(at) ? (at.find((item) => item?.id === key) ?? at[Number(key)]) : held[key];
    if (next === undefined) held[key] = {};
    at = next ?? held[key];
  }
  if (value === undefined) delete (at as Record<string, unknown>)[last];
  else (at as Record<string, unknown>)[last] = value;
  return copy;
}

export function withReading(data: JobData, reading: { id: string; of: string; value: string }): JobData {
  return { ...data, readings: [...((data.readings as unknown[]) ?? []), reading] };
}

export function withoutReading(data: JobData, ...ids: string[]): JobData {
  return { ...data, readings: (data.readings as { id: string }[]).filter(({ id }) => !ids.includes(id)) };
}

export function verdictsOf(data: JobData): Map<string, Verdict> {
  return new Map(assess(loadJob(data)).map((verdict) => [verdict.id, verdict]));
}

/** One question; others are not worked out. */
export function askOf(data: JobData, id: string): Verdict {
  return askInstrument(loadJob(data).instrument, id);
}

export function askInstrument(instrument: Instrument, id: string): Verdict {
  const question = questionsAbout(instrument).find((item) => item.id === id);
  const [verdict] = question ? createLedger<Instrument>().ask([question], instrument).verdicts : [];
  if (!verdict) throw new Error(`not asked: ${id}`);
  return verdict;
}

/** The place as every question sees it. */
export function placementOf(instrument: Instrument): Extract<Placement, { known: true }> {
  const derived = new Map<string, unknown>();
  const asking: Asking<Instrument> = {
    subject: instrument,
    derive<T>(key: string, compute: (inner: Asking<Instrument>) => T): T {
      if (!derived.has(key)) derived.set(key, compute(asking));
      return derived.get(key) as T;
    },
  };
  const found = placement(asking);
  if (!found.known) throw new Error("the place is not known");
  return found;
}

export function figureOf(verdict: Verdict | undefined, name: string): number {
  const value = verdict?.figures[name];
  if (value === undefined)
    throw new Error(`${verdict?.id}: no figure ${name} among ${Object.keys(verdict?.figures ?? {}).join(", ")}`);
  return value;
}

export function text(phrase: Phrase | undefined): string {
  return showPhrase(phrase ?? []);
}

/** Headline and details in one text. */
export function wholeText(verdict: Verdict | undefined): string {
  return [verdict?.headline ?? [], ...(verdict?.detail ?? [])].map((line) => showPhrase(line)).join("\n");
}
