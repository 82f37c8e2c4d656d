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
import {
  lookUp,
  type Placement,
  type PlaceTrial,
  placement,
  questionsAbout,
  type ScaleFrame,
  scaleFrame,
  tryPlaceOn,
} from "./questions/index.ts";
import {
  drawingsOf,
  type MarkingOut,
  markingOutOf,
  type PaperSet,
  papersOf,
  planPlaces,
  type SheetContext,
  type SheetOptions,
} from "./sheets/index.ts";
import type { Verdict } from "./verdict/index.ts";

export { InputError } from "./errors.ts";
export { kindOfSubject } from "./job/index.ts";

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
 * @param at the present as ISO time, for what takes its time (glue); the core has no clock: without it the latest act is now
 * @throws InputError naming the path of the first value that is wrong
 */
export function loadJob(data: unknown, at?: string): Job {
  const parsed = parseJob(data);
  const resolved = resolveActual(parsed.file, at === undefined ? {} : { at });
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

function sheetContext(job: Job, verdicts: readonly Verdict[], options: SheetOptions): SheetContext {
  const { placed } = placesOf(job);
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

interface Places {
  readonly placed: Placement;
  readonly frame: ScaleFrame;
}

/** Found once a job, which never changes: a plate that is dragged asks for them at every move. */
const places = new WeakMap<Job, Places>();

function placesOf(job: Job): Places {
  const known = places.get(job);
  if (known) return known;
  const found = lookUp(job.instrument, (asking) => ({ placed: placement(asking), frame: scaleFrame(asking) }));
  places.set(job, found);
  return found;
}

/** The whole instrument as it lies on the bench, true to scale. */
export function markingOut(job: Job, verdicts: readonly Verdict[]): MarkingOut {
  const { placed, frame } = placesOf(job);
  return markingOutOf({
    instrument: job.instrument,
    verdicts,
    frame,
    placement: placed.known ? placed : undefined,
    writtenAs: (path) => writtenAs(job, path),
  });
}

/**
 * What a plate would come to if its front edge stood at `placeMm` (u) and its middle at `sideMm`.
 *
 * @returns undefined if there is no whole plate to move, or not enough is known to judge it
 */
export function tryPlace(job: Job, at: { readonly placeMm: number; readonly sideMm?: number }): PlaceTrial | undefined {
  const { placed } = placesOf(job);
  return placed.known ? tryPlaceOn(job.instrument, placed, at) : undefined;
}

/** Places along the body may be written as u or as x: a reading has to be of the one that the file uses. */
function writtenAs({ parsed: { file } }: Job, path: string): string {
  if (!path.endsWith(".u")) return path;
  const byX = `${path.slice(0, -2)}.x`;
  const written = at(path === "fit.bridge.u" ? file : file.instrument, byX.split("."));
  const read = (file.readings ?? []).some(({ of }) => of.replace(/^instrument\./, "") === byX);
  return written !== undefined || read ? byX : path;
}

function at(data: unknown, keys: readonly string[]): unknown {
  let value = data;
  for (const key of keys)
    value = value === null || typeof value !== "object" ? undefined : (value as Record<string, unknown>)[key];
  return value;
}

export const jobSchema = jobJsonSchema;
export { createLedger } from "./ledger/index.ts";
