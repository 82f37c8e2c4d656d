/**
 * The equations of a circuit: A(s) x = b with A(s) = G + s B, both real.
 *
 * Modified nodal analysis (Ho, Ruehli, Brennan, IEEE Trans. Circuits and Systems CAS-22, 1975, from memory): one
 * equation a node, one a branch. Unknowns: the voltages of the nodes but ground, then the currents of the branches.
 */
import type { Branch, SmallNetlist } from "./branches.ts";

export interface Equations {
  readonly size: number;
  /** Entries of A in the order stored: row, column, constant part, part that goes with s. */
  readonly rows: Int32Array;
  readonly columns: Int32Array;
  readonly constant: Float64Array;
  readonly slope: Float64Array;
  /** Unknown of a node, or -1 for ground. */
  readonly unknownOf: ReadonlyMap<string, number>;
  /** Where each source stands on the right-hand side: equation and factor for 1 V. */
  readonly sources: readonly {
    readonly name: string;
    readonly volts: number;
    readonly row: number;
    readonly factor: 1 | -1;
  }[];
}

export function equationsOf(small: SmallNetlist): Equations {
  const unknownOf = new Map<string, number>([[small.ground, -1]]);
  const seen = (node: string) => {
    if (!unknownOf.has(node)) unknownOf.set(node, unknownOf.size - 1);
  };
  for (const { a, b } of [...small.branches, ...small.admittances]) {
    seen(a);
    seen(b);
  }
  const voltages = unknownOf.size - 1;
  const size = voltages + small.branches.length;
  const entries = new Map<number, { constant: number; slope: number }>();
  const add = (row: number, column: number, constant: number, slope: number) => {
    if (row < 0 || column < 0) return;
    const key = row * size + column;
    const entry = entries.get(key);
    if (entry) {
      entry.constant += constant;
      entry.slope += slope;
    } else entries.set(key, { constant, slope });
  };
  const at = (node: string) => unknownOf.get(node) ?? -1;
  for (const piece of small.admittances) {
    const [a, b] = [at(piece.a), at(piece.b)];
    const [constant, slope] = piece.kind === "resistor" ? [1 / piece.ohms, 0] : [0, piece.farads];
    if (a === b) continue;
    add(a, a, constant, slope);
    add(b, b, constant, slope);
    add(a, b, -constant, -slope);
    add(b, a, -constant, -slope);
  }
  stampBranches(small, voltages, at, add);
  const keys = [...entries.keys()].sort((first, second) => first - second);
  const values = keys.map((key) => entries.get(key) ?? { constant: 0, slope: 0 });
  return {
    size,
    rows: Int32Array.from(keys, (key) => Math.floor(key / size)),
    columns: Int32Array.from(keys, (key) => key % size),
    constant: Float64Array.from(values, ({ constant }) => constant),
    slope: Float64Array.from(values, ({ slope }) => slope),
    unknownOf,
    sources: small.branches.flatMap((branch, index) =>
      branch.sources.map(({ name, volts, sense }) => ({ name, volts, row: voltages + index, factor: sense })),
    ),
  };
}

type Add = (row: number, column: number, constant: number, slope: number) => void;

/** v(a) - v(b) - (R + sL) i = emf, with i the current that enters the branch at a. */
function stampBranches(small: SmallNetlist, voltages: number, at: (node: string) => number, add: Add): void {
  const home = new Map<string, { index: number; sense: 1 | -1 }>();
  small.branches.forEach((branch, index) => {
    const row = voltages + index;
    const [a, b] = [at(branch.a), at(branch.b)];
    if (a !== b) {
      add(a, row, 1, 0);
      add(b, row, -1, 0);
      add(row, a, 1, 0);
      add(row, b, -1, 0);
    }
    add(row, row, -branch.ohms, -inductanceOf(branch));
    for (const { name, sense } of branch.inductors) home.set(name, { index, sense });
  });
  for (const { of, henries } of small.couplings) {
    const [first, second] = of.map((name) => home.get(name));
    if (!first || !second) continue;
    const mutual = first.sense * second.sense * henries;
    add(voltages + first.index, voltages + second.index, 0, -mutual);
    add(voltages + second.index, voltages + first.index, 0, -mutual);
  }
}

function inductanceOf({ inductors }: Branch): number {
  return inductors.reduce((sum, { henries }) => sum + henries, 0);
}
