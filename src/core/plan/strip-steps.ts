/** What comes off first, with the bags for what is kept. */
import { say } from "../quantity/index.ts";
import type { Contents } from "./contents.ts";
import { type Draft, draft, takeOff, tool } from "./draft.ts";
import type { PlanInput } from "./types.ts";

export function stripSteps(input: PlanInput, has: Contents): readonly Draft[] {
  const steps: Draft[] = [];
  if (has.strings !== undefined) steps.push(stripStrings(input));
  if (has.bridge) steps.push(stripPart(input, "bridge"));
  if (has.tuners) steps.push(stripPart(input, "tuners"));
  if (has.electricsComeOut) steps.push(stripElectrics(input, has));
  return steps;
}

function stripStrings(input: PlanInput): Draft {
  return draft(input, {
    id: "strip-strings",
    kind: "strip",
    target: "strings",
    title: say`Take the strings off`,
    work: takeOff("strings"),
    tools: [tool(say`string winder`), tool(say`string cutter`)],
    instructions: [say`Slacken all of them in turn, then take them off.`],
  });
}

function stripPart(input: PlanInput, part: "bridge" | "tuners"): Draft {
  const bridge = part === "bridge";
  return draft(input, {
    id: `strip-${part}`,
    kind: "strip",
    target: part,
    title: say`Take the old ${part} off`,
    work: takeOff(part),
    tools: [tool(say`screwdriver that fits the screws`)],
    instructions: bridge
      ? [
          say`Before it moves: from fret 12 to each saddle's contact, and from the nut to fret 12.`,
          say`Look for the ground wire under it; do not pull it through.`,
        ]
      : [say`Score round each bushing if there is finish on it, then push it out straight.`],
    keeps: [
      { label: part, what: bridge ? say`old bridge, its screws and springs` : say`old tuners, bushings and screws` },
    ],
  });
}

function stripElectrics(input: PlanInput, has: Contents): Draft {
  const replaced = has.pickups.length + has.controls.length > 0 || has.lever;
  return draft(input, {
    id: "strip-electrics",
    kind: "strip",
    target: "electrics",
    title: say`Take pickups and controls out`,
    work: takeOff("electrics"),
    tools: [tool(say`screwdriver, spanner`), tool(say`labels`), tool(say`camera`)],
    instructions: [
      say`Photograph before each wire comes off, and label both ends.`,
      say`Lift the set out as one where you can.`,
    ],
    keeps: replaced ? [{ label: "electrics", what: say`old pickups, controls, knobs and their screws` }] : [],
  });
}
