/**
 * Holes that are there already are not drilled again: no bit goes where an open hole is. Whether a hole that wandered
 * still serves is for the verdicts to say; where it does not, they ask for its plug, and then it is drilled anew.
 */
import { valueOr } from "../quantity/index.ts";
import type { Work } from "../verdict/index.ts";
import type { PlannedWork } from "./merge-works.ts";
import type { PlanInput } from "./types.ts";

type Drill = Extract<Work, { act: "drill" }>;

/** The works that are still ahead: a set of holes without those that an operation in the log drilled and left open. */
export function withoutDrilled(works: readonly PlannedWork[], input: PlanInput): readonly PlannedWork[] {
  const asked = new Set(works.flatMap(({ work }) => (work.act === "plug" ? work.holes.map(({ id }) => id) : [])));
  const drilled = (input.done ?? []).flatMap(({ work }) => (work.act === "drill" ? [work] : []));
  if (drilled.length === 0) return works;
  return works.flatMap((planned) => {
    if (planned.work.act !== "drill") return [planned];
    const { work } = planned;
    const holes = work.holes.filter((hole) => asked.has(hole.id) || !isThere(hole, work.group, drilled, input));
    if (holes.length === work.holes.length) return [planned];
    return holes.length === 0 ? [] : [{ ...planned, work: { ...work, holes } }];
  });
}

function isThere(wanted: Drill["holes"][number], group: string, drilled: readonly Drill[], input: PlanInput): boolean {
  const same = drilled.filter((work) => work.group === group).flatMap(({ holes }) => holes);
  const here = same.filter(
    (hole) => hole.id === wanted.id || Math.hypot(hole.u - wanted.u, hole.y - wanted.y) < wanted.diameter / 2,
  );
  return here.some(({ id, diameter }) => {
    const now = input.instrument.body.holes.find((hole) => hole.id === id);
    // Screw holes of the headstock have no place on the body: the log alone knows of them.
    if (!now) return /^(tuner|headstock)/.test(group);
    return now.state !== "plugged" && valueOr(now.diameter, diameter) >= wanted.diameter - WIDER_MM;
  });
}

/** A hole this much narrower than wanted is drilled open (common practice, no source). */
const WIDER_MM = 0.3;
