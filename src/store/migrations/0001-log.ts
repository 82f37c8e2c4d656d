/** The log: entries in the order in which they came. */
import type { Migration } from "./migration.ts";

export const log: Migration = {
  number: 1,
  name: "log",
  async up(db, { running, text }) {
    await db.schema
      .createTable("entries")
      .addColumn("place", running)
      .addColumn("id", text, (column) => column.notNull().unique())
      .addColumn("job", text, (column) => column.notNull())
      .addColumn("json", text, (column) => column.notNull())
      .execute();
    await db.schema.createIndex("entries_of_job").on("entries").columns(["job", "place"]).execute();
  },
};
