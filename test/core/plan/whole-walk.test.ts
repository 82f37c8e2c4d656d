/**
 * Each demo job from its first step to its last, by the clock: every reading that a step or a gate asks for is taken, at
 * the value the job holds, and no gate has to be overridden. What a person has to choose first is chosen at the start.
 */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { parse } from "yaml";
import { assess, gatesOf, loadJob, travellerOf } from "../../../src/core/index.ts";
import { covers, fileWorkOf, voidsOf } from "../../../src/core/job/index.ts";
import type { Gate, Step } from "../../../src/core/plan/index.ts";
import { BASE_UNIT, type Known, showPhrase, toolNamed } from "../../../src/core/quantity/index.ts";

interface Reading {
  readonly id: string;
  readonly of: string;
  readonly value: string;
  readonly at?: string;
  after?: string;
}

interface Job {
  fettle: Record<string, number>;
  settings: Record<string, unknown>;
  parts: Record<string, { kind: string; screws?: { pilot: number }[] }>;
  readings: Reading[];
  operations: object[];
  record: { done: Record<string, string>; printed?: object };
}

const MINUTE = 60_000;
const TOOL: Readonly<Record<string, string>> = { length: " (calliper)", cents: " (trial)" };
/** A slack over the longest wait (glue, strings that settle). */
const A_DAY = 25 * 60;

class Walk {
  private minutes = Date.UTC(2026, 4, 1, 8) / MINUTE;
  private numbers = 0;
  private last: string | undefined;
  readonly shut: string[] = [];

  constructor(readonly job: Job) {}

  get at(): string {
    return new Date(this.minutes * MINUTE).toISOString();
  }

  private look() {
    const loaded = loadJob(this.job, this.at);
    const verdicts = assess(loaded);
    const traveller = travellerOf(loaded, verdicts);
    return { loaded, traveller, gates: gatesOf(loaded, verdicts, traveller, this.at) };
  }

  /** @returns the ids of the steps in the order in which they were done */
  toTheEnd(): string[] {
    const done: string[] = [];
    for (;;) {
      const { traveller, gates } = this.look();
      const step = traveller.steps.find(({ id }) => this.job.record.done[id] === undefined);
      if (!step) return done;
      const gate = gates.get(step.id);
      if (!gate) throw new Error(`${step.id} has no gate`);
      if (gate.state !== "open") this.open(step);
      this.take(step);
      done.push(step.id);
    }
  }

  /** Does what the gate says, and waits a day where that is not enough. */
  private open(step: Step): void {
    for (let round = 0; round < 4; round += 1) {
      const { loaded, gates } = this.look();
      const gate = gates.get(step.id) as Gate;
      if (gate.state === "open") return;
      for (const { ok, ref, text } of gate.reasons) {
        if (ok) continue;
        if (/sheet's rules/.test(showPhrase(text, "mm"))) this.measurePrint();
        const value = ref === undefined ? undefined : known(loaded.instrument, ref);
        if (value)
          for (const _ of [1, 2])
            this.read(value.path, `${value.value} ${BASE_UNIT[value.kind]}${TOOL[value.kind] ?? ""}`);
      }
      this.minutes += A_DAY;
    }
    const { gates } = this.look();
    const reasons = (gates.get(step.id)?.reasons ?? []).filter(({ ok }) => !ok);
    if (reasons.length > 0)
      this.shut.push(`${step.id}: ${reasons.map(({ text }) => showPhrase(text, "mm")).join("; ")}`);
  }

  private measurePrint(): void {
    // The frame of an A4 sheet, as printed true.
    this.job.record.printed = {
      along: "280 mm",
      across: "190 mm",
      diagonal1: "338.4 mm",
      diagonal2: "338.4 mm",
      code: "A4-P",
    };
  }

  private read(of: string, value: string): Reading {
    this.minutes += 90;
    this.numbers += 1;
    const reading: Reading = { id: `walk-${this.numbers}`, of, value, at: this.at };
    if (this.last !== undefined) reading.after = this.last;
    this.job.readings.push(reading);
    return reading;
  }

  private take(step: Step): void {
    const { loaded } = this.look();
    const taken = step.readings.flatMap(({ subject, answer, expected, unit, tool, twice }) => {
      const value = answer === "confirm" ? 1 : (expected?.value ?? known(loaded.instrument, subject)?.value ?? 0.2);
      return (twice ? [1, 2] : [1]).map(() =>
        this.read(subject, answer === "confirm" ? "1" : `${value} ${unit} ${toolNamed(tool) ? `(${tool})` : ""}`),
      );
    });
    this.minutes += Math.max(5, step.minutes);
    this.job.record.done[step.id] = this.at;
    const work = step.work && fileWorkOf(step.work);
    if (!step.work || !work) return;
    this.job.operations.push({ id: step.id, work: JSON.parse(JSON.stringify(work)), doneAt: this.at });
    this.last = step.id;
    const gone = voidsOf(step.work);
    for (const reading of taken) if (gone.some(({ subject }) => covers(subject, reading.of))) reading.after = step.id;
  }
}

function known(value: unknown, path: string): Known | undefined {
  if (typeof value !== "object" || value === null) return undefined;
  if ("known" in value && "path" in value) {
    const quantity = value as Known;
    return quantity.known && quantity.path === path ? quantity : undefined;
  }
  for (const item of Object.values(value)) {
    const found = known(item, path);
    if (found) return found;
  }
  return undefined;
}

it.each([
  ["ferry", 1.8, 29],
  ["lowtide", 2, 45],
] as const)("[GT2] %s goes to its end without an override", (name, bit, fewest) => {
  const job = parse(readFileSync(`examples/${name}.yaml`, "utf8")) as Job;
  job.fettle = { ...job.fettle, operations: 1, record: 1 };
  job.operations = [];
  job.record = { done: {} };
  // Chosen at the start: how the holes are drilled, and the bit that the papers give for the wood.
  job.settings = { ...job.settings, drilling: "self-centring bit through the plate" };
  for (const part of Object.values(job.parts))
    if (part.kind === "bridge") for (const row of part.screws ?? []) row.pilot = bit;
  const walk = new Walk(job);
  expect(walk.toTheEnd().length).toBeGreaterThanOrEqual(fewest);
  expect(walk.shut).toEqual([]);
});
