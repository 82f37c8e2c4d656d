/**
 * The log of a job: entries that are only ever added, each a new value at one path of the job document. The document is
 * what they fold to, and two logs are merged by putting their entries together.
 */

export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

export interface LogEntry {
  /** Device and its running number: no two entries share one. */
  readonly id: string;
  readonly job: string;
  readonly device: string;
  /** ISO time, never before an entry that the device had seen. */
  readonly at: string;
  /** What a person did at one stroke; it is undone as a whole. */
  readonly act: string;
  /** Keys from the root, `/` before each (RFC 6901); an item of a list is named by its id, `#id`. See paths.ts. */
  readonly path: string;
  /** Left out: the path, and everything below it, is taken away. */
  readonly value?: Json;
  /** Entries that it knowingly takes the place of. */
  readonly over: readonly string[];
  /** In a person's words, on the first entry of an act. */
  readonly words?: string;
  /** The act that this one takes back. */
  readonly undoes?: string;
}

/** Who writes, and when: one for every act. */
export interface Stamp {
  readonly job: string;
  readonly device: string;
  /** First free running number of the device. */
  readonly from: number;
  /** ISO time, at or after that of every entry seen. */
  readonly at: string;
}

/** Values that nobody chose between: written on two devices that did not know of each other. */
export interface Dispute {
  readonly path: string;
  /** The value in use first. */
  readonly values: readonly { readonly entry: LogEntry; readonly value: Json | undefined }[];
}
