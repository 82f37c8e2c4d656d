/**
 * Takes values out of a job file, one subject at a time: what is written beside the dimension, else the best reading,
 * else a default that says it is assumed. Keeps account of the subjects there are, so that a reading of a subject that
 * does not exist can be refused with its path.
 */
import { InputError } from "../errors.ts";
import {
  derive,
  type Kind,
  type Known,
  type Origin,
  parseQuantity,
  type Quantity,
  unknown,
} from "../quantity/index.ts";
import { bestValue, type Conflict, type TakenReading } from "./readings.ts";
import type { Amount, FileReading } from "./schema.ts";

export interface TakeOptions {
  readonly kind?: Kind;
  /** Origin when no tool or origin is written. */
  readonly origin?: Origin;
  /** Tool stated once for a group. */
  readonly tool?: string | undefined;
  readonly placing?: string | undefined;
  /** Used, as `assumed`, when nothing is written and nothing was read. */
  readonly assume?: { readonly value: number; readonly u: number; readonly why: string };
  /** Standard uncertainty of a value written without tool or origin, when that means assumed. */
  readonly assumedU?: number;
  /** Readings of the same thing that stand under another path. */
  readonly also?: readonly TakenReading[];
  /** A decision of the owner (a target, a limit): exact, whatever its origin. */
  readonly decided?: boolean;
}

export interface Taker {
  take(raw: Amount | undefined, path: string, options?: TakeOptions): Quantity;
  /** Readings of a subject that are valid, in the order taken. */
  readingsOf(path: string, kind?: Kind): readonly TakenReading[];
  /** As-found readings of a subject that was taken, with the one written beside the dimension. */
  asFound(path: string, kind?: Kind): readonly TakenReading[];
  /** Whether the subject is a value of the job so far. */
  knows(path: string): boolean;
  /** Kind of every value of the job so far, by its subject: what a reading of it is read as. */
  kinds(): ReadonlyMap<string, Kind>;
  /** As-found readings of every subject that has some, by path. */
  evidence(): Record<string, readonly Known[]>;
  /** The readings of `path` are also known as those of `as`, shifted by an exact amount. */
  alias(path: string, as: string, shiftBy: number): void;
  readonly conflicts: readonly Conflict[];
  /** Readings by id, once every subject has been taken. @throws InputError for a reading of no known subject */
  finish(): readonly TakenReading[];
}

/** "instrument.neck.relief" and "fit.setup.strings.1.cents" are known to readings as "neck.relief" and "strings.1.cents". */
export function subjectOf(path: string): string {
  return path.replace(/^instrument\./, "").replace(/^fit\.setup\./, "");
}

export function createTaker(fileReadings: readonly FileReading[], bareUnit?: "mm" | "inch"): Taker {
  const bySubject = new Map<string, { reading: FileReading; index: number }[]>();
  const seenIds = new Map<string, number>();
  fileReadings.forEach((reading, index) => {
    const before = seenIds.get(reading.id);
    if (before !== undefined)
      throw new InputError(
        `readings[${index}].id`,
        `"${reading.id}" is already the id of readings[${before}]`,
        "Give each reading an id of its own",
      );
    seenIds.set(reading.id, index);
    const subject = subjectOf(reading.of);
    bySubject.set(subject, [...(bySubject.get(subject) ?? []), { reading, index }]);
  });
  const taken = new Map<string, TakenReading[]>();
  const written = new Map<string, TakenReading>();
  const subjects = new Map<string, Kind>();
  const aliases: { path: string; as: string; shiftBy: number }[] = [];
  const conflicts: Conflict[] = [];

  function readingsOf(path: string, kind: Kind = "length"): readonly TakenReading[] {
    const subject = subjectOf(path);
    // A subject is read as what it was first taken as.
    if (!subjects.has(subject)) subjects.set(subject, kind);
    const before = taken.get(subject);
    if (before) return before;
    const list = (bySubject.get(subject) ?? []).map(({ reading, index }): TakenReading => {
      const want = {
        path: `readings[${index}].value`,
        kind,
        origin: "measured" as const,
        ...(bareUnit === undefined ? {} : { bareUnit }),
      };
      const parsed = parseQuantity(
        reading.value,
        reading.placing === undefined ? want : { ...want, placing: reading.placing },
      );
      const quantity: Known = {
        ...parsed,
        path: subject,
        origin: parsed.origin === "data sheet" ? "measured" : parsed.origin,
        doubt: parsed.doubt.map((term) => ({
          ...term,
          id: term.id.startsWith("placing:") ? term.id : `${subject}:${reading.id}`,
        })),
      };
      return {
        id: reading.id,
        subject,
        quantity,
        ...(reading.placing === undefined ? {} : { placing: reading.placing }),
        ...(reading.after === undefined ? {} : { after: reading.after }),
        ...(reading.at === undefined ? {} : { at: reading.at }),
      };
    });
    taken.set(subject, list);
    return list;
  }

  function take(raw: Amount | undefined, path: string, options: TakeOptions = {}): Quantity {
    const kind = options.kind ?? "length";
    const subject = subjectOf(path);
    const stated = raw === undefined ? fallback(subject, kind, options) : parseWritten(raw, path, kind, options);
    const asFound = readingsOf(path, kind).filter((reading) => reading.after === undefined);
    // A value written with its tool beside the dimension is short for an as-found reading.
    const beside: TakenReading[] =
      raw !== undefined && stated.known && stated.origin === "measured"
        ? [{ id: `${subject}, as written`, subject, quantity: stated }]
        : [];
    if (beside[0]) written.set(subject, beside[0]);
    const { quantity, conflict } = bestValue([...beside, ...asFound, ...(options.also ?? [])], stated);
    if (conflict && !conflicts.some((known) => known.subject === conflict.subject)) conflicts.push(conflict);
    return quantity;
  }

  function parseWritten(raw: Amount, path: string, kind: Kind, options: TakeOptions): Known {
    const parsed = parseQuantity(raw, {
      path,
      kind,
      ...(bareUnit === undefined ? {} : { bareUnit }),
      origin: options.origin ?? "data sheet",
      ...(options.tool === undefined ? {} : { tool: options.tool }),
      ...(options.placing === undefined ? {} : { placing: options.placing }),
      ...(options.assumedU === undefined ? {} : { assumedU: options.assumedU }),
    });
    const subject = subjectOf(path);
    if (options.decided && parsed.origin !== "measured") return { ...parsed, path: subject, doubt: [] };
    return { ...parsed, path: subject };
  }

  function asFound(path: string, kind: Kind = "length"): readonly TakenReading[] {
    const beside = written.get(subjectOf(path));
    const read = readingsOf(path, kind).filter((reading) => reading.after === undefined);
    return beside ? [beside, ...read] : read;
  }

  return {
    take,
    readingsOf,
    asFound,
    conflicts,
    knows: (path) => subjects.has(subjectOf(path)),
    kinds: () => subjects,
    alias(path, as, shiftBy) {
      const one = { path: subjectOf(path), as: subjectOf(as), shiftBy };
      if (!aliases.some((known) => known.path === one.path && known.as === one.as)) aliases.push(one);
    },
    evidence() {
      const out: Record<string, readonly Known[]> = {};
      for (const [subject, list] of taken) {
        const found = list.filter((reading) => reading.after === undefined).map((reading) => reading.quantity);
        if (found.length > 0) out[subject] = found;
      }
      for (const { path, as, shiftBy } of aliases) {
        const shifted = (out[path] ?? []).map((quantity) => ({
          ...quantity,
          value: quantity.value + shiftBy,
          path: as,
        }));
        if (shifted.length > 0) out[as] = [...shifted, ...(out[as] ?? [])];
      }
      return out;
    },
    finish() {
      for (const [subject, list] of bySubject) {
        if (subjects.has(subject)) continue;
        const free = freeKind(subject);
        if (free) {
          readingsOf(subject, free);
          continue;
        }
        const index = list[0]?.index ?? 0;
        throw new InputError(
          `readings[${index}].of`,
          `"${subject}" is not a value of this job`,
          `Write the path of a value${nearest(subject, subjects)}`,
        );
      }
      const shifts = new Map(aliases.map((alias) => [alias.path, alias]));
      return [...written.values(), ...[...taken.values()].flat()].map((reading) => {
        const alias = shifts.get(reading.subject);
        return alias
          ? {
              ...reading,
              subject: alias.as,
              quantity: { ...reading.quantity, path: alias.as, value: reading.quantity.value + alias.shiftBy },
            }
          : reading;
      });
    },
  };
}

/** Subjects of the record that no sum reads: what the traveller asks to be written down. */
const FREE_SUBJECTS: readonly { readonly matches: RegExp; readonly kind: Kind }[] = [
  { matches: /^ohms(\.covered)?\.all$/, kind: "count" },
  {
    matches: /^(ohms|tap|coils|bench\.proof)\.[^.]+\.ohms$|^ohms\.|^bench\.(groundWire|seams)/,
    kind: "resistance",
  },
  { matches: /^as(Found|Left)\..*\.cents$/, kind: "cents" },
  {
    matches: /^as(Found|Left)\..*\.(action|nutHeight|relief|height)$|^print\.[^.]+\.[^.]+$|^bench\.margin\./,
    kind: "length",
  },
  { matches: /^(asFound|asLeft|bench|tap|coils|print)\.|^parts\..+\.measured$/, kind: "count" },
];

/** Kind of a subject of the record that no sum reads. */
export function freeKind(subject: string): Kind | undefined {
  return FREE_SUBJECTS.find(({ matches }) => matches.test(subject))?.kind;
}

function fallback(subject: string, kind: Kind, options: TakeOptions): Quantity {
  const assume = options.assume;
  if (!assume) return unknown(subject, kind);
  return {
    known: true,
    path: subject,
    kind,
    value: assume.value,
    origin: "assumed",
    said: "",
    doubt: assume.u === 0 ? [] : [{ id: `${subject}:assumed`, u: assume.u, shape: "normal", what: assume.why }],
  };
}

/** The known subject that shares the most words with the one written. */
function nearest(subject: string, subjects: ReadonlyMap<string, Kind>): string {
  const words = new Set(subject.split(/[.#]/));
  let best = "";
  let most = 0;
  for (const candidate of subjects.keys()) {
    const shared = candidate.split(/[.#]/).filter((word) => words.has(word)).length;
    if (shared > most) {
      most = shared;
      best = candidate;
    }
  }
  return best === "" ? "" : `, e.g. ${best}`;
}

/** The same value seen from another origin: shifted by an exact amount, doubt kept. */
export function shifted(quantity: Quantity, by: number, path: string): Quantity {
  return quantity.known ? { ...quantity, value: quantity.value + by, path } : { ...quantity, path };
}

/** factor × quantity, doubt scaled with its terms shared. */
export function scaled(quantity: Quantity, factor: number, path: string): Quantity {
  if (!quantity.known) return { ...quantity, path };
  return {
    ...derive(path, quantity.kind, quantity.value * factor, [{ quantity, sensitivity: factor }]),
    origin: quantity.origin,
    ...(quantity.tool === undefined ? {} : { tool: quantity.tool }),
    said: quantity.said,
  };
}
