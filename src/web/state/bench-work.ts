/** What a person does at the bench, as changes of the job: a step ticked off, taken back, overridden, gone otherwise. */
import { covers, fileWorkOf, voidsOf } from "../../core/job/index.ts";
import { type Change, type Fold, itemAtEnd, itemKey, type Json, mapKey, pathOf } from "../../core/log/index.ts";
import type { Step } from "../../core/plan/index.ts";
import type { Work } from "../../core/verdict/index.ts";
import { addReading, randomLetters, readingText, versionOf } from "./readings.ts";

const donePath = (step: string) => pathOf(["record", "done", mapKey(step)]);

/** Marked as done, and what it did to the instrument as an operation; `as` where it did not go as planned. */
export function tickOff(fold: Fold, step: Step, at: string, as: Work | undefined = step.work, note = ""): Change[] {
  const { data } = fold.read();
  const work = as && fileWorkOf(as);
  const mark: Change[] = [...versionOf(data, "record"), { path: donePath(step.id), value: at }];
  if (!work) return mark;
  const id = freeId(data, step.id);
  const operation = {
    id,
    work: JSON.parse(JSON.stringify(work)) as Json,
    doneAt: at,
    ...(note === "" ? {} : { note }),
  };
  return [
    ...mark,
    ...versionOf(data, "operations"),
    ...itemAtEnd(fold, ["operations"], operation),
    ...readOfWhatItLeft(fold, step, as, id),
  ];
}

/**
 * What the step asked for while its work was done, and what that work makes void, can only have been read of what it
 * left: it becomes a reading after it. A reading taken before the step was begun stays one of what was there before.
 */
function readOfWhatItLeft(fold: Fold, step: Step, work: Work, operation: string): Change[] {
  const { data } = fold.read();
  const asked = new Set(step.readings.map(({ subject }) => subject));
  const gone = voidsOf(work);
  const before = lastOperation(fold);
  const since = lastMark(data);
  return keptReadings(data).flatMap(({ id, of, after, at }): Change[] => {
    if (!asked.has(of) || after !== before || at === undefined || at < since) return [];
    if (!gone.some(({ subject }) => covers(subject, of))) return [];
    return [{ path: pathOf(["readings", itemKey(id), "after"]), value: operation }];
  });
}

/** When the last step was ticked off. */
function lastMark(data: Readonly<Record<string, Json>>): string {
  const { done = {} } = (data.record ?? {}) as { readonly done?: Readonly<Record<string, string>> };
  return Object.values(done).sort().at(-1) ?? "";
}

interface KeptReading {
  readonly id: string;
  readonly of: string;
  readonly after?: string;
  readonly at?: string;
}

function keptReadings(data: Readonly<Record<string, Json>>): readonly KeptReading[] {
  return Array.isArray(data.readings) ? (data.readings as unknown as readonly KeptReading[]) : [];
}

/** Only the mark: for steps whose work the instrument's fold does not take. */
export function markOnly(fold: Fold, step: Step, at: string): Change[] {
  return [...versionOf(fold.read().data, "record"), { path: donePath(step.id), value: at }];
}

interface KeptOperation {
  readonly id: string;
  readonly undoes?: string;
  readonly doneAt?: string;
  readonly work?: unknown;
}

function operationsOf(data: Readonly<Record<string, Json>>): readonly KeptOperation[] {
  return Array.isArray(data.operations) ? (data.operations as unknown as readonly KeptOperation[]) : [];
}

/** An operation undone keeps its id for good: done anew it takes the next. */
function freeId(data: Readonly<Record<string, Json>>, wanted: string): string {
  const taken = new Set(operationsOf(data).map(({ id }) => id));
  let id = wanted;
  for (let number = 2; taken.has(id); number += 1) id = `${wanted}-${number}`;
  return id;
}

/** Taken back: the mark goes, and the operation is undone by an entry of its own. */
export function takeStepBack(fold: Fold, step: string, at: string): Change[] {
  const { data } = fold.read();
  const operations = operationsOf(data);
  const undone = new Set(operations.flatMap(({ undoes }) => undoes ?? []));
  const last = operations.findLast(
    ({ id, work }) => work !== undefined && !undone.has(id) && (id === step || id.startsWith(`${step}-`)),
  );
  const back: Change[] = [{ path: donePath(step) }];
  if (!last) return back;
  // What was read while it was done is now of what stands without it.
  const earlier = operations.slice(0, operations.indexOf(last));
  const before = earlier.findLast(({ id, work }) => work !== undefined && !undone.has(id))?.id;
  const readings = keptReadings(data).flatMap(({ id, after, at: read }): Change[] => {
    if (after !== last.id || read === undefined || read > (last.doneAt ?? "")) return [];
    const path = pathOf(["readings", itemKey(id), "after"]);
    return [before === undefined ? { path } : { path, value: before }];
  });
  return [
    ...back,
    ...readings,
    ...itemAtEnd(fold, ["operations"], { id: `undo-${last.id}-${randomLetters(3)}`, undoes: last.id, at }),
  ];
}

/** A reason of at least ten letters is the gate's own rule. */
export function override(fold: Fold, step: string, reason: string, at: string): Change[] {
  const { data } = fold.read();
  const record = (data.record ?? {}) as { readonly overrides?: readonly Json[] };
  const others = (record.overrides ?? []).filter((one) => (one as { readonly step?: string }).step !== step);
  const value = [...others, { step, reason, at }];
  return [...versionOf(data, "record"), { path: "/record/overrides", value }];
}

export interface PrintedRules {
  readonly along: string;
  readonly across: string;
  readonly diagonal1: string;
  readonly diagonal2: string;
  /** Which sheet it was: printed below its boxes. */
  readonly code: string;
}

/** What was typed as the record keeps it: a bare figure is in the millimetres that the sheet's boxes say. */
export function printedRecord(sheet: string, { code, ...rules }: PrintedRules) {
  const inMm = (text: string) => readingText(text, "", "mm");
  return {
    sheet,
    along: inMm(rules.along),
    across: inMm(rules.across),
    diagonal1: inMm(rules.diagonal1),
    diagonal2: inMm(rules.diagonal2),
    ...(code.trim() === "" ? {} : { code: code.trim() }),
  };
}

/** @param readAsWell where a step asks for the two rules as readings */
export function printed(fold: Fold, sheet: string, rules: PrintedRules, at: string, readAsWell: boolean): Change[] {
  const lengths = (["along", "across"] as const).flatMap((key) =>
    addReading(fold, { of: `print.${sheet}.${key}`, value: readingText(rules[key], "steel rule", "mm"), at }),
  );
  const value = { ...printedRecord(sheet, rules), at };
  return [...versionOf(fold.read().data, "record"), { path: "/record/printed", value }, ...(readAsWell ? lengths : [])];
}

/** The operation after which a reading is taken now: readings after it hold until the next makes them void. */
export function lastOperation(fold: Fold): string | undefined {
  const operations = operationsOf(fold.read().data);
  const undone = new Set(operations.flatMap(({ undoes }) => undoes ?? []));
  return operations.findLast(({ id, work }) => work !== undefined && !undone.has(id))?.id;
}
