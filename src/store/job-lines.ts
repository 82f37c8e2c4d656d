/** The list of jobs, kept up to date entry by entry, so that showing it reads no log. The same in every keeper. */
import type { LogEntry } from "../core/log/index.ts";
import type { JobLine } from "./keeper.ts";

const TITLE = "/job/title";

/** A list shows no more of a title, and finds no more of it. */
const MOST_TITLE = 200;

/** A line as it is kept. */
export interface ListedJob extends JobLine {
  /** The title as it is searched for. */
  readonly sought: string;
  /** Time and id of the entry that gave the title; empty while none did. Sorts as entries do. */
  readonly titleFrom: string;
}

/** The line after some more entries of the job, in whatever order they come. */
export function lineAfter(job: string, known: ListedJob | undefined, added: readonly LogEntry[]): ListedJob {
  const line = known ?? { id: job, title: "", sought: "", titleFrom: "", changed: "", entries: 0 };
  let { title, titleFrom, changed } = line;
  for (const { id, at, path, value } of added) {
    if (at > changed) changed = at;
    if (path !== TITLE || `${at} ${id}` <= titleFrom) continue;
    title = typeof value === "string" ? shown(value) : "";
    titleFrom = `${at} ${id}`;
  }
  return { id: job, title, sought: soughtAs(title), titleFrom, changed, entries: line.entries + added.length };
}

export function byJob(entries: Iterable<LogEntry>): Map<string, LogEntry[]> {
  const jobs = new Map<string, LogEntry[]>();
  for (const entry of entries) {
    const list = jobs.get(entry.job);
    if (list) list.push(entry);
    else jobs.set(entry.job, [entry]);
  }
  return jobs;
}

/** Letters as they are compared: in any case, and an accent the same however it was typed. */
export function soughtAs(text: string): string {
  return shown(text).normalize("NFC").toLowerCase();
}

export function plainLine({ id, title, changed, entries }: JobLine): JobLine {
  return { id, title, changed, entries };
}

/** Last changed first; of two changed together, the same first everywhere. */
export function byChange(a: JobLine, b: JobLine): number {
  if (a.changed !== b.changed) return a.changed < b.changed ? 1 : -1;
  return a.id < b.id ? 1 : a.id > b.id ? -1 : 0;
}

/** On one line, of letters that every database takes: no control letters, no half of a pair. */
function shown(text: string): string {
  const letters = [...text.slice(0, 2 * MOST_TITLE)].slice(0, MOST_TITLE).join("");
  return letters.replace(/\p{Cc}/gu, " ").replace(/\p{Surrogate}/gu, "\ufffd");
}
