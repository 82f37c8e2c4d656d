/**
 * What a meter reads between two points: resistors alone, capacitors open, coils as their copper.
 *
 * With 1 A sent in at a and out at b, R = v(a) - v(b), and ∂R/∂R_k = i_k² (Tellegen's theorem, from memory of the
 * textbooks): the same solution gives how much each resistance has to say.
 */
import { groupsOf } from "./netlist.ts";

export interface Resistor {
  readonly name: string;
  readonly a: string;
  readonly b: string;
  readonly ohms: number;
}

export interface MeterReading {
  /** Infinity: no way from a to b. */
  readonly ohms: number;
  /** ∂R/∂R_k for each resistor that has a say, by name; dimensionless, 0 to 1 and rarely more. */
  readonly weights: ReadonlyMap<string, number>;
}

/** @param resistors each above 0 Ω; two points that are one node read 0 */
export function ohmsBetween(resistors: readonly Resistor[], a: string, b: string): MeterReading {
  if (a === b) return { ohms: 0, weights: new Map() };
  const groupOf = groupsOf(
    [a, b],
    resistors.map((resistor) => [resistor.a, resistor.b] as const),
  );
  if (groupOf(a) !== groupOf(b)) return { ohms: Number.POSITIVE_INFINITY, weights: new Map() };
  const live = resistors.filter((resistor) => resistor.a !== resistor.b && groupOf(resistor.a) === groupOf(a));
  const index = new Map<string, number>([[b, -1]]);
  for (const resistor of live)
    for (const node of [resistor.a, resistor.b]) if (!index.has(node)) index.set(node, index.size - 1);
  const size = index.size - 1;
  const at = (node: string) => index.get(node) ?? -1;
  const matrix = new Float64Array(size * size);
  for (const resistor of live) {
    const [p, q] = [at(resistor.a), at(resistor.b)];
    const siemens = 1 / resistor.ohms;
    if (p >= 0) matrix[p * size + p] = (matrix[p * size + p] as number) + siemens;
    if (q >= 0) matrix[q * size + q] = (matrix[q * size + q] as number) + siemens;
    if (p < 0 || q < 0) continue;
    matrix[p * size + q] = (matrix[p * size + q] as number) - siemens;
    matrix[q * size + p] = (matrix[q * size + p] as number) - siemens;
  }
  const volts = solveSymmetric(matrix, size, at(a));
  const voltsAt = (node: string) => (at(node) < 0 ? 0 : (volts[at(node)] as number));
  const weights = new Map<string, number>();
  for (const resistor of live) {
    const amperes = (voltsAt(resistor.a) - voltsAt(resistor.b)) / resistor.ohms;
    if (amperes !== 0) weights.set(resistor.name, amperes ** 2);
  }
  return { ohms: voltsAt(a), weights };
}

/** Cholesky without roots; the matrix of a connected network that hangs on its reference is positive definite. */
function solveSymmetric(matrix: Float64Array, size: number, source: number): Float64Array {
  const x = new Float64Array(size);
  x[source] = 1;
  for (let step = 0; step < size; step += 1) {
    const pivot = matrix[step * size + step] as number;
    for (let row = step + 1; row < size; row += 1) {
      const factor = (matrix[row * size + step] as number) / pivot;
      if (factor === 0) continue;
      for (let column = step; column < size; column += 1)
        matrix[row * size + column] =
          (matrix[row * size + column] as number) - factor * (matrix[step * size + column] as number);
      x[row] = (x[row] as number) - factor * (x[step] as number);
    }
  }
  for (let row = size - 1; row >= 0; row -= 1) {
    let sum = x[row] as number;
    for (let column = row + 1; column < size; column += 1)
      sum -= (matrix[row * size + column] as number) * (x[column] as number);
    x[row] = sum / (matrix[row * size + row] as number);
  }
  return x;
}
