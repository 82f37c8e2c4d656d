import { readFileSync } from "node:fs";

/** One case of test/reference/circuit/electrics-cases.json. Sources are named there, case by case. */
export interface Case {
  readonly id: string;
  readonly topic: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly expected: Readonly<Record<string, unknown>>;
  readonly tolerance: Readonly<Record<string, number | boolean>>;
  readonly source: string;
  readonly read: boolean;
}

export const CASES: readonly Case[] = JSON.parse(
  readFileSync(new URL("../../reference/circuit/electrics-cases.json", import.meta.url), "utf8"),
);

export function casesNamed(beginning: string): readonly Case[] {
  const found = CASES.filter(({ id }) => id.startsWith(beginning));
  if (found.length === 0) throw new Error(`no case begins with "${beginning}"`);
  return found;
}

export function caseNamed(id: string): Case {
  const found = CASES.find((one) => one.id === id);
  if (!found) throw new Error(`no case "${id}"`);
  return found;
}

export function num(value: unknown): number {
  if (typeof value !== "number") throw new Error(`expected a number in the case, got ${String(value)}`);
  return value;
}

/** How far apart two numbers are, against the second. */
export function relative(actual: number, expected: number): number {
  return Math.abs(actual / expected - 1);
}
