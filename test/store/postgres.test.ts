import { PGlite } from "@electric-sql/pglite";
import { Kysely, PostgresDialect, sql } from "kysely";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { InputError } from "../../src/core/errors.ts";
import { migrate } from "../../src/store/migrations/index.ts";
import { openPostgresKeeper, POSTGRES_KIND } from "../../src/store/postgres.ts";
import type { Tables } from "../../src/store/sql-tables.ts";
import { entryAt, titleAt } from "../support/log-entries.ts";
import { poolOf } from "../support/pglite-pool.ts";
import { keepsItsPromises } from "./contract.ts";

let database: PGlite;
beforeAll(async () => {
  database = await PGlite.create();
}, 60_000);
afterAll(() => database.close());

/** Starting one takes seconds, so all tests share it, each with nothing in it. */
async function emptyPool() {
  await database.exec("drop schema public cascade; create schema public;");
  return poolOf(database, { closes: false });
}

keepsItsPromises("Postgres", {
  fresh: async () => openPostgresKeeper(await emptyPool()),
  again: async (keeper) => {
    await keeper.close();
    return openPostgresKeeper(poolOf(database, { closes: false }));
  },
});

describe("openPostgresKeeper", () => {
  it("[LO17] takes a log of the first program over", async () => {
    const pool = await emptyPool();
    const db = new Kysely<Tables>({ dialect: new PostgresDialect({ pool }) });
    await migrate(db, POSTGRES_KIND, "Postgres", 1);
    const old = [titleAt(1, "Lowtide", "lowtide"), entryAt(2, "/a", 1), titleAt(3, "Ferry", "ferry")];
    for (const entry of old)
      await sql`insert into entries (id, job, json) values (${entry.id}, ${entry.job}, ${JSON.stringify(entry)})`.execute(
        db,
      );
    const keeper = await openPostgresKeeper(pool);
    expect((await keeper.since(0, 10)).entries).toEqual(old);
    expect((await keeper.jobs({ limit: 5 })).jobs.map(({ title, entries }) => [title, entries])).toEqual([
      ["Ferry", 1],
      ["Lowtide", 2],
    ]);
    expect(await keeper.append(old)).toEqual({ added: 0 });
  });

  it("[LO17] refuses a database that a newer program wrote", async () => {
    const pool = await emptyPool();
    await (await openPostgresKeeper(pool)).setNote("a", "b");
    await database.exec("insert into migrations (number, name) values (12, 'from-tomorrow')");
    await expect(openPostgresKeeper(pool)).rejects.toThrow(/^Postgres: was written by a newer program \(step 12; /);
  });

  it("says in words that the database does not answer", async () => {
    const refused = Object.assign(new Error("connect"), { code: "ECONNREFUSED" });
    const pool = { connect: () => Promise.reject(refused), end: async () => {} };
    const said = await openPostgresKeeper(pool).catch((error: unknown) => error);
    expect(said).toBeInstanceOf(InputError);
    expect(said).toMatchObject({ where: "Postgres", problem: "does not answer", cause: refused });
  });

  it("lets a fault of the program rise as it is", async () => {
    const fault = new Error("fault");
    const pool = { connect: () => Promise.reject(fault), end: async () => {} };
    await expect(openPostgresKeeper(pool)).rejects.toBe(fault);
  });
});
