/**
 * A value that knows where it came from and how sure it is.
 *
 * Lengths are held in millimetres, other kinds in the unit of `BASE_UNIT`. Doubt is a list of independent error
 * terms: the value's standard uncertainty is the root of the sum of their squares (JCGM 100:2008, 5.1.2). Two values
 * that carry a term with the same `id` share that error (one rule, one placing, one scale line).
 */

/** What is measured. */
export type Kind =
  | "length"
  | "angle"
  | "cents"
  | "count"
  | "mass"
  | "mass per length"
  | "frequency"
  | "resistance"
  | "capacitance"
  | "inductance"
  | "force"
  | "hours"
  | "money"
  | "temperature"
  | "ratio";

/** The unit in which the core holds each kind. */
export const BASE_UNIT = {
  length: "mm",
  angle: "°",
  cents: "cents",
  count: "",
  mass: "g",
  "mass per length": "g/m",
  frequency: "Hz",
  resistance: "Ω",
  capacitance: "F",
  inductance: "H",
  force: "N",
  hours: "h",
  money: "cu",
  temperature: "°C",
  ratio: "",
} as const satisfies Record<Kind, string>;

export type Origin = "measured" | "data sheet" | "assumed";

/** One independent source of error. */
export interface DoubtTerm {
  /** Terms with one id are one error, shared by every value that carries it. */
  readonly id: string;
  /** Standard uncertainty, in the value's unit; a negative sign means that the shared error acts the other way. */
  readonly u: number;
  readonly shape: "normal" | "uniform" | "triangular";
  /** In words, e.g. "steel rule, one reading". */
  readonly what: string;
}

export interface Known {
  readonly known: true;
  /** Where in the job it stands, e.g. "body.holes.old-screws.u". */
  readonly path: string;
  readonly kind: Kind;
  /** In BASE_UNIT[kind]. */
  readonly value: number;
  readonly origin: Origin;
  readonly doubt: readonly DoubtTerm[];
  /** Measuring tool, if measured. */
  readonly tool?: string;
  /** As written by the owner, e.g. `25 1/2 in (tape)`. */
  readonly said: string;
}

/** Nobody has said yet. A question that needs it answers `measure`. */
export interface Unknown {
  readonly known: false;
  readonly path: string;
  readonly kind: Kind;
}

export type Quantity = Known | Unknown;

/** Standard uncertainty of a value: root of the sum of squares of its independent terms. */
export function standardUncertainty(value: Known): number {
  let sum = 0;
  for (const term of value.doubt) sum += term.u * term.u;
  return Math.sqrt(sum);
}

export function unknown(path: string, kind: Kind): Unknown {
  return { known: false, path, kind };
}

/** A value without doubt, for constants of a rule (clearances, washers) and for tests. */
export function exact(value: number, path: string, kind: Kind = "length", origin: Origin = "assumed"): Known {
  return { known: true, path, kind, value, origin, doubt: [], said: String(value) };
}
