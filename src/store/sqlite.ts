/**
 * A log in one file on the bench computer. Settled means on the disk: the write-ahead log is flushed at every appending
 * (`synchronous = FULL`), not only now and then.
 */
import { mkdirSync } from "node:fs";
import { dirname, resolve } from "node:path";
import { Kysely, type SqliteDatabase, SqliteDialect, type SqliteStatement, sql } from "kysely";
import Database from "libsql";
import { InputError } from "../core/errors.ts";
import type { Keeper } from "./keeper.ts";
import { createSqlKeeper } from "./sql-keeper.ts";
import type { SqlKind, Tables } from "./sql-tables.ts";

/** How long another program's writing is waited for. */
const PATIENCE_MS = 3000;

/**
 * Opens the log in a file; file and folder are made if missing.
 *
 * @throws InputError if the file cannot be used: no database, held by another program, written by a newer one
 */
export async function openSqliteKeeper(path: string, { patienceMs = PATIENCE_MS } = {}): Promise<Keeper> {
  const kind = sqliteKind(path);
  let database: InstanceType<typeof Database> | undefined;
  try {
    database = openFile(path, patienceMs);
    const db = new Kysely<Tables>({ dialect: new SqliteDialect({ database: takingTurns(database) }) });
    return await createSqlKeeper(db, kind, path);
  } catch (error) {
    database?.close();
    throw kind.translate(error);
  }
}

function openFile(path: string, patienceMs: number): InstanceType<typeof Database> {
  // Whole: a name that looks like an address would be taken for one.
  const file = resolve(path);
  makeFolder(dirname(file), path);
  let database: InstanceType<typeof Database>;
  try {
    database = new Database(file);
  } catch (cause) {
    throw withCause(
      new InputError(path, "cannot be opened or made", "Give a file in a folder that may be written"),
      cause,
    );
  }
  try {
    database.pragma(`busy_timeout = ${Math.round(patienceMs)}`);
    refuseForeign(database, path);
    database.pragma("journal_mode = WAL");
    database.pragma("synchronous = FULL");
    database.pragma("foreign_keys = ON");
  } catch (error) {
    database.close();
    throw error;
  }
  return database;
}

function makeFolder(folder: string, path: string): void {
  try {
    mkdirSync(folder, { recursive: true });
  } catch (cause) {
    const error = new InputError(path, `its folder ${folder} cannot be made`, "Give a place that may be written");
    throw withCause(error, cause);
  }
}

/**
 * Every transaction here writes, so each waits for its turn where it begins, and nowhere else. A prepared statement that
 * another program kept from writing would stay half done, and nothing could be committed after it.
 */
function takingTurns(database: InstanceType<typeof Database>): SqliteDatabase {
  const nothing = { changes: 0, lastInsertRowid: 0 };
  const begin: SqliteStatement = {
    reader: false,
    run: () => {
      database.exec("begin immediate");
      return nothing;
    },
    all: () => [],
    iterate: () => [][Symbol.iterator](),
  };
  return {
    prepare: (text) => (text === "begin" ? begin : database.prepare<unknown[]>(text)),
    close: () => database.close(),
  };
}

/** Another program's data is not to be written into, whatever file was named by mistake. */
function refuseForeign(database: InstanceType<typeof Database>, path: string): void {
  const rows = database.prepare("select name from sqlite_master where type = 'table'").all() as { name: string }[];
  if (rows.length === 0 || rows.some(({ name }) => name === "migrations")) return;
  throw new InputError(path, "is another program's database", "Give another file; this one was left as it is");
}

function sqliteKind(path: string): SqlKind {
  return {
    running: sql`integer primary key autoincrement`,
    text: sql`text`,
    bytes: sql`blob`,
    translate: (error) => {
      const code = codeOf(error);
      const said = REFUSALS.find(([start]) => code.startsWith(start));
      return said ? withCause(new InputError(path, said[1], said[2]), error) : error;
    },
  };
}

/** By the beginning of SQLite's own code. */
const REFUSALS: readonly (readonly [code: string, problem: string, remedy: string])[] = [
  ["SQLITE_NOTADB", "is not a database", "Give another file; this one was left as it is"],
  ["SQLITE_CORRUPT", "is damaged", "Put it aside and bring an archive back, or exchange with another device"],
  ["SQLITE_BUSY", "is held by another program", "Close the other program and try again"],
  ["SQLITE_LOCKED", "is held by another program", "Close the other program and try again"],
  ["SQLITE_READONLY", "may not be written", "Allow writing to the file and its folder"],
  ["SQLITE_CANTOPEN", "cannot be opened or made", "Give a file in a folder that may be written"],
  ["SQLITE_FULL", "does not fit: the disk is full", "Make room on the disk and try again"],
];

function codeOf(error: unknown): string {
  return error instanceof Error && "code" in error && typeof error.code === "string" ? error.code : "";
}

function withCause(error: InputError, cause: unknown): InputError {
  error.cause = cause;
  return error;
}
