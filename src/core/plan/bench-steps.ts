/** Steps that no verdict asks for: what is recorded, taken off, proved and fitted, with the hold points of the job. */
import { figure, say } from "../quantity/index.ts";
import { carryScaleLineStep, fitBridgeStep, layStringsStep } from "./bridge-steps.ts";
import type { Contents } from "./contents.ts";
import { confirm, type Draft, draft, putOn, slug, takeOff, tool, value } from "./draft.ts";
import { electricSteps } from "./electric-steps.ts";
import { stripSteps } from "./strip-steps.ts";
import type { PlanInput } from "./types.ts";

export function benchSteps(input: PlanInput, has: Contents): readonly Draft[] {
  const newParts = partsToMeasure(input, has);
  return [
    recordStep(input),
    ...(newParts.length > 0 ? [measurePartsStep(input, newParts)] : []),
    ...(has.template === undefined ? [] : [printStep(input, has.template)]),
    ...stripSteps(input, has),
    ...neckSteps(input, has),
    ...(has.drillsBridge ? [carryScaleLineStep(input), layStringsStep(input)] : []),
    ...electricSteps(input, has),
    ...fitSteps(input, has),
    ...(has.battery ? [batteryStep(input)] : []),
    finalSheetStep(input),
  ];
}

function recordStep(input: PlanInput): Draft {
  const last = input.instrument.stringCount;
  const relief = {
    what: say`relief as found`,
    tool: "feeler",
    how: say`Hold an outer string at the first and the last fret; the largest feeler that passes at fret 7.`,
  };
  const action = (string: number) => ({
    what: say`string ${string} over fret 12, as found`,
    tool: "feeler",
    how: say`From the crown of fret 12 to the underside of the open string.`,
  });
  return draft(input, {
    id: "record",
    kind: "record",
    hold: 1,
    title: say`Photograph it and read it as found, before the first screw`,
    tools: [tool(say`camera`), tool(say`steel rule, calliper, feelers`), tool(say`ohmmeter`)],
    instructions: [
      say`Photograph front, back, headstock, every cavity with its wires, every hole.`,
      say`Lay a bank card or a rule in the picture, flat on the face.`,
      say`Play it, and write down what is wrong with it now.`,
    ],
    readings: [
      confirm(
        "record-photos",
        "asFound.photos",
        say`photographs taken`,
        say`Look at them once: sharp, wires to be followed.`,
      ),
      value("record-relief", "neck.relief", relief),
      value("record-action-1", "asFound.strings.1.action", action(1)),
      value(`record-action-${last}`, `asFound.strings.${last}.action`, action(last)),
    ],
  });
}

function partsToMeasure(input: PlanInput, has: Contents): readonly { readonly id: string; readonly name: string }[] {
  const { instrument } = input;
  const named = (id: string, name: string | undefined) => ({ id, name: name === undefined || name === "" ? id : name });
  return [
    ...(has.newNeck ? [named("neck", instrument.neck.name)] : []),
    ...(has.bridge ? [named("bridge", instrument.bridge?.name)] : []),
    ...has.pickups.map((id) => named(id, instrument.pickups.find((pickup) => pickup.id === id)?.name)),
    ...has.controls.map((id) => named(id, instrument.controls.find((control) => control.id === id)?.name)),
    ...(has.lever ? [named("lever", instrument.lever?.name)] : []),
    ...(has.tuners ? [named("tuners", instrument.tuners?.name)] : []),
    ...(has.strings === undefined ? [] : [named("strings", has.strings)]),
  ];
}

function measurePartsStep(input: PlanInput, parts: readonly { readonly id: string; readonly name: string }[]): Draft {
  return draft(input, {
    id: "measure-parts",
    kind: "measure parts",
    hold: 2,
    pieces: parts.length,
    title: say`Measure every new part, not its box`,
    tools: [tool(say`calliper`), tool(say`steel rule`), tool(say`feelers or drill shanks`)],
    instructions: [
      say`Measure each size that the answers use and enter it as measured.`,
      say`Keep the boxes until the job is done.`,
    ],
    readings: parts.map((part) =>
      confirm(
        slug("measured", part.id),
        `parts.${part.id}.measured`,
        say`${part.name}: measured and entered`,
        say`Calliper on the part itself.`,
      ),
    ),
  });
}

function printStep(input: PlanInput, sheet: string): Draft {
  const one = (axis: "along" | "across") =>
    value(`print-${axis}`, `print.${sheet}.${axis}`, {
      what: say`the long rule ${axis} the sheet, as it measures`,
      tool: "steel rule",
      how: say`From the first mark to the last, one laying.`,
    });
  return draft(input, {
    id: "print",
    kind: "print",
    target: sheet,
    hold: 3,
    title: say`Print the sheet at full size and measure its rules`,
    tools: [tool(say`printer, no fitting to the page`), tool(say`steel rule`)],
    instructions: [
      say`Measure both long rules and both diagonals, write them in their boxes, enter them with the code below the boxes.`,
      say`If they are refused, print again with the correction: no hole is marked from this sheet.`,
    ],
    readings: [one("along"), one("across")],
  });
}

function neckSteps(input: PlanInput, has: Contents): readonly Draft[] {
  if (!has.neckComesOff) return [];
  const off: Draft = draft(input, {
    id: "neck-off",
    kind: "neck off",
    target: "neck",
    title: say`Unbolt the neck`,
    work: takeOff("neck"),
    tools: [tool(say`screwdriver that fits the screws`)],
    instructions: [
      say`Slacken the strings first. Loosen the screws in turn, hold the neck.`,
      say`Number the screws by their holes.`,
    ],
    keeps: has.newNeck ? [{ label: "neck", what: say`old neck and its screws` }] : [],
  });
  const on: Draft = draft(input, {
    id: "neck-on",
    kind: "neck on",
    target: "neck",
    title: say`Bolt the ${has.newNeck ? "new " : ""}neck on`,
    work: putOn("neck"),
    tools: [tool(say`screwdriver that fits the screws`), tool(say`two outer strings or threads`)],
    instructions: [
      say`Push the heel home against the end wall and hold it there while you tighten.`,
      say`Tighten in turn, a little each.`,
      say`Pull the neck sideways with the outer strings until both stand the same way in from the board's edges, then tighten.`,
    ],
    readings: [
      value("neck-on-gap", "neck.heelGap", {
        what: say`gap between heel and end wall`,
        tool: "feeler",
        how: say`Neck bolted, slide feelers in; 0 if none goes.`,
      }),
    ],
  });
  return [off, on];
}

function fitSteps(input: PlanInput, has: Contents): readonly Draft[] {
  const { instrument } = input;
  return [
    ...(has.bridge ? [fitBridgeStep(input)] : []),
    ...(has.tuners
      ? [
          draft(input, {
            id: "fit-tuners",
            kind: "fit tuners",
            target: "tuners",
            pieces: instrument.tuners?.count ?? instrument.stringCount,
            title: say`Fit the tuners`,
            work: putOn("tuners"),
            tools: [tool(say`spanner for the bushings`), tool(say`screwdriver`)],
            instructions: [
              say`Bushings by thumb and light pressure; no hammer.`,
              say`Line the tuners up along a rule before the small screws go in.`,
            ],
          }),
        ]
      : []),
    ...(has.strings === undefined ? [] : stringSteps(input, has.strings)),
  ];
}

function stringSteps(input: PlanInput, set: string): readonly Draft[] {
  const { instrument } = input;
  const settle = 24 * 60;
  const restring = draft(input, {
    id: "restring",
    kind: "restring",
    target: "strings",
    title: say`String it: ${set}`,
    work: { act: "restring", set },
    waitAfter: {
      minutes: settle,
      why: say`strings stretch and the neck gives way: leave it at pitch for ${figure(settle / 60, "h", 0)}`,
    },
    tools: [tool(say`string cutter`), tool(say`tuner`)],
    instructions: [
      say`Tune to pitch, stretch each string by hand, tune again; three to five times.`,
      say`Leave it at pitch.`,
    ],
    readings: [
      confirm(
        "restring-pitch",
        "bench.atPitch",
        say`at pitch`,
        say`All strings at pitch, one after the other, twice round.`,
      ),
    ],
  });
  const relief = instrument.neck.relief;
  const per = instrument.strings.flatMap(({ number, action }) => [
    value(`set-up-action-${number}`, `asLeft.strings.${number}.action`, {
      what: say`string ${number} over fret 12`,
      tool: "feeler",
      how: say`Crown of fret 12 to the underside of the open string.`,
      ...(action.known ? { expected: { value: action.value, tolerance: 0.15 } } : {}),
    }),
    value(`set-up-cents-${number}`, `asLeft.strings.${number}.cents`, {
      what: say`string ${number}: fret 12 against open`,
      tool: "tuner",
      how: say`Open and pressed at fret 12, equally loud, three times.`,
      unit: "cents",
      expected: { value: 0, tolerance: 2 },
    }),
  ]);
  const setUp = draft(input, {
    id: "set-up",
    kind: "set up",
    target: "strings",
    hold: 11,
    title: say`Set up, and record relief, nut, action and intonation`,
    tools: [tool(say`feelers`), tool(say`tuner`), tool(say`rod key, saddle keys, nut files`)],
    instructions: [
      say`In this order: relief, nut, action, pickups, intonation. Then once more round.`,
      say`Rod: an eighth of a turn, tune, wait, read.`,
      say`Intonation only when the pitch has held.`,
    ],
    readings: [
      value("set-up-relief", "asLeft.neck.relief", {
        what: say`relief`,
        tool: "feeler",
        how: say`Held at the first and last fret, feeler at fret 7.`,
        ...(relief.known ? { expected: { value: relief.value, tolerance: 0.05 } } : {}),
      }),
      // 0.03 to 0.10 with the string held at fret 3: common practice, no source.
      value("set-up-nut", "asLeft.strings.1.nutHeight", {
        what: say`string 1 over fret 1, held at fret 3`,
        tool: "feeler",
        how: say`Just clear: the string must not lie on fret 1.`,
        expected: { value: 0.065, tolerance: 0.035 },
      }),
      ...per,
    ],
  });
  return [restring, setUp];
}

function batteryStep(input: PlanInput): Draft {
  return draft(input, {
    id: "fit-battery",
    kind: "fit other",
    target: "battery",
    title: say`Fit the battery`,
    tools: [tool(say`ohmmeter`)],
    instructions: [
      say`Battery minus to sleeve: open without a plug in the jack, closed with one.`,
      say`Hold it so that it cannot knock about.`,
    ],
  });
}

function finalSheetStep(input: PlanInput): Draft {
  return draft(input, {
    id: "final-sheet",
    kind: "final sheet",
    hold: 12,
    title: say`Print the final sheet for the case or the customer`,
    tools: [tool(say`printer`), tool(say`bags and labels for the old parts`)],
    instructions: [
      say`As found beside as left, wiring, strings, settings, parts kept, how to go back.`,
      say`Photograph it as left.`,
    ],
    readings: [
      confirm(
        "final-sheet-printed",
        "asLeft.sheet",
        say`sheet printed and put with the instrument`,
        say`Read it once against the instrument.`,
      ),
    ],
  });
}
