/** A keeper over SQL: the same questions to SQLite and to Postgres. */
import { type Kysely, sql, type Transaction } from "kysely";
import type { LogEntry } from "../core/log/index.ts";
import { byJob, type ListedJob, lineAfter, plainLine, soughtAs } from "./job-lines.ts";
import type { JobsWanted, Keeper, Photograph } from "./keeper.ts";
import { migrate } from "./migrations/index.ts";
import { checkedHash, checkedPhotograph } from "./photographs.ts";
import type { SqlKind, Tables } from "./sql-tables.ts";

/** Rows of one statement: a database takes only so many values at once. */
const AT_ONCE = 500;

/** @param where name of the database, for messages */
export async function createSqlKeeper(db: Kysely<Tables>, kind: SqlKind, where: string): Promise<Keeper> {
  const said = async <T>(work: Promise<T>): Promise<T> => {
    try {
      return await work;
    } catch (error) {
      throw kind.translate(error);
    }
  };
  await said(migrate(db, kind, where));

  return {
    append: (entries) => said(append(db, kind, entries)),
    entriesOf: (job) => said(entriesOf(db, job)),
    since: (place, limit) => said(since(db, place, limit)),
    jobs: (wanted) => said(jobs(db, wanted)),
    // In a transaction, single statement or not: only where one begins is another program waited for.
    keepPhotograph: (photograph) => said(db.transaction().execute((tx) => keepPhotograph(tx, photograph))),
    photograph: (hash) => said(photograph(db, hash)),
    photographs: () => said(photographs(db)),
    note: (key) => said(note(db, key)),
    setNote: (key, value) => said(db.transaction().execute((tx) => setNote(tx, key, value))),
    close: () => said(db.destroy()),
  };
}

async function append(db: Kysely<Tables>, kind: SqlKind, entries: readonly LogEntry[]): Promise<{ added: number }> {
  if (entries.length === 0) return { added: 0 };
  return db.transaction().execute(async (tx) => {
    await kind.turn?.execute(tx);
    const fresh: LogEntry[] = [];
    for (let start = 0; start < entries.length; start += AT_ONCE)
      fresh.push(...(await addEntries(tx, entries.slice(start, start + AT_ONCE))));
    const jobs = [...byJob(fresh)];
    for (let start = 0; start < jobs.length; start += AT_ONCE) await addToList(tx, jobs.slice(start, start + AT_ONCE));
    return { added: fresh.length };
  });
}

/** @returns those that were not there */
async function addEntries(tx: Transaction<Tables>, batch: readonly LogEntry[]): Promise<LogEntry[]> {
  const rows = await tx
    .insertInto("entries")
    .values(batch.map((entry) => ({ id: entry.id, job: entry.job, json: JSON.stringify(entry) })))
    .onConflict((conflict) => conflict.column("id").doNothing())
    .returning("id")
    .execute();
  const added = new Set(rows.map(({ id }) => id));
  // Taken out once seen: of two copies in one batch the first was kept.
  return batch.filter(({ id }) => added.delete(id));
}

async function addToList(
  tx: Transaction<Tables>,
  jobs: readonly (readonly [job: string, added: readonly LogEntry[]])[],
): Promise<void> {
  const ids = jobs.map(([job]) => job);
  const rows = await tx.selectFrom("jobs").selectAll().where("id", "in", ids).execute();
  const known = new Map(rows.map((row) => [row.id, listed(row)]));
  const lines = jobs.map(([job, added]) => {
    const { titleFrom, ...line } = lineAfter(job, known.get(job), added);
    return { ...line, title_from: titleFrom };
  });
  await tx
    .insertInto("jobs")
    .values(lines)
    .onConflict((conflict) =>
      conflict.column("id").doUpdateSet(({ ref }) => ({
        title: ref("excluded.title"),
        sought: ref("excluded.sought"),
        title_from: ref("excluded.title_from"),
        changed: ref("excluded.changed"),
        entries: ref("excluded.entries"),
      })),
    )
    .execute();
}

function listed({ title_from: titleFrom, ...line }: Tables["jobs"]): ListedJob {
  return { ...line, titleFrom };
}

async function entriesOf(db: Kysely<Tables>, job: string): Promise<LogEntry[]> {
  const rows = await db.selectFrom("entries").select("json").where("job", "=", job).orderBy("place").execute();
  return rows.map(entryOf);
}

async function since(db: Kysely<Tables>, place: number, limit: number): ReturnType<Keeper["since"]> {
  const rows = await db
    .selectFrom("entries")
    .select(["place", "json"])
    .where("place", ">", place)
    .orderBy("place")
    .limit(limit + 1)
    .execute();
  const given = rows.slice(0, limit);
  return { entries: given.map(entryOf), place: given.at(-1)?.place ?? place, more: rows.length > limit };
}

function entryOf({ json }: { readonly json: string }): LogEntry {
  return JSON.parse(json);
}

async function jobs(db: Kysely<Tables>, { search = "", offset = 0, limit }: JobsWanted): ReturnType<Keeper["jobs"]> {
  const sought = soughtAs(search);
  let found = db.selectFrom("jobs");
  if (sought !== "") found = found.where(sql<boolean>`sought like ${`%${literally(sought)}%`} escape '\\'`);
  const { total } = await found
    .select(({ fn }) => fn.countAll<number | string>().as("total"))
    .executeTakeFirstOrThrow();
  const rows = await found
    .select(["id", "title", "changed", "entries"])
    .orderBy("changed", "desc")
    .orderBy("id", "desc")
    .limit(limit)
    .offset(offset)
    .execute();
  return { total: Number(total), jobs: rows.map(plainLine) };
}

/** Signs that would stand for other letters in a pattern stand for themselves. */
function literally(text: string): string {
  return text.replace(/[\\%_]/g, "\\$&");
}

async function keepPhotograph(db: Kysely<Tables>, given: Photograph): Promise<void> {
  const { hash, type, bytes } = checkedPhotograph(given);
  await db
    .insertInto("photographs")
    .values({ hash, type, bytes })
    .onConflict((conflict) => conflict.column("hash").doNothing())
    .execute();
}

async function photograph(db: Kysely<Tables>, hash: string): Promise<Photograph | undefined> {
  const row = await db.selectFrom("photographs").selectAll().where("hash", "=", checkedHash(hash)).executeTakeFirst();
  // The type was checked before it was kept.
  return row && { hash: row.hash, type: row.type as Photograph["type"], bytes: new Uint8Array(row.bytes) };
}

async function photographs(db: Kysely<Tables>): Promise<string[]> {
  const rows = await db.selectFrom("photographs").select("hash").orderBy("hash").execute();
  return rows.map(({ hash }) => hash);
}

async function note(db: Kysely<Tables>, key: string): Promise<string | undefined> {
  return (await db.selectFrom("notes").select("value").where("key", "=", key).executeTakeFirst())?.value;
}

async function setNote(db: Kysely<Tables>, key: string, value: string): Promise<void> {
  await db
    .insertInto("notes")
    .values({ key, value })
    .onConflict((conflict) => conflict.column("key").doUpdateSet({ value }))
    .execute();
}
