/**
 * Writes a job document as a YAML file that a person can read and go on with.
 *
 * Nobody ever sees half a file: the text goes to a temporary name in the same folder, and takes its own name only when
 * it is on the disk. A file that is there is replaced only when that was said.
 */
import { access, link, open, rename, rm } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { Document, isCollection, isMap, isScalar, isSeq, type Node } from "yaml";
import { InputError } from "../core/errors.ts";

/** Longer mappings are easier to read one value to a line. */
const LONGEST_LINE = 110;

/** The document as YAML; `about` stands above it as a comment. */
export function jobText(data: Readonly<Record<string, unknown>>, about: string): string {
  const document = new Document(data);
  document.commentBefore = about
    .split("\n")
    .map((line) => ` ${line}`)
    .join("\n");
  const { contents } = document;
  if (isMap(contents)) {
    for (const [index, section] of contents.items.entries()) {
      if (!isCollection(section.value)) continue;
      if (index > 0 && typeof section.key === "object" && section.key !== null)
        Object.assign(section.key, { spaceBefore: true });
      layOut(section.value, index === 0);
    }
  }
  return `${document.toString({ lineWidth: 0 }).trimEnd()}\n`;
}

/** Small collections of plain values stand on one line, as one writes them by hand. */
function layOut(node: Node, flow = false): void {
  if (!isCollection(node)) return;
  if (flow) node.flow = true;
  for (const item of node.items) {
    const value = isSeq(node) ? item : (item as { value?: unknown }).value;
    if (!isCollection(value)) continue;
    if (isFlat(value) && JSON.stringify(value).length < LONGEST_LINE) value.flow = true;
    else layOut(value);
  }
}

function isFlat(node: Node): boolean {
  if (isSeq(node)) return node.items.every((item) => isScalar(item));
  return isMap(node) && node.items.every(({ value }) => isScalar(value) || (isSeq(value) && isFlat(value)));
}

export async function fileExists(path: string): Promise<boolean> {
  return access(path).then(
    () => true,
    () => false,
  );
}

/**
 * @param where names the file in messages, as the person gave it
 * @throws InputError if the file is there and was not to be replaced, or cannot be written; then nothing has changed
 */
export async function keepJob(
  path: string,
  text: string,
  { replace, where }: { readonly replace: boolean; readonly where: string },
): Promise<void> {
  const waiting = join(dirname(path), `.${basename(path)}.${process.pid}.part`);
  try {
    await writeToDisk(waiting, text);
    if (replace) await rename(waiting, path);
    else await link(waiting, path);
  } catch (error) {
    throw isFileError(error) ? notKept(path, where, error) : error;
  } finally {
    await rm(waiting, { force: true });
  }
}

async function writeToDisk(path: string, text: string): Promise<void> {
  const file = await open(path, "w");
  try {
    await file.writeFile(text);
    await file.sync();
  } finally {
    await file.close();
  }
}

function isFileError(error: unknown): error is NodeJS.ErrnoException {
  return error instanceof Error && "code" in error && "syscall" in error;
}

function notKept(path: string, where: string, error: NodeJS.ErrnoException): InputError {
  switch (error.code) {
    case "EEXIST":
      return new InputError(where, `${path} is there already`, "Give another name, or add --replace");
    case "ENOENT":
      return new InputError(
        where,
        `there is no folder ${dirname(path)}`,
        "Make it first, or give a name in another folder",
      );
    case "EISDIR":
      return new InputError(where, `${path} is a folder`, "Give the name of a file");
    default:
      return new InputError(where, `${path} cannot be written (${error.code})`, "Give a name in a folder of your own");
  }
}
