/** Postgres inside the test's own process, handed out as a pool of one connection. */
import type { PGlite } from "@electric-sql/pglite";
import type { PostgresPool, PostgresPoolClient } from "kysely";

/** @param closes whether ending the pool closes the database too */
export function poolOf(database: PGlite, { closes = true } = {}): PostgresPool {
  let free: Promise<void> = Promise.resolve();
  return {
    async connect() {
      const before = free;
      let release: () => void = () => {};
      free = new Promise((resolve) => {
        release = resolve;
      });
      await before;
      const query = async (sql: string, parameters: readonly unknown[]) => {
        const result = await database.query(sql, [...parameters]);
        const command = sql.trim().split(/\s+/)[0]?.toUpperCase();
        return { command, rowCount: result.affectedRows ?? 0, rows: result.rows };
      };
      // The real thing can hand out rows piece by piece as well; nobody asks for that here.
      return { query: query as PostgresPoolClient["query"], release: () => release() };
    },
    async end() {
      if (closes) await database.close();
    },
  };
}
