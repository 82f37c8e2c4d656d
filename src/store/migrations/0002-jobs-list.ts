/** The list of jobs, filled from the log that is there. */
import type { Kysely } from "kysely";
import type { LogEntry } from "../../core/log/index.ts";
import { byJob, type ListedJob, lineAfter } from "../job-lines.ts";
import type { Migration } from "./migration.ts";

interface TablesThen {
  entries: { place: number; json: string };
  jobs: { id: string; title: string; sought: string; title_from: string; changed: string; entries: number };
}

const AT_ONCE = 500;

export const jobsList: Migration = {
  number: 2,
  name: "jobs-list",
  async up(db, { text }) {
    await db.schema
      .createTable("jobs")
      .addColumn("id", text, (column) => column.primaryKey())
      .addColumn("title", text, (column) => column.notNull())
      .addColumn("sought", text, (column) => column.notNull())
      .addColumn("title_from", text, (column) => column.notNull())
      .addColumn("changed", text, (column) => column.notNull())
      .addColumn("entries", "integer", (column) => column.notNull())
      .execute();
    // With the title in it, a search reads the index alone.
    await db.schema.createIndex("jobs_by_change").on("jobs").columns(["changed", "id", "sought"]).execute();
    await fill(db as Kysely<TablesThen>);
  },
};

async function fill(db: Kysely<TablesThen>): Promise<void> {
  const lines = new Map<string, ListedJob>();
  for (let place = 0; ; ) {
    const rows = await db
      .selectFrom("entries")
      .select(["place", "json"])
      .where("place", ">", place)
      .orderBy("place")
      .limit(AT_ONCE)
      .execute();
    const entries = rows.map(({ json }): LogEntry => JSON.parse(json));
    for (const [job, added] of byJob(entries)) lines.set(job, lineAfter(job, lines.get(job), added));
    const last = rows.at(-1);
    if (!last) break;
    place = last.place;
  }
  const rows = [...lines.values()].map(({ titleFrom, ...line }) => ({ ...line, title_from: titleFrom }));
  for (let start = 0; start < rows.length; start += AT_ONCE)
    await db
      .insertInto("jobs")
      .values(rows.slice(start, start + AT_ONCE))
      .execute();
}
