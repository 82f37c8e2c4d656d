/** From works to steps, with ids that stay the same while the job goes on. */
import type { Work } from "../verdict/index.ts";
import { type Draft, slug } from "./draft.ts";
import {
  bareContactStep,
  chooseStep,
  insulateStep,
  nutStep,
  reamStep,
  shimStep,
  slotStep,
  spotFaceStep,
} from "./fitting-steps.ts";
import { groupOf, isEars, type PlannedWork, placeName } from "./merge-works.ts";
import type { PlanInput } from "./types.ts";
import { drillStep, plugSteps, routStep } from "./wood-steps.ts";

export interface NamedWork extends PlannedWork {
  readonly id: string;
}

/** An id from what is done and where; one that an operation in the log has already gets the next number. */
export function withIds(works: readonly PlannedWork[], used: ReadonlySet<string>): readonly NamedWork[] {
  const taken = new Set(used);
  return works.map((planned) => {
    const name = nameOf(planned.work);
    let id = name;
    for (let number = 2; taken.has(id); number += 1) id = `${name}-${number}`;
    taken.add(id);
    return { ...planned, id };
  });
}

/** Bought, not done; and what is fitted or taken off follows from what is to be fitted. */
export function isOwnStep(work: Work): boolean {
  return work.act !== "buy" && work.act !== "fit" && work.act !== "take off" && work.act !== "restring";
}

/** The step of an operation in the log; the trimming of its plugs is a step that may still be open. */
export function doneSteps(input: PlanInput, { id, ...planned }: NamedWork): readonly Draft[] {
  return workSteps(input, planned, id).map((step) => (step.id === id ? { ...step, buys: [], done: true } : step));
}

export function workSteps(input: PlanInput, planned: PlannedWork, id: string): readonly Draft[] {
  const { work } = planned;
  switch (work.act) {
    case "plug":
      return plugSteps(input, planned, work, id);
    case "drill":
      return [drillStep(input, planned, work, id)];
    case "rout":
      return [routStep(input, planned, work, id)];
    case "ream":
      return [reamStep(input, planned, work, id)];
    case "spot-face":
      return [spotFaceStep(input, planned, work, id)];
    case "slot":
      return [slotStep(input, planned, work, id)];
    case "shim":
      return [shimStep(input, planned, work, id)];
    case "nut slots":
      return [nutStep(input, planned, work, id)];
    case "insulate":
      return [insulateStep(input, planned, work, id)];
    case "bare contact":
      return [bareContactStep(input, planned, work, id)];
    case "choose":
      return [chooseStep(input, planned, work, id)];
    case "buy":
    case "fit":
    case "take off":
    case "restring":
      return [];
    default:
      return work satisfies never;
  }
}

function nameOf(work: Work): string {
  switch (work.act) {
    case "plug":
      return slug("plug", groupOf(work.holes[0]?.id ?? ""));
    case "drill":
      return slug("drill", work.group);
    case "rout":
      return slug("rout", work.cavity, isEars(work.what) ? "ears" : "");
    case "ream":
    case "spot-face":
    case "slot":
    case "insulate":
    case "bare contact":
      return slug(work.act, placeName(work.where));
    case "choose":
      return slug("choose", work.what);
    default:
      return slug(work.act);
  }
}
