/** What the core answers: a job read from plain data, its questions, and a verdict on each. */
import { GIVE_THE_CODE, nominalByCode, printCheck } from "./drawing/index.ts";
import { InputError } from "./errors.ts";
import {
  type Instrument,
  jobJsonSchema,
  type KeptSection,
  logOf,
  type Operation,
  type ParsedJob,
  parseJob,
  type Resolved,
  resolveActual,
} from "./job/index.ts";
import { createLedger, type Ledger } from "./ledger/index.ts";
import { everythingToFit, type Gate, gateOf, planTraveller, type TakenReading, type Traveller } from "./plan/index.ts";
import { figure, type Phrase, parseQuantity, say, standardUncertainty } from "./quantity/index.ts";
import { lookUp, placement, questionsAbout } from "./questions/index.ts";
import {
  drawingsOf,
  type PaperSet,
  papersOf,
  planPlaces,
  type SheetContext,
  type SheetOptions,
} from "./sheets/index.ts";
import type { Verdict } from "./verdict/index.ts";

export { InputError } from "./errors.ts";

export interface Job {
  readonly title: string;
  readonly id: string;
  readonly parsed: ParsedJob;
  readonly resolved: Resolved;
  readonly instrument: Instrument;
  /** Sections kept unread because a newer program wrote them. */
  readonly kept: readonly KeptSection[];
}

export interface QuestionName {
  readonly id: string;
  readonly question: string;
}

/**
 * A job from a document already read as plain data.
 *
 * @throws InputError naming the path of the first value that is wrong
 */
export function loadJob(data: unknown): Job {
  const parsed = parseJob(data);
  const resolved = resolveActual(parsed.file);
  const { instrument } = resolved;
  return { title: instrument.title, id: instrument.id, parsed, resolved, instrument, kept: parsed.kept };
}

export function questionsOf(job: Job): readonly QuestionName[] {
  return questionsAbout(job.instrument).map(({ id, question }) => ({ id, question }));
}

/**
 * Every question of the job, answered, in the order in which they are asked.
 *
 * @param ledger keep one and pass it again: a question none of whose values changed keeps its verdict
 */
export function assess(job: Job, ledger: Ledger<Instrument> = createLedger()): readonly Verdict[] {
  return ledger.ask(questionsAbout(job.instrument), job.instrument).verdicts;
}

/** One question, answered. @throws InputError if the job has no such question */
export function ask(job: Job, id: string): Verdict {
  const question = questionsAbout(job.instrument).find((item) => item.id === id);
  const verdict = question && createLedger<Instrument>().ask([question], job.instrument).verdicts[0];
  if (!verdict) throw new InputError(id, "is not a question of this job", "List the questions");
  return verdict;
}

const BRIDGE_TEMPLATE = "bridge-template";

/** The job's steps in order, from its verdicts. */
export function travellerOf(job: Job, verdicts: readonly Verdict[]): Traveller {
  const everything = everythingToFit({ instrument: job.instrument });
  // Holes of the bridge are marked from its printed template, so the print has to be proved first.
  const toFit = everything.bridge ? { ...everything, template: BRIDGE_TEMPLATE } : everything;
  const placed = lookUp(job.instrument, placement);
  return planTraveller({
    instrument: job.instrument,
    verdicts,
    toFit,
    done: operationsDone(job),
    ...(placed.known ? { places: planPlaces(placed, job.instrument) } : {}),
  });
}

/** The operations that hold, as they were done. */
function operationsDone(job: Job): Operation[] {
  const { applied } = job.resolved;
  return logOf(job.parsed.file).flatMap((entry) => ("work" in entry && applied.includes(entry.id) ? [entry] : []));
}

/** The gate of every step, by step id. `at` is the present as ISO time: the core has no clock. */
export function gatesOf(
  job: Job,
  verdicts: readonly Verdict[],
  traveller: Traveller,
  at?: string,
): ReadonlyMap<string, Gate> {
  const record = job.parsed.file.record ?? {};
  const circumstances = {
    steps: traveller.steps,
    verdicts,
    readings: job.resolved.valid.map(asGateReading),
    prints: printsOf(job),
    done: Object.entries(record.done ?? {}).map(([step, time]) => ({ step, at: time })),
    overrides: (record.overrides ?? []).map(({ step, reason, by, at: time }) => ({
      step,
      reason,
      ...(by === undefined ? {} : { by }),
      ...(time === undefined ? {} : { at: time }),
    })),
    ...(at === undefined ? {} : { at }),
  };
  return new Map(traveller.steps.map((step) => [step.id, gateOf(step, circumstances)]));
}

/** What the record says of the printed template: its rules and diagonals as measured. */
function printsOf(job: Job): { sheet: string; accepted: boolean; text?: Phrase }[] {
  const printed = job.parsed.file.record?.printed;
  if (!printed) return [];
  const lengthMm = (key: "along" | "across" | "diagonal1" | "diagonal2") =>
    parseQuantity(printed[key], { path: `record.printed.${key}`, kind: "length", bareUnit: "mm" }).value;
  const measured = {
    alongMm: lengthMm("along"),
    acrossMm: lengthMm("across"),
    diagonal1Mm: lengthMm("diagonal1"),
    diagonal2Mm: lengthMm("diagonal2"),
  };
  const nominal = nominalByCode(printed.code, printed.paper ?? "A4", "record.printed.code");
  const check = printCheck(measured, nominal);
  if ("accept" in check) return [{ sheet: BRIDGE_TEMPLATE, accepted: true }];
  const text =
    "refuse" in check
      ? say`${check.refuse}`
      : say`the print is ${figure((measured.acrossMm / nominal.acrossMm) * 100, "%", 1)} across and ${figure((measured.alongMm / nominal.alongMm) * 100, "%", 1)} along: print again with the correction`;
  return [
    {
      sheet: BRIDGE_TEMPLATE,
      accepted: false,
      text: printed.code === undefined ? say`${text}. ${GIVE_THE_CODE}` : text,
    },
  ];
}

function asGateReading({ id, subject, quantity, placing, at }: Resolved["valid"][number]): TakenReading {
  return {
    id,
    subject,
    value: quantity.value,
    u: standardUncertainty(quantity),
    tool: quantity.tool ?? "",
    ...(placing === undefined ? {} : { placing }),
    ...(at === undefined ? {} : { at }),
  };
}

function sheetContext(job: Job, verdicts: readonly Verdict[], options: SheetOptions): SheetContext {
  const placed = lookUp(job.instrument, placement);
  const partNames = Object.fromEntries(
    Object.entries(job.parsed.file.parts ?? {}).map(([id, part]) => [id, part.name ?? id]),
  );
  return { instrument: job.instrument, verdicts, placement: placed.known ? placed : undefined, options, partNames };
}

/** All papers of the job, one set a file. */
export function papers(job: Job, verdicts: readonly Verdict[], options: SheetOptions): readonly PaperSet[] {
  const traveller = travellerOf(job, verdicts);
  return papersOf(sheetContext(job, verdicts, options), traveller, gatesOf(job, verdicts, traveller));
}

/** The drawings alone, for DXF and for the screen. */
export function drawings(job: Job, verdicts: readonly Verdict[], options: SheetOptions): ReturnType<typeof drawingsOf> {
  return drawingsOf(sheetContext(job, verdicts, options));
}

export const jobSchema = jobJsonSchema;
export { createLedger } from "./ledger/index.ts";
