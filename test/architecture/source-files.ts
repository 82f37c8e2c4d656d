/** What the architecture tests look at: the project's files, code without its comments, and imports. */
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, posix } from "node:path";
import { fileURLToPath } from "node:url";

export const ROOT = dirname(dirname(dirname(fileURLToPath(import.meta.url))));

const NOT_OURS = new Set(["node_modules", "dist", "out", "coverage", ".git"]);

/** Paths of every file that is, or would be, under version control, with forward slashes. */
export function projectFiles(): string[] {
  try {
    const args = ["ls-files", "-z", "--cached", "--others", "--exclude-standard", "--deduplicate"];
    const listed = execFileSync("git", args, { cwd: ROOT, encoding: "utf8", stdio: ["ignore", "pipe", "ignore"] });
    const names = listed.split("\0").filter((name) => name && exists(name));
    if (names.length > 0) return names;
  } catch {
    // An archive without version control.
  }
  return walk("");
}

/** The project's TypeScript files below a folder, e.g. "src/core". */
export function codeFiles(folder: string): string[] {
  return projectFiles().filter((name) => name.startsWith(`${folder}/`) && /\.(ts|tsx|mts|mjs|js)$/.test(name));
}

export function read(name: string): string {
  return readFileSync(join(ROOT, name), "utf8");
}

export interface Import {
  /** As written. */
  readonly from: string;
  /** Path in the project for a relative import, else the same as `from`. */
  readonly target: string;
  readonly typeOnly: boolean;
}

/** Static, re-exporting and dynamic imports of a file. */
export function importsOf(name: string, code = read(name)): Import[] {
  const imports: Import[] = [];
  const bare = withoutComments(code);
  const STATIC = /^\s*(import|export)\s+(type\s+)?(?:[\w*\s{},$]+?\s+from\s+)?"([^"]+)"/gm;
  for (const [, , type, from = ""] of bare.matchAll(STATIC)) {
    imports.push({ from, target: resolveImport(name, from), typeOnly: type !== undefined });
  }
  for (const [, from = ""] of bare.matchAll(/\b(?:import|require|require\.resolve)\(\s*["'`]([^"'`]+)["'`]/g)) {
    imports.push({ from, target: resolveImport(name, from), typeOnly: false });
  }
  return imports;
}

const COMMENT = String.raw`\/\*[\s\S]*?\*\/|\/\/[^\n]*`;
const TEXT = String.raw`"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*'|\`(?:\\[\s\S]|[^\`\\])*\``;
/** A slash after one of these starts a regular expression and divides nothing. */
const REGEXP = String.raw`(?<=[=(,:[!&|?{};]\s*|\breturn\s+)\/(?![*/])(?:\\.|\[(?:\\.|[^\]\\\n])*\]|[^/\\\n[])+\/`;

/** Code with its comments blanked and, if asked, the insides of its texts; line breaks stay. */
export function withoutComments(code: string, texts: "keep" | "blank" = "keep"): string {
  // Whichever starts first is taken whole, so that a comment mark inside a text stays, and a quote inside a comment.
  return code.replace(new RegExp(`(${COMMENT})|${REGEXP}|${TEXT}`, "g"), (token, comment?: string) => {
    if (comment !== undefined) return token.replace(/[^\n]/g, " ");
    return texts === "keep" ? token : `${token[0]}${token.slice(1, -1).replace(/[^\n]/g, " ")}${token[0]}`;
  });
}

function resolveImport(name: string, from: string): string {
  return from.startsWith(".") ? posix.join(posix.dirname(name), from) : from;
}

function exists(name: string): boolean {
  try {
    readFileSync(join(ROOT, name));
    return true;
  } catch {
    return false;
  }
}

function walk(folder: string): string[] {
  return readdirSync(join(ROOT, folder), { withFileTypes: true }).flatMap((entry) => {
    const name = folder ? `${folder}/${entry.name}` : entry.name;
    if (NOT_OURS.has(entry.name)) return [];
    return entry.isDirectory() ? walk(name) : [name];
  });
}
