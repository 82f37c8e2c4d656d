/** Steps that open holes of controls and tuners, cut the lever's slot and the nut, set the shim, and the small ones. */
import { figure, mm, type Phrase, say } from "../quantity/index.ts";
import type { Work } from "../verdict/index.ts";
import { type Draft, draft, tool } from "./draft.ts";
import { type PlannedWork, placeName } from "./merge-works.ts";
import { bit, forStep, opener, slotFiles, type Taken } from "./tool-lines.ts";
import type { PlanInput } from "./types.ts";
import { plural } from "./wood-steps.ts";

type Act<Name extends Work["act"]> = Extract<Work, { act: Name }>;

export function reamStep(input: PlanInput, planned: PlannedWork, work: Act<"ream">, id: string): Draft {
  const place = placeName(work.where);
  // An operation in the log need not say from what to what: then only the end is told.
  const fromKnown = Number.isFinite(work.from);
  const { tools, buys } = fromKnown ? opener(input.instrument.workshop, work.from, work.to) : { tools: [], buys: [] };
  return draft(input, {
    id,
    kind: "ream",
    target: /^(tuner|headstock)/.test(place) ? "tuners" : place,
    title: say`Open ${work.count === 1 ? "the hole" : plural(work.count, "hole")} of ${place} ${fromKnown ? say`from ${mm(work.from, 1)} ` : ""}to ${mm(work.to, 1)}`,
    work,
    permanence: "permanent",
    cause: planned.cause,
    pieces: work.count,
    tools: [...tools, tool(say`calliper`), tool(say`masking tape on both faces`)],
    instructions: [
      say`Turn by hand, from the face first, then from behind.`,
      say`Measure every few turns; stop when the part goes in by thumb.`,
    ],
    rehearsal: say`Open one hole in scrap with the same tool and try the part in it.`,
    buys: forStep(buys, id),
  });
}

export function spotFaceStep(input: PlanInput, planned: PlannedWork, work: Act<"spot-face">, id: string): Draft {
  const place = placeName(work.where);
  return draft(input, {
    id,
    kind: "spot-face",
    target: place,
    title: say`Thin the wood inside at ${place} by ${mm(work.depth, 1)}`,
    work,
    permanence: "permanent",
    cause: planned.cause,
    tools: [
      tool(say`flat-bottomed cutter, wider than the washer`),
      tool(say`stop set to ${mm(work.depth, 1)}`, { large: true }),
    ],
    instructions: [
      say`Cut from inside, square to the hole.`,
      ...(Number.isFinite(work.leaves)
        ? [say`Leave ${mm(work.leaves, 1)} of wood: measure after the first ${mm(work.depth / 2, 1)}.`]
        : []),
      say`Put the part in dry: two full threads above the nut.`,
    ],
    rehearsal: say`Set the stop on scrap and measure the depth it gives.`,
  });
}

export function slotStep(input: PlanInput, planned: PlannedWork, work: Act<"slot">, id: string): Draft {
  const place = placeName(work.where);
  const fromKnown = Number.isFinite(work.from);
  // Where the slot will do as it is only the screw holes are drilled.
  const screws = work.screwOffset > 0;
  const lengthens = !(screws && fromKnown && work.to <= work.from);
  const drilled = screws ? screwBits(input) : { tools: [], buys: [] };
  return draft(input, {
    id,
    kind: "slot",
    target: "lever",
    title: lengthens
      ? say`Lengthen the slot of ${place} ${fromKnown ? say`from ${mm(work.from, 1)} ` : ""}to ${mm(work.to, 1)}`
      : say`Drill the screw holes of ${place}, ${mm(work.screwOffset)} each way from the slot's middle`,
    work,
    permanence: "permanent",
    cause: planned.cause,
    tools: [
      ...(lengthens ? [tool(say`fine files, or a rotary cutter along a straight edge`)] : []),
      ...drilled.tools,
      ...(screws ? [tool(say`screw holes ${mm(work.screwOffset)} each way from the middle`, { large: true })] : []),
    ],
    instructions: [
      middleLine(work, lengthens),
      ...(screws && work.cover === ""
        ? [say`The old screw holes stay open in sight: make sure that the owner knows before the bit turns.`]
        : []),
      ...(work.cover === "" ? [] : [say`Try the ${work.cover} on: it has to hide the old holes.`]),
      say`Move the lever through every place before the screws go in.`,
    ],
    rehearsal: lengthens
      ? say`Cut the slot in a piece of card or scrap and move the lever through it.`
      : say`Drill both holes in a piece of scrap and try the lever on it.`,
    buys: forStep(drilled.buys, id),
  });
}

function middleLine(work: Act<"slot">, lengthens: boolean): Phrase {
  if (!lengthens) return say`Mark the middle of the slot first, then both holes from it; the slot stays as it is.`;
  if (!Number.isFinite(work.from)) return say`Mark the middle of the slot first: the same at each end.`;
  return say`Mark the middle of the slot first: take ${mm((work.to - work.from) / 2, 1)} off at each end.`;
}

/** The lever's own screws say which bit. */
function screwBits({ instrument }: PlanInput): Taken {
  const hole = instrument.lever?.screwHole;
  if (!hole?.known) return { tools: [], buys: [] };
  return bit(instrument.workshop, { diameterMm: hole.value, as: "clearance" });
}

export function shimStep(input: PlanInput, planned: PlannedWork, work: Act<"shim">, id: string): Draft {
  const { shim: old } = input.instrument;
  // A shim of this very thickness is the one that this step put in.
  const comesOut = old.known && old.value > 0 && old.value !== work.thickness ? old.value : undefined;
  return draft(input, {
    id,
    kind: "shim",
    target: "neck",
    title: say`Make a shim: ${mm(work.thickness)} at the heel's end, nothing at the mouth of the pocket`,
    work,
    cause: planned.cause,
    tools: [
      tool(say`full-length wedge of hard wood, ${mm(work.length, 0)} long`),
      tool(say`thick end ${mm(work.thickness)}`, { large: true }),
    ],
    instructions: [
      ...(comesOut === undefined
        ? []
        : [
            say`Take the old shim of ${mm(comesOut)} out: ${mm(work.thickness)} is the whole thickness, the two do not go on top of each other.`,
          ]),
      say`Cover the whole pocket: a strip at one end lets the end of the neck kink up.`,
      say`The wedge falls by ${figure(work.angleDegrees, "°", 2)} from the heel's end.`,
      say`Drill the screw holes through it, lay it in dry, no glue.`,
    ],
    buys: [
      {
        what: say`hard wood for a shim, ${mm(work.length, 0)} long, ${mm(work.thickness)} thick`,
        quantity: 1,
        steps: [id],
      },
    ],
  });
}

export function nutStep(input: PlanInput, planned: PlannedWork, work: Act<"nut slots">, id: string): Draft {
  const widths = work.widths.map((width) => width.to);
  const { tools, buys } = slotFiles(input.instrument.workshop, widths);
  return draft(input, {
    id,
    kind: "nut slots",
    target: "nut",
    title: say`Open ${plural(work.widths.length, "nut slot")}`,
    work,
    permanence: "permanent",
    cause: planned.cause,
    pieces: work.widths.length,
    tools: [...tools, tool(say`the new strings, to try`)],
    instructions: [
      ...work.widths.map((width) => say`String ${width.string}: to ${mm(width.to)}.`),
      say`Round bottom, falling toward the tuner; the string leaves the slot at the front edge.`,
      say`Widen only: the depth is set later, at the set-up.`,
    ],
    buys: forStep(buys, id),
  });
}

export function insulateStep(input: PlanInput, planned: PlannedWork, work: Act<"insulate">, id: string): Draft {
  const place = placeName(work.where);
  return draft(input, {
    id,
    kind: "insulate",
    target: place,
    title: say`Keep ${place} off the foil`,
    work,
    cause: planned.cause,
    pieces: 1,
    tools: [tool(say`card or tape that does not conduct`)],
    instructions: [
      say`Line the wall where the part comes near it, a finger's width past it all round.`,
      say`Move the part through its whole travel and look.`,
    ],
  });
}

export function bareContactStep(input: PlanInput, planned: PlannedWork, work: Act<"bare contact">, id: string): Draft {
  const place = placeName(work.where);
  return draft(input, {
    id,
    kind: "bare contact",
    target: "bridge",
    title: say`Make bare metal for the string ground: ${place}`,
    work,
    permanence: "hidden",
    cause: planned.cause,
    tools: [tool(say`scraper or fine file`), tool(say`ohmmeter`)],
    instructions: [
      say`Scrape a spot the size of the wire's end where the part will hide it, or take a lug on a screw.`,
      say`Touch both probes to it: near ${figure(0, "Ω", 0)}.`,
    ],
  });
}

export function chooseStep(input: PlanInput, planned: PlannedWork, work: Act<"choose">, id: string): Draft {
  return draft(input, {
    id,
    kind: "choose",
    target: work.what,
    title: say`Decide: ${work.what}`,
    work,
    cause: planned.cause,
    instructions: [say`Write down what was decided and why. Nothing is bought or cut before.`],
  });
}
