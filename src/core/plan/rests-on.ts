/**
 * Which verdicts a step rests on: those that ask for it, and those about the same part whose error could not be undone.
 *
 * Verdict ids start with the part they are about: "bridge.window", "control.volume.bushing", "pickup.neck.ears".
 */
import type { Draft } from "./draft.ts";
import type { PlanInput } from "./types.ts";
import { BIT_VERDICT } from "./unsettled.ts";

/** A verdict whose wrong answer can be undone does not hold up a cut. */
const CANNOT_BE_UNDONE = 2;

/** Where the bridge stands is told from the scale line, so what is doubtful about the line holds up its wood too. */
const BRIDGE: readonly string[] = ["bridge", "scale"];

/** Before wood comes off for a control its part can be put through its hole: what goes, if closely, is tried so. */
const TRIED_BY_HAND: readonly Draft["kind"][] = ["spot-face", "ream", "slot"];

type Asking = Pick<Draft, "kind" | "target" | "cause">;
type Answers = Pick<PlanInput, "instrument" | "verdicts">;

export function restsOn(step: Asking, input: Answers): readonly string[] {
  const stems = stemsOf(step, input);
  const related = input.verdicts.filter(
    (verdict) =>
      verdict.stake >= CANNOT_BE_UNDONE &&
      stems.some((stem) => isUnder(verdict.id, stem)) &&
      !(TRIED_BY_HAND.includes(step.kind) && verdict.status === "go"),
  );
  return [...new Set([...step.cause, ...related.map((verdict) => verdict.id)])];
}

function stemsOf(step: Asking, input: Answers): readonly string[] {
  const { pickups } = input.instrument;
  switch (step.kind) {
    case "plug":
      return isBridgePlug(step) ? BRIDGE : [];
    case "drill":
      return step.target === "bridge" ? [...BRIDGE, BIT_VERDICT] : [step.target];
    case "fit bridge":
      return step.target === "bridge" ? BRIDGE : [step.target];
    case "rout":
      return pickups.filter((pickup) => pickup.cavityId === step.target).map((pickup) => `pickup.${pickup.id}`);
    case "fit pickups":
      return [`pickup.${step.target}`];
    case "spot-face":
    case "ream":
    case "slot":
    case "fit controls":
      return step.target === "lever" || step.target === "tuners" ? [step.target] : [`control.${step.target}`];
    case "fit tuners":
      return ["tuners"];
    default:
      return [];
  }
}

function isUnder(id: string, stem: string): boolean {
  return id === stem || id.startsWith(`${stem}.`);
}

/** Plugs that a bridge verdict asks for, or that stand where a bridge was: which of them are needed hangs on its place. */
export function isBridgePlug(step: Asking): boolean {
  return step.cause.some((id) => isUnder(id, "bridge")) || /bridge|screw|through|post/.test(step.target);
}
