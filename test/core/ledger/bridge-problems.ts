/**
 * The two bridge windows of the invented demo jobs, as problems: figures of the jobs "Lowtide" and "Ferry" (plate place,
 * setbacks, saddle ranges, doubts), and the same by plain draws. Written twice on purpose: leaves and formulas here for
 * the ledger, straight arithmetic for the draws.
 */
import type { JointProblem, Numbers } from "../../../src/core/ledger/index.ts";
import { leaf, term } from "./leaves.ts";
import { plainDraws, shareOf } from "./plain-draws.ts";

export interface Method {
  readonly scaleLineU: number;
  readonly setbackU: number;
  readonly drillingU: number;
  readonly oldRowU: number;
}

const RESERVE = 0.5;

export const LOWTIDE = {
  plate: 170.9,
  scaleLine: 182,
  setbacks: [2.11, 3.75, 2.11, 2.99, 3.27, 4.26],
  from: [11.5, 11.5, 11.5, 13, 13, 13],
  to: [16, 16, 16, 18, 18, 18],
};

export const FERRY = {
  plate: 848.5,
  scaleLine: 864,
  setbacks: [2.0, 2.7, 3.19, 4.64],
  from: [8, 8, 8, 8],
  to: [24, 24, 24, 24],
  newHoles: [
    [47, -20],
    [47, 0],
    [47, 20],
    [58, -10],
    [58, 10],
  ] as const,
  oldX: 901,
  oldY: [-22, -11, 0, 11, 22],
  /** Half of thread 3.5, half of old hole 3.4, wall 1.5. */
  keepOff: 1.75 + 1.7 + 1.5,
};

type Window = Pick<typeof LOWTIDE, "plate" | "scaleLine" | "setbacks" | "from" | "to">;

function windowLeaves(job: Window, method: Method) {
  const setbacks = job.setbacks.map(
    (setback, index) => [`setback${index}`, leaf(`strings.${index + 1}.setback`, setback, method.setbackU)] as const,
  );
  return {
    scaleLine: leaf("scaleLine", job.scaleLine, [term("scale line", method.scaleLineU)]),
    drilledAlong: leaf("workshop.drilling.along", 0, [term("drilling along", method.drillingU)]),
    ...Object.fromEntries(setbacks),
  };
}

function windowMargins(job: Window): Record<string, (x: Numbers) => number> {
  const margins: Record<string, (x: Numbers) => number> = {};
  job.setbacks.forEach((_, index) => {
    const setback = `setback${index}`;
    const contact = (x: Numbers) => (x.scaleLine ?? 0) + (x[setback] ?? 0) - job.plate - (x.drilledAlong ?? 0);
    margins[`string ${index + 1} front`] = (x) => contact(x) - (job.from[index] ?? 0) - RESERVE;
    margins[`string ${index + 1} rear`] = (x) => (job.to[index] ?? 0) - RESERVE - contact(x);
  });
  return margins;
}

export function lowtide(method: Method): JointProblem {
  return {
    leaves: windowLeaves(LOWTIDE, method),
    margins: windowMargins(LOWTIDE),
    unit: "mm",
    execution: ["drilledAlong"],
  };
}

/** Saddles as above; walls: plate along and across against the old row along. The scale line does not enter walls. */
export function ferry(method: Method): JointProblem {
  const leaves = {
    ...windowLeaves(FERRY, method),
    drilledAcross: leaf("workshop.drilling.across", 0, [term("drilling across", method.drillingU)]),
    oldRow: leaf("body.holes.old.u", FERRY.oldX, [term("old row", method.oldRowU)]),
  };
  const margins = windowMargins(FERRY);
  for (const [p, y] of FERRY.newHoles) {
    for (const oldY of FERRY.oldY) {
      margins[`wall ${p} ${y} to ${oldY}`] = (x) =>
        Math.hypot(FERRY.plate + p + (x.drilledAlong ?? 0) - (x.oldRow ?? 0), y + (x.drilledAcross ?? 0) - oldY) -
        FERRY.keepOff;
    }
  }
  return { leaves, margins, unit: "mm", execution: ["drilledAlong", "drilledAcross"] };
}

export function lowtideByDraws(method: Method, count: number): number {
  const chance = plainDraws(2111);
  return shareOf(count, () => saddlesHold(LOWTIDE, method, chance, method.drillingU * chance.normal()));
}

export function ferryByDraws(method: Method, count: number): number {
  const chance = plainDraws(4642);
  return shareOf(count, () => {
    const along = method.drillingU * chance.normal();
    const across = method.drillingU * chance.normal();
    const old = method.oldRowU * chance.normal();
    if (!saddlesHold(FERRY, method, chance, along)) return false;
    for (const [p, y] of FERRY.newHoles) {
      const dx = FERRY.plate + p + along - FERRY.oldX - old;
      for (const oldY of FERRY.oldY) {
        const dy = y + across - oldY;
        if (dx * dx + dy * dy < FERRY.keepOff * FERRY.keepOff) return false;
      }
    }
    return true;
  });
}

function saddlesHold(job: Window, method: Method, chance: { normal(): number }, along: number): boolean {
  const line = job.scaleLine + method.scaleLineU * chance.normal();
  let all = true;
  for (let index = 0; index < job.setbacks.length; index += 1) {
    const p = line + (job.setbacks[index] ?? 0) + method.setbackU * chance.normal() - job.plate - along;
    if (p < (job.from[index] ?? 0) + RESERVE || p > (job.to[index] ?? 0) - RESERVE) all = false;
  }
  return all;
}
