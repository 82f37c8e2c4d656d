/**
 * The instrument as a fold of operations: as found, then each operation in the order of the log.
 *
 * The planned instrument is the fold of planned operations, the actual one the fold of those done, as they came out:
 * one type, so that they can be compared. The log is append-only: an operation entered by mistake is undone by a later
 * entry that names it, unless a later operation stands on what it made.
 * Left out: doubt of an operation's figures (readings of the state carry it), and everything that is not a dimension.
 * Rules and their ids: docs/spec/states.md.
 */
import { InputError } from "../errors.ts";
import { applyWork } from "./acts.ts";
import { minutesOf } from "./clock-time.ts";
import type { Instrument } from "./instrument.ts";
import type { LogEntry, Operation } from "./operation.ts";
import { createOverlay, type VoidReading } from "./overlay.ts";
import type { TakenReading } from "./readings.ts";
import { type Leans, liveOperations } from "./undo.ts";
import { covers, voidsOf } from "./voids.ts";

/** Glued joints carry no load before this. A glue maker's gluing guide (published): no stress on the joint for 24 h. */
export const GLUE_CURE_MINUTES = 24 * 60;

export interface Voided {
  /** A path, or a pattern with `*` for one step; covers what lies below it. */
  readonly subject: string;
  /** Operation that made it void. */
  readonly by: string;
  readonly why: string;
}

export interface Folded {
  readonly instrument: Instrument;
  /** In the order of the operations. A reading is void if it was taken before the operation: see `voidOf`. */
  readonly voided: readonly Voided[];
  /** Operations that hold, in the order of the log. */
  readonly applied: readonly string[];
}

export interface FoldOptions {
  /** The present, as ISO time, for the curing of glue. Without it: the latest time in the log. */
  readonly at?: string;
  readonly glueCureMinutes?: number;
}

/**
 * The instrument after the operations of a log.
 *
 * @throws InputError naming the operation, for an act that cannot have happened to this instrument, an id used twice,
 *   or an undo of something that a later operation stands on
 */
export function foldInstrument(asFound: Instrument, log: readonly LogEntry[], options: FoldOptions = {}): Folded {
  const { instrument, voided, applied } = foldReadings(asFound, log, [], options);
  return { instrument, voided, applied };
}

export interface FoldedReadings extends Folded {
  /** Readings that hold, in the order given. */
  readonly valid: readonly TakenReading[];
  readonly voidReadings: readonly VoidReading[];
}

/**
 * The same with what was read: a reading of what an operation left stands before the next operation starts.
 *
 * @throws InputError too for a reading after an operation that does not hold
 */
export function foldReadings(
  asFound: Instrument,
  log: readonly LogEntry[],
  readings: readonly TakenReading[],
  options: FoldOptions = {},
): FoldedReadings {
  requireDistinctIds(log);
  const live = liveOperations(log, (some) => run(asFound, some, readings, options).leans);
  requireDone(readings, live);
  const { instrument, voided, applied, voidReadings } = run(asFound, live, readings, options);
  const gone = new Set(voidReadings.map(({ reading }) => reading));
  return { instrument, voided, applied, voidReadings, valid: readings.filter(({ id }) => !gone.has(id)) };
}

function requireDone(readings: readonly TakenReading[], live: readonly Operation[]): void {
  const done = new Set(live.map(({ id }) => id));
  for (const { id, after } of readings) {
    if (after === undefined || done.has(after)) continue;
    throw new InputError(
      `readings (${id}).after`,
      `names the operation "${after}", which was not done`,
      "Name an operation of this job, or leave it out for an as-found reading",
    );
  }
}

/**
 * Why a reading no longer holds, or undefined if it does.
 *
 * @param reading its subject, and the operation after which it was taken (undefined: as found)
 */
export function voidOf(
  reading: { readonly subject: string; readonly after?: string | undefined },
  folded: Pick<Folded, "voided" | "applied">,
): Voided | undefined {
  const { subject, after } = reading;
  const taken = after === undefined ? -1 : folded.applied.indexOf(after);
  if (after !== undefined && taken < 0)
    return { subject, by: after, why: `it was read after "${after}", which was undone` };
  return folded.voided.find((rule) => folded.applied.indexOf(rule.by) > taken && covers(rule.subject, subject));
}

interface Run extends Folded {
  readonly voidReadings: readonly VoidReading[];
  readonly leans: Leans;
}

function run(
  asFound: Instrument,
  live: readonly Operation[],
  readings: readonly TakenReading[],
  options: FoldOptions,
): Run {
  const makers = new Map<string, string>();
  const leans = new Map<string, Map<string, string>>();
  const voided: Voided[] = [];
  const overlay = createOverlay(readings);
  const isCured = curing(live, options);
  let instrument = asFound;
  for (const [index, operation] of live.entries()) {
    const { id, work } = operation;
    const own = new Map<string, string>();
    const leanOn = (thing: string): void => {
      const maker = makers.get(thing);
      if (maker !== undefined && maker !== id) own.set(maker, thing);
    };
    instrument = applyWork(overlay.before(instrument, operation), work, {
      id,
      done: operation.doneAt !== undefined,
      cured: isCured(index),
      leanOn,
      make(thing) {
        leanOn(thing);
        makers.set(thing, id);
      },
      rename(thing, as) {
        const maker = makers.get(thing);
        if (maker !== undefined) makers.set(as, maker);
      },
    });
    instrument = { ...overlay.after(instrument, operation), state: id };
    leans.set(id, own);
    for (const rule of voidsOf(work)) voided.push({ subject: rule.subject, by: id, why: rule.why });
  }
  return {
    instrument: inOrder(instrument, asFound),
    voided,
    applied: live.map(({ id }) => id),
    voidReadings: overlay.voided(),
    leans,
  };
}

/** A planned plug counts as cured, since the plan waits for it; a plug that was done has to have had its time. */
function curing(live: readonly Operation[], options: FoldOptions): (index: number) => boolean {
  const need = options.glueCureMinutes ?? GLUE_CURE_MINUTES;
  const times = live.map(({ id, doneAt }) =>
    doneAt === undefined ? undefined : minutesOf(doneAt, `operations.${id}.doneAt`),
  );
  const lastPlanned = times.lastIndexOf(undefined);
  const latest = times.reduce<number>((most, time) => Math.max(most, time ?? most), Number.NEGATIVE_INFINITY);
  const now = options.at === undefined ? undefined : minutesOf(options.at, "at");
  return (index) => {
    const glued = times[index];
    if (glued === undefined) return true;
    if (now !== undefined) return now - glued >= need;
    return lastPlanned > index || latest - glued >= need;
  };
}

function requireDistinctIds(log: readonly LogEntry[]): void {
  const seen = new Map<string, number>();
  for (const [index, { id }] of log.entries()) {
    const before = seen.get(id);
    if (before !== undefined)
      throw new InputError(
        `operations[${index}].id`,
        `"${id}" is the id of operations[${before}] too`,
        "Give each entry an id of its own",
      );
    seen.set(id, index);
  }
}

/** Holes as found first, then the others by id, so that independent acts give the same instrument in any order. */
function inOrder(instrument: Instrument, asFound: Instrument): Instrument {
  const place = new Map(asFound.body.holes.map((hole, index) => [hole.id, index]));
  const rank = (id: string): number => place.get(id) ?? place.size;
  const holes = [...instrument.body.holes].sort((a, b) => rank(a.id) - rank(b.id) || (a.id < b.id ? -1 : 1));
  const sorted: Instrument = { ...instrument, body: { ...instrument.body, holes } };
  if (!instrument.treated) return sorted;
  return { ...sorted, treated: [...instrument.treated].sort((a, b) => (a.where + a.how < b.where + b.how ? -1 : 1)) };
}
