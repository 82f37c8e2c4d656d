/** The invented demo jobs of examples/, and a changed copy of an instrument, for tests of questions. */
import { readFileSync } from "node:fs";
import { parse } from "yaml";
import { type Instrument, parseJob, resolveActual } from "../../../src/core/job/index.ts";
import { createLedger } from "../../../src/core/ledger/index.ts";
import { exact, type Known, type Quantity } from "../../../src/core/quantity/index.ts";
import { fitQuestions } from "../../../src/core/questions/fit-questions.ts";
import type { Verdict } from "../../../src/core/verdict/index.ts";

export function demo(name: "lowtide" | "ferry"): Instrument {
  const text = readFileSync(new URL(`../../../examples/${name}.yaml`, import.meta.url), "utf8");
  return resolveActual(parseJob(parse(text)).file).instrument;
}

/** Verdicts of all fit questions, by id. */
export function fitVerdicts(instrument: Instrument): ReadonlyMap<string, Verdict> {
  const { verdicts } = createLedger<Instrument>().ask(fitQuestions(instrument), instrument);
  return new Map(verdicts.map((verdict) => [verdict.id, verdict]));
}

/** The verdict of one question alone. */
export function ask(instrument: Instrument, id: string): Verdict {
  const question = fitQuestions(instrument).find((one) => one.id === id);
  if (!question) throw new Error(`no question ${id}`);
  return the(new Map([[id, createLedger<Instrument>().ask([question], instrument).verdicts[0] as Verdict]]), id);
}

export function the(verdicts: ReadonlyMap<string, Verdict>, id: string): Verdict {
  const verdict = verdicts.get(id);
  if (!verdict) throw new Error(`no question ${id}; there are ${[...verdicts.keys()].join(", ")}`);
  return verdict;
}

/** A length with a stated standard uncertainty. */
export function length(value: number, u = 0, path = "test"): Known {
  const known = exact(value, path, "length", "measured");
  return u === 0 ? known : { ...known, doubt: [{ id: `${path}:${value}`, u, shape: "normal", what: "test" }] };
}

/** The same instrument with every quantity replaced by what `change` gives. */
export function mapQuantities<T>(value: T, change: (quantity: Quantity) => Quantity): T {
  if (Array.isArray(value)) return value.map((item) => mapQuantities(item, change)) as T;
  if (typeof value !== "object" || value === null) return value;
  if ("known" in value && "path" in value) return change(value as unknown as Quantity) as T;
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, mapQuantities(item, change)])) as T;
}
