/** The work in order, and what each step waits for. */
import type { Job } from "./answers.ts";
import { GIVE_THE_CODE, type NextPrint, nextPrint, type PrintMeasured } from "./drawing/index.ts";
import { InputError } from "./errors.ts";
import { logOf, type Operation, type Resolved } from "./job/index.ts";
import {
  everythingToFit,
  type Gate,
  gateOf,
  type PlanInput,
  planTraveller,
  type TakenReading,
  type Traveller,
} from "./plan/index.ts";
import { figure, type Phrase, parseQuantity, say, standardUncertainty } from "./quantity/index.ts";
import { lookUp, placement } from "./questions/index.ts";
import { planPlaces } from "./sheets/index.ts";
import type { Verdict } from "./verdict/index.ts";
import { solderGroups, wiringCheck } from "./wiring/index.ts";

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
    ...wiringPlan(job),
    ...(placed.known ? { places: planPlaces(placed, job.instrument) } : {}),
  });
}

/** What the wiring gives the traveller: coils to map, groups of joints, and ohms at the jack. */
function wiringPlan({ instrument }: Job): Pick<PlanInput, "ohms" | "coils" | "solder"> {
  const { wiring } = instrument;
  const check = wiringCheck(wiring);
  if (!wiring || !check) return {};
  return {
    ohms: check.states.map(({ id, title, ohms }) => ({
      state: id,
      title,
      ohms: ohms.ohms,
      tolerance: (ohms.high - ohms.low) / 2,
    })),
    coils: wiring.coils.map(({ id, pickup, name, start, finish, ohms, kick }) => ({
      id,
      pickup,
      name,
      start,
      finish,
      ...(ohms.known ? { ohms: { value: ohms.value, tolerance: Math.sqrt(3) * standardUncertainty(ohms) } } : {}),
      ...(kick === undefined ? {} : { kick }),
    })),
    solder: solderGroups(wiring),
  };
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
    readings: gateReadings(job),
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

/** What the record says of a printed sheet: its rules and diagonals as measured. One sheet proves no other. */
function printsOf(job: Job): { sheet: string; accepted: boolean; text?: Phrase }[] {
  const print = readPrint(job);
  if (!print) return [];
  const sheet = sheetOf(job.parsed.file.record?.printed);
  if (print instanceof InputError)
    return [{ sheet, accepted: false, text: say`${print.where} ${print.problem}. ${print.remedy}` }];
  const { check } = print;
  if ("accept" in check) return [{ sheet, accepted: true }];
  const text = printInWords(print);
  return [{ sheet, accepted: false, text: print.code === undefined ? say`${text}. ${GIVE_THE_CODE}` : text }];
}

function sheetOf(printed: Printed | undefined): string {
  return printed?.sheet ?? BRIDGE_TEMPLATE;
}

export interface MeasuredPrint extends NextPrint {
  /** Which sheet it was, by its id. */
  readonly sheet: string;
  readonly measured: PrintMeasured;
  readonly code: string | undefined;
  /** When, as ISO time, where it was written down. */
  readonly at: string | undefined;
}

type Printed = NonNullable<NonNullable<Job["parsed"]["file"]["record"]>["printed"]>;

/** The print that the record tells of and what it says of the next, or what of it cannot be read. */
export function readPrint(job: Job): MeasuredPrint | InputError | undefined {
  const printed = job.parsed.file.record?.printed;
  try {
    return printed && measuredPrint(printed);
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
}

/** @throws InputError for a length or a code that cannot be read */
export function measuredPrint(printed: Printed): MeasuredPrint {
  const lengthMm = (key: "along" | "across" | "diagonal1" | "diagonal2") =>
    parseQuantity(printed[key], { path: `record.printed.${key}`, kind: "length", bareUnit: "mm" }).value;
  const measured = {
    alongMm: lengthMm("along"),
    acrossMm: lengthMm("across"),
    diagonal1Mm: lengthMm("diagonal1"),
    diagonal2Mm: lengthMm("diagonal2"),
  };
  const next = nextPrint(measured, printed.code, printed.paper ?? "A4", "record.printed.code");
  return { ...next, sheet: sheetOf(printed), measured, code: printed.code, at: printed.at };
}

/** "the print is 97.1 % across and 97.0 % along: print again with the correction", or why it is refused. */
export function printInWords({ check, measured, nominal }: MeasuredPrint): Phrase {
  if ("accept" in check) return say`the print is true`;
  if ("refuse" in check) return say`${check.refuse}`;
  const [across, along] = [measured.acrossMm / nominal.acrossMm, measured.alongMm / nominal.alongMm];
  return say`the print is ${figure(across * 100, "%", 1)} across and ${figure(along * 100, "%", 1)} along: print again with the correction`;
}

/** The readings that hold, as gates see them. */
export function gateReadings(job: Job): TakenReading[] {
  return job.resolved.valid.map(asGateReading);
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
