/** Photographs by their hash, and small things of this keeper alone. */
import type { Migration } from "./migration.ts";

export const photographsAndNotes: Migration = {
  number: 3,
  name: "photographs-and-notes",
  async up(db, { text, bytes }) {
    await db.schema
      .createTable("photographs")
      .addColumn("hash", text, (column) => column.primaryKey())
      .addColumn("type", text, (column) => column.notNull())
      .addColumn("bytes", bytes, (column) => column.notNull())
      .execute();
    await db.schema
      .createTable("notes")
      .addColumn("key", text, (column) => column.primaryKey())
      .addColumn("value", text, (column) => column.notNull())
      .execute();
  },
};
