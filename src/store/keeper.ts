/**
 * What keeps a log: in the browser, in SQLite on the bench computer, in Postgres. All keep the same promises
 * (docs/spec/log.md, LO10 and on). Entries are taken as they come: who receives them from elsewhere checks them first.
 */
import type { LogEntry } from "../core/log/index.ts";

export interface Keeper {
  /** Settles only when all of the entries are on the disk. An entry that is there already is passed over. */
  append(entries: readonly LogEntry[]): Promise<{ readonly added: number }>;
  /** Every entry of one job, in the order in which they came here. */
  entriesOf(job: string): Promise<LogEntry[]>;
  /** What came here after a place, first come first; `place` is where to go on. */
  since(
    place: number,
    limit: number,
  ): Promise<{ readonly entries: LogEntry[]; readonly place: number; readonly more: boolean }>;
  /** The jobs last changed first, those changed together by id from the end. */
  jobs(wanted: JobsWanted): Promise<{ readonly total: number; readonly jobs: readonly JobLine[] }>;
  /**
   * Settles only when it is on the disk. The same photograph twice is kept once.
   * @throws InputError unless hash, type and bytes agree
   */
  keepPhotograph(photograph: Photograph): Promise<void>;
  /** @throws InputError if that is no hash at all */
  photograph(hash: string): Promise<Photograph | undefined>;
  /** Hashes of all, sorted. */
  photographs(): Promise<string[]>;
  /** Small things of this keeper alone, never exchanged: the device's name, how far an exchange has come. */
  note(key: string): Promise<string | undefined>;
  setNote(key: string, value: string): Promise<void>;
  /** Waits for nothing: what has settled is kept, what has not may be. */
  close(): Promise<void>;
}

export interface JobsWanted {
  /** Letters of the title, in any case. */
  readonly search?: string;
  readonly offset?: number;
  readonly limit: number;
}

export interface JobLine {
  readonly id: string;
  readonly title: string;
  /** ISO time of the latest entry. */
  readonly changed: string;
  readonly entries: number;
}

export interface Photograph {
  /** SHA-256 of the bytes, in hexadecimal: its name. */
  readonly hash: string;
  readonly type: "image/jpeg" | "image/png" | "image/webp";
  readonly bytes: Uint8Array;
}

/** Larger ones are refused. */
export const MOST_PHOTOGRAPH_BYTES = 12_000_000;
