/** Two states of a document, value by value, in words. */
import { type Json, keysOf, leavesOf, plainKey, RANK, sameJson } from "../../core/log/index.ts";

export interface Difference {
  readonly keys: readonly string[];
  readonly before: Json | undefined;
  readonly after: Json | undefined;
}

export function differences(before: Json, after: Json): Difference[] {
  const [then, now] = [leavesOf(before), leavesOf(after)];
  return [...new Set([...then.keys(), ...now.keys()])].flatMap((path) => {
    if (path.endsWith(`/${RANK}`) || sameJson(then.get(path), now.get(path))) return [];
    return [{ keys: keysOf(path), before: then.get(path), after: now.get(path) }];
  });
}

/** `instrument`, `neck`, `nutToHeelEnd`: "instrument, neck, nut to heel end". */
export function pathInWords(keys: readonly string[]): string {
  return keys
    .map((key) =>
      plainKey(key)
        .replace(/^#/, "")
        .replace(/([a-z])([A-Z0-9])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`),
    )
    .join(", ");
}

const LONGEST = 60;

export function shortValue(value: Json | undefined): string {
  if (value === undefined) return "taken away";
  const text = typeof value === "string" ? value : JSON.stringify(value);
  return text.length > LONGEST ? `${text.slice(0, LONGEST - 1)}…` : text;
}
