/** Typed access to the reference cases of this folder. */
import cases from "./cases.json" with { type: "json" };

export interface ReferenceCase {
  readonly id: string;
  readonly expected: Readonly<Record<string, unknown>>;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly tolerance: number | null;
  readonly source: string;
  readonly read: string;
}

export function referenceCase(id: string): ReferenceCase {
  const found = (cases as readonly ReferenceCase[]).find((one) => one.id === id);
  if (found === undefined) throw new Error(`no reference case ${id}`);
  return found;
}

/** A number of the case, from its inputs or its expected values. */
export function numberOf(one: ReferenceCase, key: string): number {
  const value = one.expected[key] ?? one.inputs[key];
  if (typeof value !== "number") throw new Error(`${one.id} has no number ${key}`);
  return value;
}
