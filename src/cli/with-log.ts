/** Opens the log that `--data` or the surroundings name, for as long as a command needs it. */
import { homedir } from "node:os";
import { dataFolder } from "../app/data-folder.ts";
import { type OpenLog, openLog } from "../app/open-log.ts";

/** For `parseArgs`. */
export const DATA_OPTION = { data: { type: "string" } } as const;

export async function withLog<T>(asked: string | undefined, work: (log: OpenLog) => Promise<T>): Promise<T> {
  const { env, platform } = process;
  const log = await openLog(dataFolder(asked, { env, platform, home: homedir(), here: process.cwd() }));
  try {
    return await work(log);
  } finally {
    await log.keeper.close();
  }
}
