/**
 * The fixed draws that stand in for chance.
 *
 * Model: Sobol's sequence in Gray-code order, one dimension an error term, every coordinate flipped by a fixed pattern
 * of bits (a digital shift keeps the sequence's evenness and takes its points off the corners). The first dimensions
 * are the evenest and go to the terms that matter most; terms past the table's last dimension, the least important,
 * get scrambled counters instead. The same question therefore gets the same draws every time and everywhere.
 * Left out: a fresh shift per run. The error of an estimate is judged from blocks of the one sequence; see sampling.ts.
 * Sources: P. Bratley and B. L. Fox, Algorithm 659, ACM Transactions on Mathematical Software 14, 1988, 88-100, for the
 * recurrence and the Gray-code order (from memory); the bit scrambler is the closing step of a well-known
 * 32-bit hash (common practice).
 */
import { DIRECTION_NUMBERS } from "./direction-numbers.ts";
import { normalPoint, triangularPoint, uniformPoint } from "./normal.ts";

export type Mapping = "area" | "normal" | "uniform" | "triangular";

/** Largest number of draws of any problem. */
export const MOST_DRAWS = 16384;

const BITS = 32;
const WHOLE = 2 ** BITS;
const EVEN_DIMENSIONS = DIRECTION_NUMBERS.length;

const MAPPINGS: Readonly<Record<Mapping, (area: number) => number>> = {
  area: (area) => area,
  normal: normalPoint,
  uniform: uniformPoint,
  triangular: triangularPoint,
};

interface Column {
  readonly draws: Float64Array;
  filled: number;
}

/** Worked out once and kept: nobody can tell but by the clock. */
const columns = new Map<string, Column>();
const directions = new Map<number, Uint32Array>();

/**
 * Draws of one dimension, the first `count` of them filled; each has mean 0 and standard deviation 1 under its shape
 * ("area": evenly spread over 0 to 1).
 */
export function drawsOf(dimension: number, mapping: Mapping, count: number): Float64Array {
  const key = `${mapping} ${dimension}`;
  let column = columns.get(key);
  if (!column) {
    column = { draws: new Float64Array(MOST_DRAWS), filled: 0 };
    columns.set(key, column);
  }
  if (column.filled < count) {
    fill(column, dimension, MAPPINGS[mapping], count);
    column.filled = count;
  }
  return column.draws;
}

function fill(column: Column, dimension: number, map: (area: number) => number, count: number): void {
  const { draws, filled } = column;
  const shift = scramble(dimension + 1);
  const even = dimension < EVEN_DIMENSIONS;
  const direction = even ? directionsOf(dimension) : undefined;
  let bits = even && filled > 0 ? sobolBits(dimension, filled - 1) : 0;
  for (let index = filled; index < count; index += 1) {
    // From one point to the next one direction changes: that of the lowest bit of the count.
    if (direction && index > 0) bits ^= direction[31 - Math.clz32(index & -index)] as number;
    const place = direction ? bits ^ shift : scramble(shift + index);
    draws[index] = map(((place >>> 0) + 0.5) / WHOLE);
  }
}

/** Coordinate of one point of the unshifted sequence as a fraction of 2^32, in Gray-code order. */
export function sobolBits(dimension: number, index: number): number {
  const direction = directionsOf(dimension);
  let bits = 0;
  for (let gray = index ^ (index >>> 1), bit = 0; gray !== 0; gray >>>= 1, bit += 1) {
    if (gray & 1) bits ^= direction[bit] ?? 0;
  }
  return bits >>> 0;
}

function directionsOf(dimension: number): Uint32Array {
  const known = directions.get(dimension);
  if (known) return known;
  const made = makeDirections(DIRECTION_NUMBERS[dimension] ?? []);
  directions.set(dimension, made);
  return made;
}

/** v_k = v_(k-s) >> s, xor v_(k-s), xor those v_(k-j) whose coefficient of the polynomial of degree s is 1. */
function makeDirections([polynomial = 1, ...first]: readonly number[]): Uint32Array {
  const degree = BITS - 1 - Math.clz32(polynomial);
  const made = new Uint32Array(BITS);
  for (let k = 0; k < BITS; k += 1) {
    if (degree === 0 || k < degree) {
      made[k] = (first[degree === 0 ? 0 : k] ?? 1) << (BITS - 1 - k);
      continue;
    }
    const oldest = made[k - degree] ?? 0;
    let bits = oldest ^ (oldest >>> degree);
    for (let j = 1; j < degree; j += 1) {
      if ((polynomial >>> (degree - j)) & 1) bits ^= made[k - j] ?? 0;
    }
    made[k] = bits;
  }
  return made;
}

/** A fixed, well-spread 32-bit pattern for a counter. */
function scramble(counter: number): number {
  let bits = Math.imul(counter, 0x9e3779b9);
  bits = Math.imul(bits ^ (bits >>> 16), 0x85ebca6b);
  bits = Math.imul(bits ^ (bits >>> 13), 0xc2b2ae35);
  return (bits ^ (bits >>> 16)) >>> 0;
}
