/**
 * Reads a job file: YAML or JSON on disk to plain data. What the data means is the core's business.
 *
 * The file may come from anybody, so its size, its aliases and its depth are bounded, and nothing in it is executed.
 */
import { open } from "node:fs/promises";
import { basename } from "node:path";
import {
  Composer,
  type CST,
  type Document,
  isCollection,
  isNode,
  isSeq,
  LineCounter,
  Parser,
  type YAMLError,
} from "yaml";
import { InputError } from "../core/errors.ts";

/** A hand-written job has some 20 kB. */
export const MAX_JOB_BYTES = 1_000_000;

/** Aliases let a short file stand for a very long one; a job has hardly any. */
const MAX_ALIASES = 100;

/** A job needs some eight levels. Composing nested values calls itself, and a deep enough file would end the process. */
const MAX_DEPTH = 100;

export interface JobFile {
  /** As the person gave it. */
  readonly path: string;
  /** Last part of the path, for messages and titles. */
  readonly name: string;
  /** Plain values: mappings, lists, texts, numbers, booleans, null. */
  readonly data: unknown;
  /** Line on which a path of the data such as `strings[2].gauge` stands, or the nearest place above it. */
  lineOf(where: string): number | undefined;
}

/** @throws InputError if the file cannot be read, is too large, or is not YAML or JSON */
export async function readJobFile(path: string): Promise<JobFile> {
  return parseJobText(await readText(path), path);
}

/** @throws InputError naming file, line and column of what cannot be read */
export function parseJobText(text: string, path: string): JobFile {
  const name = basename(path);
  const lines = new LineCounter();
  const document = parse(text, name, lines);
  const trouble = document.errors[0] ?? document.warnings[0];
  if (trouble) throw unreadable(trouble, name, lines);
  return { path, name, data: plainData(document, name), lineOf: (where) => lineOfPath(document, lines, where) };
}

async function readText(path: string): Promise<string> {
  const bytes = await readBounded(path).catch((error: NodeJS.ErrnoException) => {
    throw error.code === undefined ? error : unopened(path, error);
  });
  if (bytes.length > MAX_JOB_BYTES) {
    const remedy = "Give a job file; photographs and other attachments do not belong into it";
    throw new InputError(path, `is larger than ${MAX_JOB_BYTES} bytes`, remedy);
  }
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch (error) {
    if (!(error instanceof TypeError)) throw error;
    throw new InputError(path, "is not UTF-8 text", "Save it again as plain text in UTF-8");
  }
}

/** At most one byte more than allowed, whatever the file system says about its size. */
async function readBounded(path: string): Promise<Uint8Array> {
  const file = await open(path, "r");
  try {
    const buffer = new Uint8Array(MAX_JOB_BYTES + 1);
    let length = 0;
    while (length < buffer.length) {
      const { bytesRead } = await file.read(buffer, length, buffer.length - length);
      if (bytesRead === 0) break;
      length += bytesRead;
    }
    return buffer.subarray(0, length);
  } finally {
    await file.close();
  }
}

function unopened(path: string, error: NodeJS.ErrnoException): InputError {
  const remedy = "Name a job file that exists and may be read, e.g. examples/lowtide.yaml";
  if (error.code === "ENOENT") return new InputError(path, "there is no such file", remedy);
  if (error.code === "EISDIR") return new InputError(path, "is a folder, not a job file", remedy);
  return new InputError(path, `cannot be read (${error.code})`, remedy);
}

function parse(text: string, name: string, lines: LineCounter): Document {
  const tokens = [...new Parser(lines.addNewLine).parse(text)];
  if (isDeeperThan(MAX_DEPTH, tokens)) {
    throw new InputError(name, `is nested more than ${MAX_DEPTH} deep`, "Look for a run of brackets or hyphens");
  }
  const options = { lineCounter: lines, version: "1.2", schema: "core", uniqueKeys: true } as const;
  const [document, second] = [...new Composer(options).compose(tokens, true, text.length)];
  if (!document || second) {
    const line = lines.linePos(second?.range[0] ?? 0).line;
    throw new InputError(`${name}, line ${line}`, "a second document starts", "Keep one job to a file: take out `---`");
  }
  return document;
}

/** Looks at the tokens without calling itself. */
function isDeeperThan(limit: number, tokens: readonly CST.Token[]): boolean {
  const open: { token: CST.Token | null | undefined; depth: number }[] = tokens.map((token) => ({ token, depth: 0 }));
  for (let entry = open.pop(); entry; entry = open.pop()) {
    const { token, depth } = entry;
    if (depth > limit) return true;
    if (!token) continue;
    if (token.type === "document") open.push({ token: token.value, depth });
    if (!("items" in token)) continue;
    for (const { key, value } of token.items)
      open.push({ token: key, depth: depth + 1 }, { token: value, depth: depth + 1 });
  }
  return false;
}

function plainData(document: Document, name: string): unknown {
  try {
    return document.toJS({ maxAliasCount: MAX_ALIASES }) as unknown;
  } catch (error) {
    if (!(error instanceof ReferenceError)) throw error;
    throw new InputError(name, `its aliases cannot be resolved: ${error.message}`, "Write the values out");
  }
}

function unreadable(trouble: YAMLError, name: string, lines: LineCounter): InputError {
  const { line, col } = lines.linePos(trouble.pos[0]);
  const problem = trouble.message.replace(/[\s.:]+$/, "");
  return new InputError(
    `${name}, line ${line}, column ${col}`,
    problem,
    REMEDIES[trouble.code] ?? "Mend the YAML there",
  );
}

const REMEDIES: Readonly<Record<string, string>> = {
  DUPLICATE_KEY: "Keep one of the two",
  TAB_AS_INDENT: "Indent with spaces",
  TAG_RESOLVE_FAILED: "Take the tag out: a job holds plain values only",
};

/** Walks as far as the path goes. A list entry is found by number or by its `id`. */
function lineOfPath(document: Document, lines: LineCounter, where: string): number | undefined {
  let node: unknown = document.contents;
  let line: number | undefined;
  for (const step of where.split(/[.[\]]+/).filter(Boolean)) {
    const next = isCollection(node) ? childOf(node, step) : undefined;
    if (!isNode(next)) break;
    if (next.range) line = lines.linePos(next.range[0]).line;
    node = next;
  }
  return line;
}

function childOf(node: { get(key: unknown, keepScalar: true): unknown; items: unknown[] }, step: string): unknown {
  if (!isSeq(node) || /^\d+$/.test(step)) return node.get(isSeq(node) ? Number(step) : step, true);
  return node.items.find((item) => isCollection(item) && item.get("id") === step);
}
