/**
 * Writes a set of papers into a folder so that nobody ever prints half a file: every paper goes to a temporary name in
 * the same folder first, and only when all of them are on the disk do they take their names.
 */
import { mkdir, open, rename, rm } from "node:fs/promises";
import { join } from "node:path";
import { InputError } from "../core/errors.ts";

export interface PaperFile {
  /** File name without a folder, e.g. "bridge-template.pdf". */
  readonly name: string;
  readonly content: Uint8Array | string;
}

/**
 * @returns the paths written, in the order given
 * @throws InputError if the folder cannot be made or written to; then no paper has changed
 */
export async function writePapers(papers: readonly PaperFile[], folder: string): Promise<string[]> {
  for (const { name } of papers) requirePlainName(name);
  try {
    await mkdir(folder, { recursive: true });
    return await writeAll(papers, folder);
  } catch (error) {
    throw isFileError(error) ? unwritable(folder, error) : error;
  }
}

async function writeAll(papers: readonly PaperFile[], folder: string): Promise<string[]> {
  const waiting: { from: string; to: string }[] = [];
  try {
    for (const { name, content } of papers) {
      const from = join(folder, `.${name}.${process.pid}.part`);
      waiting.push({ from, to: join(folder, name) });
      await writeToDisk(from, content);
    }
    for (const { from, to } of waiting) await rename(from, to);
    return waiting.map(({ to }) => to);
  } catch (error) {
    await Promise.all(waiting.map(({ from }) => rm(from, { force: true })));
    throw error;
  }
}

async function writeToDisk(path: string, content: Uint8Array | string): Promise<void> {
  const file = await open(path, "w");
  try {
    await file.writeFile(content);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Names come from ids in a job file, which must not lead out of the folder. */
function requirePlainName(name: string): void {
  if (/^[A-Za-z0-9][A-Za-z0-9._-]{0,99}$/.test(name)) return;
  throw new InputError(name, "cannot be a file name", "Use letters, digits, points and hyphens in ids");
}

function isFileError(error: unknown): error is NodeJS.ErrnoException {
  return error instanceof Error && "code" in error && "syscall" in error;
}

function unwritable(folder: string, error: NodeJS.ErrnoException): InputError {
  const remedies: Readonly<Record<string, string>> = {
    EACCES: "Choose a folder of your own with --out",
    EPERM: "Close the papers in other programs, or choose another folder with --out",
    ENOSPC: "Make room on the disk",
    ENOTDIR: "Choose a folder with --out, not a file",
    EEXIST: "Choose a folder with --out, not a file",
  };
  const code = error.code ?? "unknown";
  return new InputError(folder, `cannot be written to (${code})`, remedies[code] ?? "Choose another folder with --out");
}
