/** Brings a database from whatever program wrote it to this one. */
import type { Kysely } from "kysely";
import { InputError } from "../../core/errors.ts";
import type { SqlKind, Tables } from "../sql-tables.ts";
import { log } from "./0001-log.ts";
import { jobsList } from "./0002-jobs-list.ts";
import { photographsAndNotes } from "./0003-photographs-and-notes.ts";
import type { Migration } from "./migration.ts";

/** In the order of their numbers; a new one is added at the end. */
const MIGRATIONS: readonly Migration[] = [log, jobsList, photographsAndNotes];

/**
 * @param where name of the database, for messages
 * @param until the last migration to run; left out: all
 * @throws InputError if a newer program has been here
 */
export async function migrate(
  db: Kysely<Tables>,
  kind: SqlKind,
  where: string,
  until: number = MIGRATIONS.length,
): Promise<void> {
  const done = await numbersDone(db);
  const newest = Math.max(0, ...done);
  if (newest > MIGRATIONS.length) {
    const problem = `was written by a newer program (step ${newest}; this one knows ${MIGRATIONS.length})`;
    throw new InputError(where, problem, "Update this program, or keep the log in another place");
  }
  for (const migration of MIGRATIONS) {
    const { number, name } = migration;
    if (done.has(number) || number > until) continue;
    await db.transaction().execute(async (step) => {
      // Its record first: of two programs that start together the second waits here, and then finds it done.
      const mine = await step
        .insertInto("migrations")
        .values({ number, name })
        .onConflict((conflict) => conflict.doNothing())
        .returning("number")
        .execute();
      if (mine.length > 0) await migration.up(step as unknown as Kysely<unknown>, kind);
    });
  }
}

async function numbersDone(db: Kysely<Tables>): Promise<Set<number>> {
  await db.schema
    .createTable("migrations")
    .ifNotExists()
    .addColumn("number", "integer", (column) => column.primaryKey())
    .addColumn("name", "text", (column) => column.notNull())
    .execute();
  const rows = await db.selectFrom("migrations").select("number").execute();
  return new Set(rows.map(({ number }) => number));
}
