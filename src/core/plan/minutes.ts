/**
 * Labour allowances to start from, in minutes: so much for the step, and so much for each piece in it.
 * Common practice, no source: a shop overwrites them.
 */
import type { PlanInput, StepKind } from "./types.ts";

const ALLOWANCE: Readonly<Record<StepKind, readonly [first: number, each: number]>> = {
  record: [30, 0],
  choose: [0, 5],
  "measure parts": [5, 2],
  print: [10, 0],
  strip: [5, 0],
  "neck off": [10, 0],
  shim: [30, 0],
  "neck on": [20, 0],
  "carry scale line": [15, 0],
  plug: [10, 8],
  rout: [45, 0],
  "spot-face": [0, 6],
  ream: [2, 3],
  slot: [15, 0],
  "lay strings": [10, 0],
  "trim plugs": [5, 4],
  drill: [5, 5],
  "bare contact": [5, 0],
  "ground wire": [10, 0],
  foil: [10, 14],
  insulate: [5, 0],
  "map coils": [0, 5],
  "fit pickups": [0, 8],
  "fit controls": [0, 4],
  "prove foil": [10, 0],
  wire: [15, 15],
  "fit tuners": [5, 5],
  "fit bridge": [10, 0],
  "nut slots": [5, 4],
  ohms: [10, 0],
  "cover on": [10, 0],
  restring: [20, 0],
  "set up": [40, 0],
  "fit other": [10, 0],
  "final sheet": [5, 0],
};

/** Minutes of a step with so many pieces; the shop's own figure counts for each piece, or for the step without pieces. */
export function minutesFor(kind: StepKind, pieces: number, own: PlanInput["minutes"]): number {
  const [first, each] = ALLOWANCE[kind];
  const stated = own?.[kind];
  if (stated !== undefined) return stated * (each === 0 ? 1 : Math.max(1, pieces));
  return first + each * pieces;
}
