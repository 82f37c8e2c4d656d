/** A reading as the log keeps it, from what a person typed. */

import { type Change, type Fold, itemAtEnd, type Json } from "../../core/log/index.ts";

/** `44.5` with the calliper in hand becomes `44.5 mm (calliper)`; what says more is kept as it was written. */
export function readingText(typed: string, tool: string, unit: string): string {
  const text = typed.trim();
  const bare = /^[-+]?[\d\s.,/½¼¾⅛⅜⅝⅞-]+$/.test(text);
  const withUnit = bare && unit !== "" ? `${text} ${unit}` : text;
  return tool === "" || /\(.*\)/.test(withUnit) ? withUnit : `${withUnit} (${tool})`;
}

/** The changes that add a reading at the end of the list. */
export function addReading(
  fold: Fold,
  reading: {
    readonly of: string;
    readonly value: string;
    readonly at: string;
    readonly placing?: string;
    readonly after?: string;
  },
): Change[] {
  const data = fold.read().data;
  const count = Array.isArray(data.readings) ? data.readings.length : 0;
  // Two devices may both write the next number: the last letters tell them apart.
  const id = `reading-${count + 1}-${randomLetters(3)}`;
  return [...versionOf(data, "readings"), ...itemAtEnd(fold, ["readings"], { id, ...reading })];
}

/** A section that is written for the first time states its version. */
export function versionOf(data: Readonly<Record<string, Json>>, section: string): Change[] {
  const versions = (data.fettle ?? {}) as Readonly<Record<string, Json>>;
  return versions[section] === undefined ? [{ path: `/fettle/${section}`, value: 1 }] : [];
}

export function randomLetters(count: number): string {
  const bytes = crypto.getRandomValues(new Uint8Array(count));
  return [...bytes].map((byte) => (byte % 36).toString(36)).join("");
}
