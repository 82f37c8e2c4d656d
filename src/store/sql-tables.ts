/** The tables as the newest program knows them, and the few things in which the two databases differ. */
import type { ColumnType, Generated, RawBuilder } from "kysely";

export interface Tables {
  /** The log. Rows are only ever added. */
  entries: {
    /** Place in the order in which they came. */
    place: Generated<number>;
    id: string;
    job: string;
    /** The whole entry. */
    json: string;
  };
  /** One line per job, as lineAfter gives it. */
  jobs: {
    id: string;
    title: string;
    sought: string;
    title_from: string;
    changed: string;
    entries: number;
  };
  photographs: {
    hash: string;
    type: string;
    /** Read back as either, depending on the database. */
    bytes: ColumnType<Uint8Array | ArrayBuffer, Uint8Array, never>;
  };
  notes: { key: string; value: string };
  migrations: { number: number; name: string };
}

/** What is written differently for SQLite and Postgres. */
export interface SqlKind {
  /** Type of a running number that the database gives. */
  readonly running: RawBuilder<unknown>;
  /** Type of texts that sort by their letters' numbers, whatever language the machine speaks. */
  readonly text: RawBuilder<unknown>;
  readonly bytes: RawBuilder<unknown>;
  /** Run before anything else of an appending: one at a time, so that who reads on from a place skips nothing. */
  readonly turn?: RawBuilder<unknown>;
  /** An error of the database in words that help, where there are any. */
  translate(error: unknown): unknown;
}
