/**
 * What stands at a circuit's output for 1 V in each of its sources, at each frequency.
 *
 * One solution of the transposed equations gives all sources at once: string and hum, right and reversed, are then sums
 * of the same figures. Solutions are checked by their residual and, where that fails, all are solved with pivoting by
 * column.
 */
import { InputError } from "../errors.ts";
import { makeSmall } from "./branches.ts";
import { solveDenseTransposed } from "./dense.ts";
import {
  type Elimination,
  factor,
  findElimination,
  solveTransposed,
  type Workspace,
  workspaceFor,
} from "./elimination.ts";
import { groupsOf, isTwoTerminal, type Netlist, nodesOf } from "./netlist.ts";
import { type Equations, equationsOf } from "./stamps.ts";

/** Where pivots are chosen: in the middle of what is heard. */
const PIVOT_HZ = 1000;
/** One solution in so many is checked, the first among them; once one has failed, every one is. */
const CHECKED_EVERY = 4;
/** Of the sum of magnitudes in an equation; rounding alone leaves about 1e-15. */
const RESIDUAL = 1e-12;

export interface OutputSolver {
  /** Sources in the order of the netlist, with the emf that it gives them. */
  readonly sources: readonly { readonly name: string; readonly volts: number }[];
  /** Output for 1 V in each source. @param re one for each source @param im the same */
  at(frequencyHz: number, re: Float64Array, im: Float64Array): void;
}

/**
 * @param output the node whose voltage is wanted, against `reference` (ground unless given)
 * @throws InputError if the netlist is wrong, or has a source that is shorted without any resistance
 */
export function outputSolver(netlist: Netlist, output: string, reference = netlist.ground): OutputSolver {
  const small = makeSmall(netlist, [output, reference]);
  const equations = equationsOf(small);
  const sources = netlist.elements.filter((element) => element.kind === "source");
  const place = new Map(equations.sources.map((source) => [source.name, source]));
  const wanted = [small.nodeOf(output), small.nodeOf(reference)].map((node) => equations.unknownOf.get(node) ?? -1);
  const floating = small.tied.length > 0 && apart(netlist, output, reference);
  const elimination = findElimination(equations, 2 * Math.PI * PIVOT_HZ);
  if (!elimination)
    throw new InputError(
      "circuit",
      "has no solution: a source is shorted without any resistance in the way",
      "Give each coil its resistance",
    );
  const work = workspaceFor(elimination);
  const rows = sources.map(({ name }) => place.get(name));
  const watch = { solved: 0, every: CHECKED_EVERY };
  return {
    sources: sources.map(({ name, volts }) => ({ name, volts })),
    at(frequencyHz, re, im) {
      re.fill(0);
      im.fill(0);
      const [plus = -1, minus = -1] = wanted;
      if (floating || plus === minus) return;
      solveAt({ equations, elimination, work, watch }, 2 * Math.PI * frequencyHz, plus, minus);
      rows.forEach((row, index) => {
        if (!row) return;
        re[index] = row.factor * (work.xr[row.row] as number);
        im[index] = row.factor * (work.xi[row.row] as number);
      });
    },
  };
}

/** Output and reference on islands that nothing joins: no voltage between them is defined, nothing is heard. */
function apart(netlist: Netlist, output: string, reference: string): boolean {
  const islandOf = groupsOf(
    nodesOf(netlist),
    netlist.elements.filter(isTwoTerminal).map(({ a, b }) => [a, b] as const),
  );
  return islandOf(output) !== islandOf(reference);
}

interface Solving {
  readonly equations: Equations;
  readonly elimination: Elimination;
  readonly work: Workspace;
  readonly watch: { solved: number; every: number };
}

function solveAt({ equations, elimination, work, watch }: Solving, omega: number, plus: number, minus: number): void {
  const { constant, slope } = equations;
  const entries = constant.length;
  const { re, im, xr, xi } = work;
  for (let index = 0; index < entries; index += 1) {
    re[index] = constant[index] as number;
    im[index] = (slope[index] as number) * omega;
  }
  re.fill(0, entries);
  im.fill(0, entries);
  factor(elimination, work);
  xr.fill(0);
  xi.fill(0);
  if (plus >= 0) xr[plus] = 1;
  if (minus >= 0) xr[minus] = -1;
  solveTransposed(elimination, work);
  const look = watch.solved % watch.every === 0;
  watch.solved += 1;
  if (!look || holds(equations, work, omega, plus, minus)) return;
  watch.every = 1;
  solveDenseTransposed(equations, work, omega, plus, minus);
}

/** Whether Aᵀ z = d to rounding, equation by equation. */
function holds(equations: Equations, work: Workspace, omega: number, plus: number, minus: number): boolean {
  const { size, rows, columns, constant, slope } = equations;
  const { residual: r } = work;
  r.fill(0);
  const { xr, xi } = work;
  for (let index = 0; index < rows.length; index += 1) {
    const row = rows[index] as number;
    const column = columns[index] as number;
    const g = constant[index] as number;
    const b = (slope[index] as number) * omega;
    const zr = xr[row] as number;
    const zi = xi[row] as number;
    const pr = g * zr - b * zi;
    const pi = g * zi + b * zr;
    r[3 * column] = (r[3 * column] as number) + pr;
    r[3 * column + 1] = (r[3 * column + 1] as number) + pi;
    r[3 * column + 2] = (r[3 * column + 2] as number) + Math.abs(pr) + Math.abs(pi);
  }
  for (let column = 0; column < size; column += 1) {
    const wanted = column === plus ? 1 : column === minus ? -1 : 0;
    const off = Math.abs((r[3 * column] as number) - wanted) + Math.abs(r[3 * column + 1] as number);
    if (!(off <= RESIDUAL * ((r[3 * column + 2] as number) + Math.abs(wanted)))) return false;
  }
  return true;
}

export interface Sweep {
  readonly frequenciesHz: readonly number[];
  /** Output in volts, one for each frequency. */
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Output of all sources together, each with the emf given (that of the netlist unless given). */
export function sweep(
  netlist: Netlist,
  output: string,
  frequenciesHz: readonly number[],
  volts?: ReadonlyMap<string, number>,
): Sweep {
  const solver = outputSolver(netlist, output);
  const factors = solver.sources.map((source) => volts?.get(source.name) ?? (volts ? 0 : source.volts));
  const tr = new Float64Array(factors.length);
  const ti = new Float64Array(factors.length);
  const re = new Float64Array(frequenciesHz.length);
  const im = new Float64Array(frequenciesHz.length);
  frequenciesHz.forEach((frequencyHz, point) => {
    solver.at(frequencyHz, tr, ti);
    let sr = 0;
    let si = 0;
    factors.forEach((emf, index) => {
      sr += emf * (tr[index] as number);
      si += emf * (ti[index] as number);
    });
    re[point] = sr;
    im[point] = si;
  });
  return { frequenciesHz, re, im };
}
