/**
 * The files of the page, read once at the start. What is asked for is looked up in this list by its whole name; no path
 * is ever made of a request.
 */
import { createHash } from "node:crypto";
import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";

export interface PageFile {
  readonly type: string;
  readonly bytes: Uint8Array;
  readonly tag: string;
  /** Its name changes with what is in it. */
  readonly lasting: boolean;
}

const TYPES: Readonly<Record<string, string>> = {
  html: "text/html; charset=utf-8",
  js: "text/javascript; charset=utf-8",
  css: "text/css; charset=utf-8",
  woff2: "font/woff2",
  webmanifest: "application/manifest+json",
  png: "image/png",
  svg: "image/svg+xml",
  ico: "image/x-icon",
};

const NAME = /^[A-Za-z0-9][A-Za-z0-9._-]*\.([a-z0-9]+)$/;

/** By what is asked for, e.g. "/assets/page-1a2b3c.js"; empty if the page has not been built. */
export async function readPageFiles(folder: string): Promise<ReadonlyMap<string, PageFile>> {
  const files = new Map<string, PageFile>();
  await addFolder(files, folder, "/", false);
  const index = files.get("/index.html");
  if (!index) return new Map();
  await addFolder(files, join(folder, "assets"), "/assets/", true);
  files.set("/", index);
  return files;
}

async function addFolder(files: Map<string, PageFile>, folder: string, at: string, lasting: boolean): Promise<void> {
  const found = await readdir(folder, { withFileTypes: true }).catch((error: NodeJS.ErrnoException) => {
    if (error.code === "ENOENT") return [];
    throw error;
  });
  for (const entry of found) {
    const type = TYPES[NAME.exec(entry.name)?.[1] ?? ""];
    // A link could lead anywhere; the build makes none.
    if (!type || !entry.isFile()) continue;
    const bytes = await readFile(join(folder, entry.name));
    const tag = `"${createHash("sha256").update(bytes).digest("base64url").slice(0, 22)}"`;
    files.set(`${at}${entry.name}`, { type, bytes, tag, lasting });
  }
}
