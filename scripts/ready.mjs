/**
 * Makes a working copy ready to run: packages installed, TypeScript built. Only Node's own modules are used, because
 * this runs before anything is installed. Both checks are cheap when there is nothing to do.
 */
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

export const ROOT = dirname(dirname(fileURLToPath(import.meta.url)));

const LOCK = join(ROOT, "package-lock.json");
const MODULES = join(ROOT, "node_modules");
const INSTALL_STAMP = join(MODULES, ".fettle-installed");
const DIST = join(ROOT, "dist");
const BUILD_STAMP = ".built-from";
const BUILD_LOCK = join(MODULES, ".fettle-building");
const BUILD_INPUTS = ["tsconfig.base.json", "tsconfig.json", "scripts/build-page.mjs"];

/** A step that failed; its own messages have been printed already. */
export class StepFailed extends Error {
  constructor(what, exitCode) {
    super(what);
    this.exitCode = exitCode || 1;
  }
}

/** Says one line on stderr, so that what a command prints on stdout stays clean. */
export function tell(line) {
  process.stderr.write(`fettle: ${line}\n`);
}

/** Installs packages and builds when either is missing or out of date. */
export function makeReady() {
  ensureInstalled();
  ensureBuilt();
}

/** Runs `npm ci` unless the packages of this lock file are in place. */
export function ensureInstalled() {
  const wanted = installKey();
  if (readText(INSTALL_STAMP) === wanted) return;
  if (!npmInstalledSince(LOCK)) {
    tell("installing packages (npm ci), once; this can take a minute …");
    runNpm(["ci"]);
  }
  writeFileSync(INSTALL_STAMP, wanted);
}

/** Builds src/ to dist/ unless dist/ was built from exactly these files. */
export function ensureBuilt() {
  const wanted = sourceFingerprint();
  if (isBuiltFrom(wanted)) return;
  withBuildLock(() => {
    if (isBuiltFrom(wanted)) return;
    tell(existsSync(DIST) ? "sources changed, building again …" : "building …");
    const fresh = join(MODULES, `.fettle-build-${process.pid}`);
    try {
      run(process.execPath, [moduleFile("typescript/bin/tsc"), "-p", "tsconfig.json", "--outDir", fresh]);
      // What the builder of the page says goes to stderr, as everything here does.
      run(process.execPath, [join(ROOT, "scripts", "build-page.mjs"), join(fresh, "web")], { stdio: ["ignore", 2, 2] });
      writeFileSync(join(fresh, BUILD_STAMP), wanted);
      rmSync(DIST, { recursive: true, force: true, maxRetries: 5 });
      renameSync(fresh, DIST);
    } finally {
      rmSync(fresh, { recursive: true, force: true });
    }
  });
}

/** Path of a file inside an installed package. */
export function moduleFile(path) {
  return join(MODULES, ...path.split("/"));
}

/**
 * Runs a program with this terminal.
 *
 * @returns what it printed, if its stdout was asked for by `stdio`
 * @throws StepFailed unless it ends with 0, or another code that it may end with
 */
export function run(program, args, { mayEndWith = [0], ...options } = {}) {
  const result = spawnSync(program, args, { cwd: ROOT, stdio: "inherit", ...options });
  if (result.error) throw new StepFailed(`could not start ${program}: ${result.error.message}`, 1);
  if (!mayEndWith.includes(result.status)) {
    const command = [basename(program), ...args].join(" ").replaceAll(join(ROOT, "/"), "");
    throw new StepFailed(`${command} ended with exit code ${result.status}`, result.status);
  }
  return result.stdout?.toString() ?? "";
}

/** What npm itself prints goes to stderr: stdout belongs to the command that the person asked for. */
function runNpm(args) {
  const options = { stdio: ["inherit", 2, 2] };
  const npm = process.env.npm_execpath;
  if (npm && /npm-cli\.c?js$/.test(npm)) return run(process.execPath, [npm, ...args], options);
  // On Windows npm is a .cmd file, which only a shell can start; the arguments are fixed words.
  if (process.platform === "win32") return run(`npm.cmd ${args.join(" ")}`, [], { ...options, shell: true });
  return run("npm", args, options);
}

/** Packages hold native programs, so a copied folder of another system or processor does not count. */
function installKey() {
  const lock = createHash("sha256").update(readFileSync(LOCK)).digest("hex").slice(0, 32);
  return `${lock} ${process.platform} ${process.arch}\n`;
}

/** npm writes its own record at the end of an installation. */
function npmInstalledSince(file) {
  if (existsSync(INSTALL_STAMP)) return false;
  const record = statSync(join(MODULES, ".package-lock.json"), { throwIfNoEntry: false });
  return record !== undefined && record.mtimeMs >= statSync(file).mtimeMs;
}

/** Names, sizes and times of all inputs of the build: a few milliseconds for some hundred files. */
function sourceFingerprint() {
  const hash = createHash("sha256").update(process.platform);
  for (const file of BUILD_INPUTS) addFile(hash, join(ROOT, file), file);
  addFolder(hash, join(ROOT, "src"), "src");
  return `${hash.digest("hex").slice(0, 32)}\n`;
}

function addFolder(hash, folder, name) {
  const entries = readdirSync(folder, { withFileTypes: true });
  entries.sort((a, b) => (a.name < b.name ? -1 : 1));
  for (const entry of entries) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) addFolder(hash, path, `${name}/${entry.name}`);
    else addFile(hash, path, `${name}/${entry.name}`);
  }
}

function addFile(hash, path, name) {
  const { mtimeMs, size } = statSync(path);
  hash.update(`${name} ${size} ${mtimeMs}\n`);
}

function isBuiltFrom(fingerprint) {
  return readText(join(DIST, BUILD_STAMP)) === fingerprint;
}

/** One build at a time: a second process waits for the first instead of pulling dist/ away under it. */
function withBuildLock(build) {
  for (;;) {
    try {
      writeFileSync(BUILD_LOCK, String(process.pid), { flag: "wx" });
      break;
    } catch (error) {
      if (error.code !== "EEXIST") throw error;
      waitForLock();
    }
  }
  try {
    build();
  } finally {
    rmSync(BUILD_LOCK, { force: true });
  }
}

/** Waits a moment; a lock whose owner was killed is taken away. */
function waitForLock() {
  const owner = Number(readText(BUILD_LOCK));
  if (owner > 0 && !isRunning(owner)) rmSync(BUILD_LOCK, { force: true });
  else Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 50);
}

function isRunning(pid) {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error.code === "EPERM";
  }
}

function readText(path) {
  try {
    return readFileSync(path, "utf8");
  } catch {
    return undefined;
  }
}
