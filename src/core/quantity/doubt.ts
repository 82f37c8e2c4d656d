/**
 * The error terms of one value, from how it was got.
 *
 * A stated ± comes first: a limit (u = a/√3), or with k said a multiple of the standard uncertainty (u = a/k). Then
 * the tool's reading. Then the usual tolerance of where the value came from; all figures of that table are common
 * practice without a source.
 */
import { rectangularU } from "./accuracy.ts";
import { readingU, type Tool } from "./tools.ts";
import type { DoubtTerm, Kind, Origin } from "./value.ts";

/** Limits ±: the larger of a fixed one in the base unit and a part of the value. */
interface Tolerance {
  readonly fixed: number;
  readonly relative: number;
}

/**
 * What a printed figure is usually good for. Resistance 5 % is also the band in which a pickup is accepted against its
 * leaflet; a frequency is a note's, and a tuner holds it to about a cent.
 */
const DATA_SHEET: Readonly<Record<Kind, Tolerance>> = {
  length: { fixed: 0.05, relative: 0 },
  angle: { fixed: 0.1, relative: 0 },
  cents: { fixed: 0.5, relative: 0 },
  count: { fixed: 0, relative: 0 },
  mass: { fixed: 0, relative: 0.02 },
  "mass per length": { fixed: 0, relative: 0.01 },
  frequency: { fixed: 0, relative: 0.0006 },
  resistance: { fixed: 0, relative: 0.05 },
  capacitance: { fixed: 0, relative: 0.05 },
  inductance: { fixed: 0, relative: 0.05 },
  force: { fixed: 0, relative: 0.02 },
  hours: { fixed: 0, relative: 0 },
  money: { fixed: 0, relative: 0 },
  temperature: { fixed: 1, relative: 0 },
  ratio: { fixed: 0, relative: 0.01 },
};

/** Standard uncertainty of an assumed value where the caller gives none, as a part of the value. */
const ASSUMED_U = 0.02;
/** Of a guess by eye. */
const GUESS_U = 0.05;
/** Kinds that nobody doubts because they are counted or agreed. */
const COUNTED: ReadonlySet<Kind> = new Set<Kind>(["count", "money", "hours"]);
/** Measured, but the tool is not named: as a steel rule, the coarsest tool in common use. */
const UNNAMED_TOOL_MM = 0.25;
/** The Celsius scale has no natural zero, so a part of the value would say nothing. */
const ASSUMED_TEMPERATURE_U = 2;

export interface Stated {
  /** Half width in the base unit, as written behind the ±. */
  readonly halfWidth: number;
  /** 2 if (k=2) is said; undefined: the ± is a limit. */
  readonly k: number | undefined;
}

export interface Got {
  readonly path: string;
  readonly kind: Kind;
  readonly value: number;
  readonly origin: Origin;
  readonly guessed: boolean;
  readonly stated: Stated | undefined;
  readonly tool: Tool | undefined;
  readonly placing: string | undefined;
  readonly assumedU: number | undefined;
}

/** The terms; none for an exact value. */
export function doubtOf(got: Got): DoubtTerm[] {
  const { path, tool, stated, origin } = got;
  if (tool) return toolTerms(got, tool);
  if (stated)
    return term(`${path}:stated`, statedU(stated), stated.k === undefined ? "uniform" : "normal", "as stated");
  if (origin === "assumed")
    return term(`${path}:assumed`, assumedU(got), "normal", got.guessed ? "a guess" : "assumed");
  if (origin === "measured") return term(`${path}:measured`, unnamedU(got), "normal", "measured, tool not named");
  return term(`${path}:data sheet`, dataSheetU(got.kind, got.value), "uniform", "usual tolerance of a data sheet");
}

function toolTerms({ path, value, stated, placing }: Got, tool: Tool): DoubtTerm[] {
  const u = stated ? statedU(stated) : readingU(tool, value);
  const shape = stated ? (stated.k === undefined ? "uniform" : "normal") : tool.shape;
  const share = placing === undefined ? 0 : tool.placingShare;
  // A limit holds for the whole error; its parts are only known by their size, so they are taken as normal.
  const partShape = share > 0 && share < 1 ? "normal" : shape;
  return [
    ...term(`placing:${placing}`, u * Math.sqrt(share), partShape, `${tool.name}, placing`),
    ...term(`${path}:${tool.name}`, u * Math.sqrt(1 - share), partShape, `${tool.name}, one reading`),
  ];
}

function term(id: string, u: number, shape: DoubtTerm["shape"], what: string): DoubtTerm[] {
  return u === 0 ? [] : [{ id, u, shape, what }];
}

function statedU({ halfWidth, k }: Stated): number {
  return k === undefined ? rectangularU(halfWidth) : halfWidth / k;
}

function dataSheetU(kind: Kind, value: number): number {
  const { fixed, relative } = DATA_SHEET[kind];
  return rectangularU(Math.max(fixed, relative * Math.abs(value)));
}

/** Never surer than the data sheet would be, so that an assumed 0 mm is not taken as exact. */
function assumedU({ kind, value, guessed, assumedU: given }: Got): number {
  if (given !== undefined) return given;
  if (COUNTED.has(kind)) return 0;
  if (kind === "temperature") return ASSUMED_TEMPERATURE_U;
  return Math.max((guessed ? GUESS_U : ASSUMED_U) * Math.abs(value), dataSheetU(kind, value));
}

function unnamedU(got: Got): number {
  return got.kind === "length" ? UNNAMED_TOOL_MM : assumedU({ ...got, assumedU: undefined });
}
