/** Where the log is kept: what was asked for, else the folder that the system has for a person's data. */
import { posix, win32 } from "node:path";
import { InputError } from "../core/errors.ts";

export interface Surroundings {
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly platform: string;
  readonly home: string;
  /** What a relative folder is relative to. */
  readonly here: string;
}

/**
 * @param asked `--data`
 * @returns an absolute path; the folder need not be there yet
 * @throws InputError if an empty folder was asked for
 */
export function dataFolder(asked: string | undefined, { env, platform, home, here }: Surroundings): string {
  const path = platform === "win32" ? win32 : posix;
  if (asked !== undefined) {
    if (asked.trim() === "") throw new InputError("--data", "is empty", "Name a folder, e.g. --data ~/fettle");
    return path.resolve(here, asked);
  }
  if (env.FETTLE_DATA) return path.resolve(here, env.FETTLE_DATA);
  if (platform === "darwin") return path.join(home, "Library", "Application Support", "fettle");
  if (platform === "win32") return path.join(env.APPDATA || path.join(home, "AppData", "Roaming"), "fettle");
  // A relative one is to be ignored (XDG Base Directory Specification 0.8, from memory).
  const shared = env.XDG_DATA_HOME && path.isAbsolute(env.XDG_DATA_HOME) ? env.XDG_DATA_HOME : undefined;
  return path.join(shared ?? path.join(home, ".local", "share"), "fettle");
}
