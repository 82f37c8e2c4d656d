/** The same equations solved with partial pivoting by column: slower, for a frequency at which the fixed order failed. */
import type { Workspace } from "./elimination.ts";
import type { Equations } from "./stamps.ts";

/** Aᵀ z = d, with z left in the workspace's vector by rows of A. */
export function solveDenseTransposed(
  equations: Equations,
  { xr, xi }: Workspace,
  omega: number,
  plus: number,
  minus: number,
): void {
  const { size, rows, columns, constant, slope } = equations;
  const re = new Float64Array(size * size);
  const im = new Float64Array(size * size);
  rows.forEach((row, index) => {
    const at = (columns[index] as number) * size + row;
    re[at] = constant[index] as number;
    im[at] = (slope[index] as number) * omega;
  });
  xr.fill(0);
  xi.fill(0);
  if (plus >= 0) xr[plus] = 1;
  if (minus >= 0) xr[minus] = -1;
  for (let step = 0; step < size; step += 1) {
    let best = step;
    for (let row = step + 1; row < size; row += 1)
      if (magnitude(re, im, row * size + step) > magnitude(re, im, best * size + step)) best = row;
    swapRows(re, im, size, step, best);
    swapEntries(xr, step, best);
    swapEntries(xi, step, best);
    eliminateBelow(re, im, xr, xi, size, step);
  }
  for (let row = size - 1; row >= 0; row -= 1) {
    let [sr, si] = [xr[row] as number, xi[row] as number];
    for (let column = row + 1; column < size; column += 1) {
      const at = row * size + column;
      const [ar, ai] = [re[at] as number, im[at] as number];
      sr -= ar * (xr[column] as number) - ai * (xi[column] as number);
      si -= ar * (xi[column] as number) + ai * (xr[column] as number);
    }
    const [qr, qi] = quotient(sr, si, re[row * size + row] as number, im[row * size + row] as number);
    xr[row] = qr;
    xi[row] = qi;
  }
}

function eliminateBelow(
  re: Float64Array,
  im: Float64Array,
  xr: Float64Array,
  xi: Float64Array,
  size: number,
  step: number,
): void {
  const [pr, pi] = [re[step * size + step] as number, im[step * size + step] as number];
  const [br, bi] = [xr[step] as number, xi[step] as number];
  for (let row = step + 1; row < size; row += 1) {
    const [lr, li] = quotient(re[row * size + step] as number, im[row * size + step] as number, pr, pi);
    if (lr === 0 && li === 0) continue;
    for (let column = step; column < size; column += 1) {
      const [ur, ui] = [re[step * size + column] as number, im[step * size + column] as number];
      const at = row * size + column;
      re[at] = (re[at] as number) - (lr * ur - li * ui);
      im[at] = (im[at] as number) - (lr * ui + li * ur);
    }
    xr[row] = (xr[row] as number) - (lr * br - li * bi);
    xi[row] = (xi[row] as number) - (lr * bi + li * br);
  }
}

function quotient(ar: number, ai: number, br: number, bi: number): readonly [number, number] {
  const norm = br * br + bi * bi;
  return [(ar * br + ai * bi) / norm, (ai * br - ar * bi) / norm];
}

function magnitude(re: Float64Array, im: Float64Array, at: number): number {
  return Math.hypot(re[at] as number, im[at] as number);
}

function swapRows(re: Float64Array, im: Float64Array, size: number, first: number, second: number): void {
  if (first === second) return;
  for (let column = 0; column < size; column += 1)
    for (const part of [re, im]) {
      const kept = part[first * size + column] as number;
      part[first * size + column] = part[second * size + column] as number;
      part[second * size + column] = kept;
    }
}

function swapEntries(vector: Float64Array, first: number, second: number): void {
  const kept = vector[first] as number;
  vector[first] = vector[second] as number;
  vector[second] = kept;
}
