/**
 * Sparse LU of complex equations A(s) = G + s B, its order of elimination found once for a topology and run for each
 * frequency without an allocation.
 *
 * Pivots are chosen after Markowitz (fewest fill-ins) among entries within a factor of the largest of their column, on
 * the equilibrated matrix at one frequency (from memory of the textbooks; the residual of every solution is checked).
 */
import type { Equations } from "./stamps.ts";

/** Entries smaller than this part of their column's largest are no pivots. */
const THRESHOLD = 0.05;
const EQUILIBRATE_ROUNDS = 4;

export interface Elimination {
  readonly size: number;
  /** Stored places, fill-ins included; the first ones are the entries of the equations, in their order. */
  readonly places: number;
  /**
   * For each pivot: its place, number of rows below, number of columns beyond; then the rows' (place, row), the
   * columns' (place, column), and for each row and column the place that is updated.
   */
  readonly program: Int32Array;
  /** Where each pivot's part of the program begins. */
  readonly starts: Int32Array;
  readonly pivotRow: Int32Array;
  readonly pivotColumn: Int32Array;
}

/** @returns undefined if the equations have no solution at any frequency (a source without resistance, shorted) */
export function findElimination(equations: Equations, omega: number): Elimination | undefined {
  const { size } = equations;
  const matrix = equilibrated(equations, omega);
  const { re, im } = matrix;
  const placeOf = new Int32Array(size * size).fill(-1);
  equations.rows.forEach((row, index) => {
    placeOf[row * size + (equations.columns[index] as number)] = index;
  });
  let places = equations.rows.length;
  const freeRows = Array.from({ length: size }, (_, index) => index);
  const freeColumns = [...freeRows];
  const program: number[] = [];
  const starts = new Int32Array(size);
  const pivotRow = new Int32Array(size);
  const pivotColumn = new Int32Array(size);
  for (let step = 0; step < size; step += 1) {
    const pivot = choosePivot(matrix, placeOf, freeRows, freeColumns);
    if (!pivot) return undefined;
    const { row, column } = pivot;
    freeRows.splice(freeRows.indexOf(row), 1);
    freeColumns.splice(freeColumns.indexOf(column), 1);
    pivotRow[step] = row;
    pivotColumn[step] = column;
    const below = freeRows.filter((other) => placeOf[other * size + column] !== -1);
    const beyond = freeColumns.filter((other) => placeOf[row * size + other] !== -1);
    starts[step] = program.length;
    program.push(placeOf[row * size + column] as number, below.length, beyond.length);
    for (const other of below) program.push(placeOf[other * size + column] as number, other);
    for (const other of beyond) program.push(placeOf[row * size + other] as number, other);
    const at = row * size + column;
    const [pr, pi] = [re[at] as number, im[at] as number];
    const norm = pr * pr + pi * pi;
    for (const i of below) {
      const li = i * size + column;
      const [ar, ai] = [re[li] as number, im[li] as number];
      const [lr, lm] = [(ar * pr + ai * pi) / norm, (ai * pr - ar * pi) / norm];
      for (const j of beyond) {
        const target = i * size + j;
        if (placeOf[target] === -1) {
          placeOf[target] = places;
          places += 1;
        }
        program.push(placeOf[target] as number);
        const [ur, ui] = [re[row * size + j] as number, im[row * size + j] as number];
        re[target] = (re[target] as number) - (lr * ur - lm * ui);
        im[target] = (im[target] as number) - (lr * ui + lm * ur);
      }
    }
  }
  return { size, places, program: Int32Array.from(program), starts, pivotRow, pivotColumn };
}

interface Dense {
  readonly size: number;
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Rows and columns scaled until the largest of each is near 1 (Ruiz): else ohms and siemens cannot be compared. */
function equilibrated(equations: Equations, omega: number): Dense {
  const { size, rows, columns, constant, slope } = equations;
  const re = new Float64Array(size * size);
  const im = new Float64Array(size * size);
  rows.forEach((row, index) => {
    const at = row * size + (columns[index] as number);
    re[at] = constant[index] as number;
    im[at] = (slope[index] as number) * omega;
  });
  const rowMost = new Float64Array(size);
  const columnMost = new Float64Array(size);
  const entries = Array.from(rows, (row, index) => row * size + (columns[index] as number));
  for (let round = 0; round < EQUILIBRATE_ROUNDS; round += 1) {
    rowMost.fill(0);
    columnMost.fill(0);
    entries.forEach((at, index) => {
      const magnitude = Math.abs(re[at] as number) + Math.abs(im[at] as number);
      const [row, column] = [rows[index] as number, columns[index] as number];
      if (magnitude > (rowMost[row] as number)) rowMost[row] = magnitude;
      if (magnitude > (columnMost[column] as number)) columnMost[column] = magnitude;
    });
    entries.forEach((at, index) => {
      const scale = Math.sqrt(
        (rowMost[rows[index] as number] as number) * (columnMost[columns[index] as number] as number),
      );
      if (scale === 0) return;
      re[at] = (re[at] as number) / scale;
      im[at] = (im[at] as number) / scale;
    });
  }
  return { size, re, im };
}

function choosePivot(
  { size, re, im }: Dense,
  placeOf: Int32Array,
  freeRows: readonly number[],
  freeColumns: readonly number[],
): { row: number; column: number } | undefined {
  const inRow = new Int32Array(size);
  for (const row of freeRows)
    for (const column of freeColumns) if (placeOf[row * size + column] !== -1) inRow[row] = (inRow[row] as number) + 1;
  let [bestRow, bestColumn, bestSize] = [-1, -1, 0];
  let bestCost = Number.POSITIVE_INFINITY;
  for (const column of freeColumns) {
    let [held, most] = [0, 0];
    for (const row of freeRows) {
      const at = row * size + column;
      if (placeOf[at] === -1) continue;
      held += 1;
      most = Math.max(most, Math.abs(re[at] as number) + Math.abs(im[at] as number));
    }
    for (const row of freeRows) {
      const at = row * size + column;
      if (placeOf[at] === -1) continue;
      const magnitude = Math.abs(re[at] as number) + Math.abs(im[at] as number);
      if (magnitude === 0 || magnitude < THRESHOLD * most) continue;
      const cost = ((inRow[row] as number) - 1) * (held - 1);
      if (cost > bestCost || (cost === bestCost && magnitude <= bestSize)) continue;
      [bestRow, bestColumn, bestCost, bestSize] = [row, column, cost, magnitude];
    }
  }
  return bestRow < 0 ? undefined : { row: bestRow, column: bestColumn };
}

/** Scratch of one run: values of all places, one vector, and three figures an equation for its check. */
export interface Workspace {
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly xr: Float64Array;
  readonly xi: Float64Array;
  /** Between the two halves of a solution, by pivots. */
  readonly wr: Float64Array;
  readonly wi: Float64Array;
  readonly residual: Float64Array;
}

export function workspaceFor({ places, size }: Elimination): Workspace {
  return {
    re: new Float64Array(places),
    im: new Float64Array(places),
    xr: new Float64Array(size),
    xi: new Float64Array(size),
    wr: new Float64Array(size),
    wi: new Float64Array(size),
    residual: new Float64Array(3 * size),
  };
}

/** Factors A(jω) in the workspace: multipliers below the pivots, reciprocal pivots in their own places. */
export function factor({ program, size }: Elimination, { re, im }: Workspace): void {
  let at = 0;
  for (let step = 0; step < size; step += 1) {
    const pivot = program[at] as number;
    const below = program[at + 1] as number;
    const beyond = program[at + 2] as number;
    const pr = re[pivot] as number;
    const pi = im[pivot] as number;
    const norm = pr * pr + pi * pi;
    const rr = pr / norm;
    const ri = -pi / norm;
    re[pivot] = rr;
    im[pivot] = ri;
    const rowsAt = at + 3;
    const columnsAt = rowsAt + 2 * below;
    let target = columnsAt + 2 * beyond;
    for (let i = 0; i < below; i += 1) {
      const place = program[rowsAt + 2 * i] as number;
      const ar = re[place] as number;
      const ai = im[place] as number;
      const lr = ar * rr - ai * ri;
      const lm = ar * ri + ai * rr;
      re[place] = lr;
      im[place] = lm;
      for (let j = 0; j < beyond; j += 1) {
        const other = program[columnsAt + 2 * j] as number;
        const into = program[target] as number;
        const ur = re[other] as number;
        const ui = im[other] as number;
        re[into] = (re[into] as number) - (lr * ur - lm * ui);
        im[into] = (im[into] as number) - (lr * ui + lm * ur);
        target += 1;
      }
    }
    at = target;
  }
}

/**
 * Solves Aᵀ z = d in place: the vector holds d by unknowns, then z by rows. With d = 1 at the output, z at a branch's
 * row is the response of the output to 1 V in that branch: all sources for one solution.
 */
export function solveTransposed(elimination: Elimination, { re, im, xr, xi, wr, wi }: Workspace): void {
  const { program, starts, size, pivotRow, pivotColumn } = elimination;
  for (let step = 0; step < size; step += 1) {
    const at = starts[step] as number;
    const pivot = program[at] as number;
    const column = pivotColumn[step] as number;
    const dr = xr[column] as number;
    const di = xi[column] as number;
    const rr = re[pivot] as number;
    const ri = im[pivot] as number;
    const vr = dr * rr - di * ri;
    const vi = dr * ri + di * rr;
    wr[step] = vr;
    wi[step] = vi;
    const beyondAt = at + 3 + 2 * (program[at + 1] as number);
    const beyond = program[at + 2] as number;
    for (let j = 0; j < beyond; j += 1) {
      const place = program[beyondAt + 2 * j] as number;
      const other = program[beyondAt + 2 * j + 1] as number;
      const ur = re[place] as number;
      const ui = im[place] as number;
      xr[other] = (xr[other] as number) - (ur * vr - ui * vi);
      xi[other] = (xi[other] as number) - (ur * vi + ui * vr);
    }
  }
  for (let step = size - 1; step >= 0; step -= 1) {
    const at = starts[step] as number;
    let sr = wr[step] as number;
    let si = wi[step] as number;
    const below = program[at + 1] as number;
    for (let i = 0; i < below; i += 1) {
      const place = program[at + 3 + 2 * i] as number;
      const row = program[at + 4 + 2 * i] as number;
      const lr = re[place] as number;
      const li = im[place] as number;
      const zr = xr[row] as number;
      const zi = xi[row] as number;
      sr -= lr * zr - li * zi;
      si -= lr * zi + li * zr;
    }
    const row = pivotRow[step] as number;
    xr[row] = sr;
    xi[row] = si;
  }
}
