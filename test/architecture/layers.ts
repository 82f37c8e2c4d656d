/**
 * Who may import whom. Imports point down this list; within a line, folders do not know one another.
 */
import type { Import } from "./source-files.ts";

const CORE_LAYERS: readonly (readonly string[])[] = [
  ["errors.ts"],
  ["checks.ts"],
  ["quantity"],
  ["verdict"],
  // The areas: plain functions of plain numbers. What one needs of another is passed in.
  ["ledger", "scale", "bridge", "fit", "setup", "circuit", "plate", "drawing", "briefing", "log"],
  ["job"],
  ["wiring"],
  ["questions"],
  ["answers.ts"],
  ["wired.ts"],
  ["plan"],
  ["sheets"],
  ["steps.ts"],
  ["drawn.ts"],
  ["begin"],
  ["index.ts"],
];

const AREAS = CORE_LAYERS[4] ?? [];

/** What the core's areas may use of the core. */
const BELOW_AREAS = ["errors.ts", "checks.ts", "quantity", "verdict"];

/** Folders of src/ and what each may import besides itself. */
const OUTER_LAYERS: Readonly<Record<string, readonly string[]>> = {
  data: [],
  core: ["data"],
  papers: ["core", "data"],
  store: ["core"],
  app: ["core", "papers", "store"],
  server: ["core", "app", "store"],
  cli: ["core", "app", "server", "store"],
  web: ["core", "app", "store", "papers", "data"],
};

/** Packages each folder may use; docs/decisions/0003 gives the reasons. */
const PACKAGES: Readonly<Record<string, readonly string[]>> = {
  "src/core/quantity": ["fraction.js"],
  "src/core/job": ["zod"],
  "src/papers": ["pdfkit", "@tarikjabiri/dxf", "@fontsource/dejavu-sans"],
  "src/app": ["yaml"],
  "src/store": ["kysely", "libsql", "idb"],
  "src/server": ["hono", "@hono/node-server"],
  "src/web": ["solid-js", "yaml", "virtual:lettering"],
};

/** Folders that run in a page as well, so they know nothing of Node. */
const NO_NODE = ["src/core", "src/data", "src/web"];

/** The same of single files: what a page takes of the folders that it shares with the bench computer. */
const NO_NODE_FILES = [
  ...["bench-client", "bench-events", "exchange"].map((name) => `src/app/${name}.ts`),
  ...["browser", "index", "job-lines", "keeper", "memory", "photographs"].map((name) => `src/store/${name}.ts`),
];

/** @returns why this import may not be, or undefined if it may */
export function refusal(file: string, { from, target, typeOnly }: Import): string | undefined {
  if (!from.startsWith(".")) return refusePackage(file, from);
  if (!target.startsWith("src/")) return "leaves src/";
  if (!/\.(ts|tsx|json|css)$/.test(target)) return "an import ends in the file's extension";
  const [mine = "", theirs = ""] = [folderOf(file), folderOf(target)];
  if (!(mine in OUTER_LAYERS)) return `src/${mine} has no layer yet: give it one in test/architecture/layers.ts`;
  if (mine === "core" && theirs === "core") return refuseInCore(file, target);
  if (mine === theirs) return undefined;
  if (mine === "data" && typeOnly && /^src\/core\/(quantity|verdict)\/index\.ts$/.test(target)) return undefined;
  if (!OUTER_LAYERS[mine]?.includes(theirs)) return `${mine} does not import ${theirs}`;
  return refuseByPath(target, theirs);
}

function refusePackage(file: string, from: string): string | undefined {
  if (from.startsWith("node:")) {
    const pure = NO_NODE_FILES.includes(file) || NO_NODE.some((folder) => file.startsWith(`${folder}/`));
    return pure ? "is pure: nothing of Node" : undefined;
  }
  const name = from
    .split("/")
    .slice(0, from.startsWith("@") ? 2 : 1)
    .join("/");
  const allowed = Object.entries(PACKAGES).some(
    ([folder, names]) => file.startsWith(`${folder}/`) && names.includes(name),
  );
  return allowed ? undefined : `${name} is not a package of this folder (docs/decisions/0003)`;
}

function refuseInCore(file: string, target: string): string | undefined {
  const [mine = "", theirs = ""] = [partOfCore(file), partOfCore(target)];
  if (mine === theirs) return undefined;
  const [myLayer, theirLayer] = [layerOf(mine), layerOf(theirs)];
  if (myLayer < 0) return `core/${mine} has no layer yet: give it one in test/architecture/layers.ts`;
  if (AREAS.includes(mine) && !BELOW_AREAS.includes(theirs)) return `area ${mine} does not import ${theirs}`;
  if (theirLayer >= myLayer) return `${mine} does not import ${theirs}: imports point down`;
  return theirs.endsWith(".ts") ? undefined : refuseByPath(target, "core");
}

/** Second way in: what only Node can do must not come along with the index into a page. */
const ALSO_OPEN = ["src/papers/font-node.ts", "src/store/browser.ts", "src/store/sqlite.ts", "src/store/postgres.ts"];

/** From outside, a folder is its index. */
function refuseByPath(target: string, folder: string): string | undefined {
  if (folder === "data" || ALSO_OPEN.includes(target) || /^src\/core\/(errors|checks)\.ts$/.test(target))
    return undefined;
  if (folder === "app" && !/^src\/app\/[^/]+\//.test(target)) return undefined;
  return target.endsWith("/index.ts") ? undefined : "other folders import the index only";
}

function folderOf(path: string): string | undefined {
  return path.split("/")[1];
}

/** "fit" of "src/core/fit/bushing.ts", "errors.ts" of "src/core/errors.ts". */
function partOfCore(path: string): string | undefined {
  return path.split("/")[2];
}

function layerOf(part: string): number {
  return CORE_LAYERS.findIndex((layer) => layer.includes(part));
}
