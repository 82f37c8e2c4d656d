/**
 * From plain data (a YAML or JSON document already read) to a checked job file.
 *
 * Every refusal names the path, the value seen and the remedy. A section that a newer program wrote is kept as it
 * is, listed, and left out of the sums; older sections are brought up to date one version at a time.
 */
import type { z } from "zod";
import { InputError } from "../errors.ts";
import { type JobFile, jobFileSchema, SECTIONS, type SectionName, VERSIONS } from "./schema.ts";
import { SECTION_UPGRADES, type Upgrades } from "./upgrades.ts";

export interface KeptSection {
  readonly name: string;
  readonly version: number;
  readonly data: unknown;
  readonly why: string;
}

export interface ParsedJob {
  readonly file: JobFile;
  /** Sections of a newer version or of an area this program does not know: shown read-only, written back unchanged. */
  readonly kept: readonly KeptSection[];
}

const MAX_DEPTH = 24;

/**
 * Checks a job document.
 *
 * @param data plain data; the caller has bounded its size and its aliases
 * @throws InputError naming the path of the first value that is wrong
 */
export function parseJob(data: unknown, upgrades: Upgrades = SECTION_UPGRADES): ParsedJob {
  if (!isRecord(data)) {
    throw new InputError(
      "job file",
      `must be a mapping of sections, got ${describe(data)}`,
      "Start the file with `fettle: {instrument: 1}` and an `instrument:` section",
    );
  }
  refuseDepth(data, "job file", 0);
  const versions = readVersions(data);
  const kept: KeptSection[] = [];
  const present: Record<string, unknown> = {};
  const written: Record<string, number> = {};
  for (const [name, section] of Object.entries(data)) {
    if (name === "fettle") continue;
    const known = Object.hasOwn(VERSIONS, name);
    const version = versions[name];
    if (!known && version === undefined) {
      throw new InputError(
        name,
        "is not a section of a job file",
        `Use one of ${Object.keys(VERSIONS).join(", ")}, or give its version under fettle:`,
      );
    }
    const current = known ? VERSIONS[name as SectionName] : 0;
    const stated = version ?? current;
    if (!known || stated > current) {
      const why = known
        ? `version ${stated}; this program reads up to ${current}`
        : "an area that this program does not know";
      kept.push({ name, version: stated, data: section, why });
      continue;
    }
    present[name] = upgradeSection(name as SectionName, section, stated, current, upgrades);
    written[name] = current;
  }
  if (present.instrument === undefined) {
    const newer = kept.some((section) => section.name === "instrument");
    throw new InputError(
      "instrument",
      newer ? "was written by a newer program" : "is missing",
      newer ? "Open the file with that program" : "Say at least `kind: guitar` and `strings: 6`",
    );
  }
  const result = jobFileSchema.safeParse({ fettle: written, ...present });
  if (!result.success) throw asInputError(result.error, { fettle: written, ...present });
  return { file: result.data, kept };
}

function readVersions(data: Record<string, unknown>): Record<string, number> {
  const stated = data.fettle;
  if (stated === undefined)
    throw new InputError(
      "fettle",
      "is missing",
      "Start the file with the versions of its sections, e.g. `fettle: {job: 1, instrument: 1}`",
    );
  if (!isRecord(stated))
    throw new InputError(
      "fettle",
      `must list a version for each section, got ${describe(stated)}`,
      "Write e.g. `fettle: {job: 1, instrument: 1}`",
    );
  const versions: Record<string, number> = {};
  for (const [name, version] of Object.entries(stated)) {
    if (typeof version !== "number" || !Number.isInteger(version) || version < 1) {
      throw new InputError(
        `fettle.${name}`,
        `must be a whole number from 1, got ${describe(version)}`,
        "Write the version the section was made with",
      );
    }
    versions[name] = version;
  }
  return versions;
}

function upgradeSection(name: SectionName, section: unknown, from: number, to: number, upgrades: Upgrades): unknown {
  let data = section;
  for (let version = from; version < to; version += 1) {
    const step = upgrades[name]?.[version];
    if (!step)
      throw new InputError(
        `fettle.${name}`,
        `version ${version} cannot be brought up to ${to}`,
        "Open the file with the program that wrote it and save it again",
      );
    data = step(data);
  }
  return data;
}

function refuseDepth(value: unknown, path: string, depth: number): void {
  if (depth > MAX_DEPTH)
    throw new InputError(
      path,
      `is nested more than ${MAX_DEPTH} deep`,
      "A job file is flat: take the extra levels out",
    );
  if (Array.isArray(value))
    for (const [index, item] of value.entries()) refuseDepth(item, `${path}[${index}]`, depth + 1);
  else if (isRecord(value))
    for (const [key, item] of Object.entries(value)) refuseDepth(item, depth === 0 ? key : `${path}.${key}`, depth + 1);
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** A value as it is quoted in a message. */
function describe(value: unknown): string {
  if (value === null || value === undefined) return "nothing";
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === "object") return "a mapping";
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}

function pathText(path: readonly PropertyKey[]): string {
  return (
    path.reduce<string>(
      (text, key) =>
        typeof key === "number" ? `${text}[${key}]` : text === "" ? String(key) : `${text}.${String(key)}`,
      "",
    ) || "job file"
  );
}

function valueAt(data: unknown, path: readonly PropertyKey[]): unknown {
  let value = data;
  for (const key of path) {
    if (typeof value !== "object" || value === null) return undefined;
    value = (value as Record<PropertyKey, unknown>)[key];
  }
  return value;
}

/** The deepest branch of a union is the one the owner meant. */
function asInputError(error: z.ZodError, data: unknown): InputError {
  const issue = deepest(error.issues as unknown as Issue[]);
  const where = pathText(issue.path);
  const seen = valueAt(data, issue.path);
  if (issue.code === "unrecognized_keys") {
    const key = issue.keys?.[0] ?? "?";
    return new InputError(
      where === "job file" ? key : `${where}.${key}`,
      `is not a key that is known here (value ${describe((seen as Record<string, unknown> | undefined)?.[key])})`,
      "Check its spelling against `fettle schema`, or delete it",
    );
  }
  if (seen === undefined) return new InputError(where, "is missing", `Add it: ${plain(issue.message)}`);
  return new InputError(where, `cannot be ${describe(seen)}`, plain(issue.message));
}

interface Issue {
  readonly code: string;
  readonly path: PropertyKey[];
  readonly message: string;
  readonly keys?: string[];
  readonly errors?: Issue[][];
}

function deepest(issues: readonly Issue[]): Issue {
  let best: Issue = issues[0] ?? { code: "custom", path: [], message: "is not a job file" };
  for (const issue of issues) {
    let candidate = issue;
    if (issue.code === "invalid_union" && issue.errors && issue.errors.length > 0) {
      const inner = issue.errors.filter((branch) => branch.length > 0).map((branch) => deepest(branch));
      const deep = inner.reduce((a, b) => (b.path.length > a.path.length ? b : a), inner[0] ?? issue);
      if (deep.path.length > 0 || deep.code === "unrecognized_keys")
        candidate = { ...deep, path: [...issue.path, ...deep.path] };
    }
    if (candidate.path.length > best.path.length || best.code === "invalid_union") best = candidate;
  }
  return best;
}

function plain(message: string): string {
  return (
    message.replace(/^Invalid (input|option|key)[^:]*: ?/, "").replace(/\.$/, "") ||
    "Give a value of the kind the schema asks for"
  );
}

/** Writes a job back as plain data in the fixed order of sections and keys; kept sections stand last, unchanged. */
export function jobToData(parsed: ParsedJob): Record<string, unknown> {
  const versions: Record<string, number> = {};
  const out: Record<string, unknown> = { fettle: versions };
  for (const name of Object.keys(SECTIONS) as SectionName[]) {
    const section = parsed.file[name];
    if (section === undefined) continue;
    versions[name] = VERSIONS[name];
    out[name] = inSchemaOrder(SECTIONS[name], section);
  }
  for (const section of [...parsed.kept].sort((a, b) => (a.name < b.name ? -1 : 1))) {
    versions[section.name] = section.version;
    out[section.name] = section.data;
  }
  return out;
}

/** Keys in the order of the schema; ids of a record keep the order in which they were entered. */
function inSchemaOrder(schema: z.ZodType, value: unknown): unknown {
  const parsed = schema.safeParse(value);
  return parsed.success ? parsed.data : value;
}
