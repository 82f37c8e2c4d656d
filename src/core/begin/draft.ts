/** A job document under way: sections as they are filled, what was taken for granted, and how each entry was read. */
import { InputError } from "../errors.ts";
import { type JobFile, jobToData, parseJob, VERSIONS } from "../job/index.ts";
import { mm, type Phrase, say } from "../quantity/index.ts";
import { answerTo } from "./answers.ts";
import { plainMm, type Reading, readLengths } from "./reading.ts";
import type { Answers, Entry, GrownJob, Starter } from "./types.ts";

type FileReading = NonNullable<JobFile["readings"]>[number];

export interface Draft {
  /** What was typed for an entry; undefined: not known. */
  text(entry: string): string | undefined;
  /** One length, or undefined. */
  length(entry: string, range: Range): Reading | undefined;
  /** As many lengths as `counts` allows, or undefined. */
  lengths(
    entry: string,
    range: Range & { readonly counts: readonly number[]; readonly form: string },
  ): readonly Reading[] | undefined;
  tool(entry: string): string;
  /** How an entry was read. */
  read(entry: string, words: Phrase): void;
  /** What is taken for granted. */
  note(words: Phrase): void;
  /** A value nobody gave: goes into the file as assumed, with a limit, and into the notes. */
  assume(valueMm: number, limitMm: number, what: string): string;
  /** A measured value of the instrument. */
  reading(id: string, of: string, value: string, more?: Partial<FileReading>): void;
  finish(sections: Sections): GrownJob;
}

/** A starter with the way its answers become a job. */
export interface Grower extends Starter {
  grow(draft: Draft): GrownJob;
}

export interface Range {
  readonly what: string;
  readonly minMm: number;
  readonly maxMm: number;
}

/** The sections of a job file that a beginning fills; readings are the draft's own. */
export type Sections = Pick<JobFile, "instrument"> & Partial<Omit<JobFile, "fettle" | "readings">>;

export function createDraft(answers: Answers, entries: readonly Entry[]): Draft {
  const notes: Phrase[] = [];
  const reads: Record<string, Phrase> = {};
  const readings: FileReading[] = [];
  const entryOf = (id: string) => entries.find((one) => one.id === id);

  const draft: Draft = {
    text: (entry) => (entryOf(entry) === undefined ? undefined : answerTo(answers, entry)),
    tool: (entry) => entryOf(entry)?.tool ?? "steel rule",
    length(entry, range) {
      return draft.lengths(entry, { ...range, counts: [1], form: "one figure" })?.[0];
    },
    lengths(entry, { counts, form, ...range }) {
      const text = draft.text(entry);
      if (text === undefined) return undefined;
      const list = readLengths(text, { entry, tool: draft.tool(entry), ...range });
      if (counts.includes(list.length)) return list;
      throw new InputError(
        entry,
        `gives ${list.length} ${list.length === 1 ? "figure" : "figures"}`,
        `Give ${form}${form.includes("e.g.") ? "" : `, e.g. ${entryOf(entry)?.example}`}`,
      );
    },
    read(entry, words) {
      reads[entry] = words;
    },
    note: (words) => notes.push(words),
    assume(valueMm, limitMm, what) {
      notes.push(
        say`${what}: taken as ${mm(valueMm, decimals(valueMm))}, give or take ${mm(limitMm, decimals(limitMm))} (common practice).`,
      );
      return `${plainMm(valueMm)} ±${plainMm(limitMm)} mm (assumed)`;
    },
    reading: (id, of, value, more = {}) => readings.push({ id, of, value, ...more }),
    finish(sections) {
      const file: Record<string, unknown> = {
        ...sections,
        job: { ...sections.job, units: "mm" },
        ...(readings.length > 0 ? { readings } : {}),
      };
      const tools = toolsTaken(
        entries.filter(({ id }) => reads[id] !== undefined && !NAMES_A_TOOL.test(draft.text(id) ?? "")),
      );
      if (tools !== "")
        notes.push(say`Figures without a tool behind them count as read with the one asked for: ${tools}.`);
      const fettle = Object.fromEntries(Object.entries(VERSIONS).filter(([name]) => file[name] !== undefined));
      return { data: jobToData(parseJob(withoutGaps({ fettle, ...file }))), notes, reads };
    },
  };
  return draft;
}

const NAMES_A_TOOL = /[(]|\b(?:with|by|using)\b|^none$|^scale\b/i;

/** Tools that stand in for what was not said. */
function toolsTaken(entries: readonly Entry[]): string {
  const tools = entries.filter(({ kind }) => kind !== "words").map(({ tool }) => tool);
  return [...new Set(tools)].join(", ");
}

/** The same plain data without keys that hold nothing. */
function withoutGaps(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutGaps);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).flatMap(([key, item]) => (item === undefined ? [] : [[key, withoutGaps(item)]])),
  );
}

function decimals(value: number): number {
  return Number.isInteger(value) ? 0 : 1;
}
