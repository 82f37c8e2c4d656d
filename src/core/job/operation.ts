/**
 * One step of work done or to be done. Planned and actual operations are the same type: the planned instrument is the
 * fold of the planned ones, the actual instrument the fold of those done, as they were done.
 */
import type { Work } from "../verdict/index.ts";

export interface Operation {
  /** Stable id, unique in the job. */
  readonly id: string;
  /** Figures as planned, or as done ("the bit wandered 0.8" is a drill place 0.8 off). */
  readonly work: Work;
  /** ISO time, once done. */
  readonly doneAt?: string;
  readonly note?: string;
}

/** The log is append-only: an operation entered by mistake is undone by a later entry that names it. */
export interface Undo {
  readonly id: string;
  readonly undoes: string;
  readonly at?: string;
}

export type LogEntry = Operation | Undo;
