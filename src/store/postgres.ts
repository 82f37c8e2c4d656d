/** A log in Postgres, for several bench computers that share one. The caller brings the pool of connections. */
import { Kysely, PostgresDialect, type PostgresPool, sql } from "kysely";
import { InputError } from "../core/errors.ts";
import type { Keeper } from "./keeper.ts";
import { createSqlKeeper } from "./sql-keeper.ts";
import type { SqlKind, Tables } from "./sql-tables.ts";

const WHERE = "Postgres";

/**
 * Opens the log in a database; tables are made if missing. Closing the keeper ends the pool.
 *
 * @throws InputError if the database cannot be reached, or was written by a newer program
 */
export function openPostgresKeeper(pool: PostgresPool): Promise<Keeper> {
  return createSqlKeeper(new Kysely<Tables>({ dialect: new PostgresDialect({ pool }) }), POSTGRES_KIND, WHERE);
}

/** Exported for the test of old databases. */
export const POSTGRES_KIND: SqlKind = {
  running: sql`serial primary key`,
  text: sql`text collate "C"`,
  bytes: sql`bytea`,
  // Running numbers are given before their transaction ends. Without taking turns a later number could be seen first,
  // and who reads on from there would never see the earlier one.
  turn: sql`lock table entries in share row exclusive mode`,
  translate: (error) => {
    const code = error instanceof Error && "code" in error && typeof error.code === "string" ? error.code : "";
    const said = REFUSALS[code];
    if (!said) return error;
    const refused = new InputError(WHERE, said[0], said[1]);
    refused.cause = error;
    return refused;
  },
};

/** By the code of the operating system or of Postgres (its manual, appendix A; from memory). */
const REFUSALS: Readonly<Record<string, readonly [problem: string, remedy: string]>> = {
  ECONNREFUSED: ["does not answer", "Start it, or correct its address"],
  ENOTFOUND: ["cannot be found under its name", "Correct its address"],
  ETIMEDOUT: ["does not answer in time", "See whether it runs and can be reached from here"],
  "28P01": ["refuses the password", "Correct user and password"],
  "3D000": ["has no database of that name", "Make the database, or correct its name"],
  "42501": ["does not let this user write", "Give the user the right to make and fill tables"],
  "53100": ["has no room left on its disk", "Make room and try again"],
};
