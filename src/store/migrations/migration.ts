import type { Kysely } from "kysely";
import type { SqlKind } from "../sql-tables.ts";

/**
 * One step from an older database to a newer. A step that has been published is never changed, only followed by another;
 * it names its tables itself, as they were at its time.
 */
export interface Migration {
  readonly number: number;
  readonly name: string;
  /** Everything in one transaction. */
  up(db: Kysely<unknown>, kind: SqlKind): Promise<void>;
}
