/** All checks of a wiring, worst first. */
import { type Check, type Checked, type Finding, gathered } from "./finding.ts";
import { battery, groundThroughOneWire, metalLive, metalNotGrounded, stringGroundMissing } from "./ground.ts";
import { hums, signsNotKnown } from "./hum.ts";
import { knobAllAtOneEnd, knobDoesNothing, oneKnobSilencesAll } from "./knobs.ts";
import { looseEnds, poleNotUsed } from "./loose.ts";
import {
  coilShorted,
  hangsFromHot,
  hotShorted,
  neverHeard,
  otherSound,
  outOfPhase,
  shortWhileSwitching,
  silent,
} from "./signal.ts";

const CHECKS: readonly Check[] = [
  hotShorted,
  metalLive,
  silent,
  outOfPhase,
  otherSound,
  coilShorted,
  hums,
  stringGroundMissing,
  metalNotGrounded,
  battery,
  oneKnobSilencesAll,
  knobDoesNothing,
  hangsFromHot,
  signsNotKnown,
  groundThroughOneWire,
  knobAllAtOneEnd,
  shortWhileSwitching,
  neverHeard,
  looseEnds,
  poleNotUsed,
];

/** @returns faults before cautions, each in the order of the checks */
export function findingsOf(checked: Checked): Finding[] {
  const all = gathered(
    CHECKS.flatMap((check) => check(checked)),
    checked.facts.states.length,
  );
  return [...all.filter(({ grade }) => grade === "fault"), ...all.filter(({ grade }) => grade === "caution")];
}

export type { Checked, Finding, FindingKind, Wanted } from "./finding.ts";
export { KNOB_HZ, type KnobReading, knobAlong } from "./knobs.ts";
export { wayBetween } from "./way.ts";
