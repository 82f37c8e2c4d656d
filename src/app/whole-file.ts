/**
 * Writes a file of which nobody ever sees half: the text goes to a temporary name in the same folder, and takes its own
 * name only when it is on the disk. A file that is there is replaced only when that was said.
 */
import { randomBytes } from "node:crypto";
import { access, link, open, rename, rm } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { InputError } from "../core/errors.ts";

export interface KeepOptions {
  readonly replace: boolean;
  /** Names the file in messages, as the person gave it. */
  readonly where: string;
}

export async function fileExists(path: string): Promise<boolean> {
  return access(path).then(
    () => true,
    () => false,
  );
}

/**
 * @param content whole, or piece by piece when it is too long to be held at once
 * @throws InputError if the file is there and was not to be replaced, or cannot be written; then nothing has changed
 */
export async function keepFile(
  path: string,
  content: string | AsyncIterable<string>,
  { replace, where }: KeepOptions,
): Promise<void> {
  // Said before the work is done, and once more by `link` when it is.
  if (!replace && (await fileExists(path))) throw alreadyThere(path, where);
  const waiting = join(dirname(path), `.${basename(path)}.${randomBytes(4).toString("hex")}.part`);
  try {
    await writeToDisk(waiting, content);
    if (replace) await rename(waiting, path);
    else await link(waiting, path);
  } catch (error) {
    throw isFileError(error) ? notKept(path, where, error) : error;
  } finally {
    await rm(waiting, { force: true });
  }
}

async function writeToDisk(path: string, content: string | AsyncIterable<string>): Promise<void> {
  const file = await open(path, "wx");
  try {
    if (typeof content === "string") await file.writeFile(content);
    else for await (const piece of content) await file.appendFile(piece);
    await file.sync();
  } finally {
    await file.close();
  }
}

function isFileError(error: unknown): error is NodeJS.ErrnoException {
  return error instanceof Error && "code" in error && "syscall" in error;
}

function alreadyThere(path: string, where: string): InputError {
  return new InputError(where, `${path} is there already`, "Give another name, or add --replace");
}

function notKept(path: string, where: string, error: NodeJS.ErrnoException): InputError {
  switch (error.code) {
    case "EEXIST":
      return alreadyThere(path, where);
    case "ENOENT":
      return new InputError(
        where,
        `there is no folder ${dirname(path)}`,
        "Make it first, or give a name in another folder",
      );
    case "EISDIR":
      return new InputError(where, `${path} is a folder`, "Give the name of a file");
    case "ENOSPC":
      return new InputError(where, "the disk is full", "Make room, or give a name on another disk");
    default:
      return new InputError(where, `${path} cannot be written (${error.code})`, "Give a name in a folder of your own");
  }
}
