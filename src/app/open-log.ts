/** Opens the log of this computer: a folder with one database in it. */
import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { InputError } from "../core/errors.ts";
import type { Keeper } from "../store/index.ts";
import { openSqliteKeeper } from "../store/sqlite.ts";
import { deviceNameOf, logNameOf } from "./log-names.ts";

export interface OpenLog {
  readonly keeper: Keeper;
  /** The file it is kept in. */
  readonly path: string;
}

/** @throws InputError if the folder cannot be made */
export async function openLog(folder: string): Promise<OpenLog> {
  try {
    // What a person keeps of their jobs is nobody else's business on a shared machine.
    await mkdir(folder, { recursive: true, mode: 0o700 });
  } catch (error) {
    if (!(error instanceof Error && "code" in error)) throw error;
    const remedy = "Choose a folder of your own with --data";
    throw new InputError(folder, `cannot be made or opened (${error.code})`, remedy);
  }
  const path = join(folder, "log.sqlite");
  const keeper = await openSqliteKeeper(path);
  await logNameOf(keeper);
  await deviceNameOf(keeper);
  return { keeper, path };
}
