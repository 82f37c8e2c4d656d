/** Entries that come from elsewhere (another device, a file) are checked before they are kept. */
import { InputError } from "../errors.ts";
import type { Json, LogEntry } from "./types.ts";

const DEVICE = /^[a-z0-9]{4,24}$/;
const ENTRY_ID = /^[a-z0-9]{4,24}\.[0-9a-z]{8}$/;
const JOB_ID = /^[A-Za-z0-9][A-Za-z0-9_-]{0,59}$/;
const TIME = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/;

export const MOST_PATH = 600;
const MOST_WORDS = 300;
export const MOST_VALUE = 200_000;
const MOST_OVER = 20_000;
const DEEPEST = 24;

/** @throws InputError naming the field of the first thing that is wrong */
export function checkedEntry(given: unknown, where: string): LogEntry {
  const remedy = "Send the entry as it was written, or leave it out";
  const refuse = (field: string, problem: string): never => {
    throw new InputError(`${where}.${field}`, problem, remedy);
  };
  if (!isMapping(given)) return refuse("entry", "is not a mapping");
  const text = (field: string, form: RegExp): string => {
    const value = given[field];
    return typeof value === "string" && form.test(value) ? value : refuse(field, "does not have its form");
  };
  const id = text("id", ENTRY_ID);
  const device = text("device", DEVICE);
  if (!id.startsWith(`${device}.`)) refuse("id", "is not of its device");
  const at = text("at", TIME);
  if (Number.isNaN(timeOf(at))) refuse("at", "is not a time");
  const { path, over, words } = given;
  if (typeof path !== "string" || !path.startsWith("/") || path.length > MOST_PATH)
    return refuse("path", "is not a path");
  if (path.split("/").length - 1 > DEEPEST) refuse("path", `is more than ${DEEPEST} deep`);
  if (
    !Array.isArray(over) ||
    over.length > MOST_OVER ||
    over.some((one) => typeof one !== "string" || !ENTRY_ID.test(one))
  )
    return refuse("over", "is not a list of entries");
  if (words !== undefined && (typeof words !== "string" || words.length > MOST_WORDS))
    return refuse("words", "are too long");
  if (given.undoes !== undefined) text("undoes", ENTRY_ID);
  if (given.value !== undefined) {
    refuseDepth(given.value, 0, () => refuse("value", `is nested more than ${DEEPEST} deep`));
    if (JSON.stringify(given.value).length > MOST_VALUE) refuse("value", `is longer than ${MOST_VALUE} letters`);
  }
  const known = ["id", "job", "device", "at", "act", "path", "value", "over", "words", "undoes"];
  const odd = Object.keys(given).find((key) => !known.includes(key));
  if (odd !== undefined) refuse(odd.slice(0, 40), "is not a field of an entry");
  return {
    id,
    job: text("job", JOB_ID),
    device,
    at,
    act: text("act", ENTRY_ID),
    path,
    ...(given.value === undefined ? {} : { value: given.value as Json }),
    over: over as string[],
    ...(words === undefined ? {} : { words: words as string }),
    ...(given.undoes === undefined ? {} : { undoes: given.undoes as string }),
  };
}

function isMapping(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** Milliseconds since 1970, by the calendar alone. */
function timeOf(at: string): number {
  const [year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0] = at.split(/[-T:.Z]/).map(Number);
  if (month < 1 || month > 12 || day < 1 || day > 31 || hour > 23 || minute > 59 || second > 60) return Number.NaN;
  return Date.UTC(year, month - 1, day, hour, minute, second);
}

function refuseDepth(value: unknown, depth: number, refuse: () => never): void {
  if (depth > DEEPEST) refuse();
  if (typeof value !== "object" || value === null) return;
  for (const inner of Object.values(value)) refuseDepth(inner, depth + 1, refuse);
}

export function isJobId(text: string): boolean {
  return JOB_ID.test(text);
}
