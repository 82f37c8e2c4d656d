/** Steps that cut or fill the body: plugs, their trimming, holes, routs. */
import { type Figure, figure, mm, type Phrase, say } from "../quantity/index.ts";
import type { Work } from "../verdict/index.ts";
import { confirm, type Draft, draft, tool, trimIdOf } from "./draft.ts";
import { groupOf, isEars, type PlannedWork } from "./merge-works.ts";
import { toldFrom } from "./told-from.ts";
import { bit, depthStop, forStep } from "./tool-lines.ts";
import type { PlanInput, ToolLine } from "./types.ts";
import { bitSettled, stopSettled } from "./unsettled.ts";

type Act<Name extends Work["act"]> = Extract<Work, { act: Name }>;

/** Glue maker's guide: no stress on a new joint for 24 h (published). */
export const CURE_MINUTES = 24 * 60;

/** A group of holes belongs to the part that it holds. */
export function targetOfGroup(group: string): string {
  if (/^(tuner|headstock)/.test(group)) return "tuners";
  if (/^(lever|switch)/.test(group)) return "lever";
  return /^(bridge|unit|tailpiece)\b|post|stud|through/.test(group) ? "bridge" : group;
}

/** Glue the plugs in, and a day later trim them: two steps, so that other work can be done between. */
export function plugSteps(input: PlanInput, planned: PlannedWork, work: Act<"plug">, id: string): readonly Draft[] {
  const group = groupOf(work.holes[0]?.id ?? "");
  const count = work.holes.length;
  const depths = oldDepths(input, work);
  const { tools, buys } = bit(input.instrument.workshop, { diameterMm: work.diameter, as: "plug" });
  const plugs: Phrase = say`${plural(count, "plug")} Ø ${mm(work.diameter, 1)} of ${input.instrument.body.wood || "the body's wood"}, grain along the face`;
  const glue = draft(input, {
    id,
    kind: "plug",
    target: group,
    title: say`Plug ${plural(count, "hole")} of ${group} with Ø ${mm(work.diameter, 1)}`,
    work,
    permanence: "permanent",
    cause: planned.cause,
    pieces: count,
    waitAfter: { minutes: CURE_MINUTES, why: say`the glue cures: no load on the joint for ${hours(CURE_MINUTES)}` },
    tools: [
      ...tools,
      ...depthStops(depths),
      tool(say`wood glue, above ${figure(5, "°C", 0)}`),
      tool(say`small mallet, rag`),
    ],
    instructions: [
      say`Drill each old hole clean to ${mm(work.diameter, 1)}, square to the face, no deeper than it is.`,
      ...(depths.unknown.length > 0
        ? [
            say`Nobody has measured how deep ${depths.unknown.join(", ")} ${depths.unknown.length > 1 ? "are" : "is"}: feel for ${depths.unknown.length > 1 ? "each bottom" : "its bottom"} with a thin rod, mark the rod, and set the stop to the mark.`,
          ]
        : []),
      say`Turn each plug until its grain runs with the body's.`,
      say`Glue the bore and the plug, tap it in, wipe off what comes out.`,
      say`Leave it proud. Write the time on the body's tape.`,
    ],
    buys: [
      ...forStep(buys, id),
      { what: plugs, quantity: count, steps: [id] },
      { what: say`wood glue`, quantity: 1, steps: [id] },
    ],
  });
  return [glue, trimStep(input, planned, work, trimIdOf(id))];
}

function trimStep(input: PlanInput, planned: PlannedWork, work: Act<"plug">, id: string): Draft {
  const group = groupOf(work.holes[0]?.id ?? "");
  const count = work.holes.length;
  return draft(input, {
    id,
    kind: "trim plugs",
    target: group,
    plugs: work.holes.map(({ u, y }) => ({ u, y, diameter: work.diameter })),
    hold: 5,
    title: say`Trim the plugs of ${group} and look at each`,
    permanence: "hidden",
    cause: planned.cause,
    pieces: count,
    tools: [tool(say`sharp chisel or flush saw`), tool(say`masking tape round each plug`)],
    instructions: [
      say`Cut from the edge of the plug toward its middle, until it is flush.`,
      say`Push each with a rod: a plug that moves is drilled out and glued again.`,
    ],
    readings: [
      confirm(
        `${id}-sound`,
        `bench.plugs.${id}`,
        say`every plug flush, cured and firm`,
        say`Look along the face; push with a rod.`,
      ),
    ],
  });
}

interface OldDepths {
  /** Holes by how deep they are, the shallowest first. */
  readonly known: readonly { readonly depthMm: number; readonly ids: readonly string[] }[];
  readonly unknown: readonly string[];
}

/** The answers take a hole of unknown depth as going through, to be safe with walls: a bit must not. */
function oldDepths(input: PlanInput, work: Act<"plug">): OldDepths {
  const asked = new Map(input.instrument.body.holes.map(({ id, depth }) => [id, depth]));
  const unknown = work.holes.flatMap(({ id }) => {
    const depth = asked.get(id);
    return depth !== undefined && depth !== "through" && !depth.known ? [id] : [];
  });
  const byDepth = new Map<number, string[]>();
  for (const { id, depth } of work.holes)
    if (typeof depth === "number" && Number.isFinite(depth) && !unknown.includes(id))
      byDepth.set(depth, [...(byDepth.get(depth) ?? []), id]);
  const known = [...byDepth].map(([depthMm, ids]) => ({ depthMm, ids })).sort((x, y) => x.depthMm - y.depthMm);
  return { known, unknown };
}

/** A stop for each depth: one stop for all would bore the shallow ones deeper than they are. */
function depthStops({ known, unknown }: OldDepths): readonly ToolLine[] {
  if (known.length === 1 && unknown.length === 0) return known.map(({ depthMm }) => depthStop(depthMm));
  return known.map(({ depthMm, ids }) =>
    tool(say`stop set to ${mm(depthMm, 1)} for ${ids.join(", ")}`, { large: true }),
  );
}

export function drillStep(input: PlanInput, planned: PlannedWork, work: Act<"drill">, id: string): Draft {
  const { workshop, body } = input.instrument;
  const target = targetOfGroup(work.group);
  const sized = (hole: (typeof work.holes)[number]) => target !== "bridge" || bitSettled(hole.id, input.verdicts);
  const sizes = [...new Set(work.holes.filter(sized).map((hole) => hole.diameter))];
  const taken = sizes.map((diameterMm) =>
    bit(workshop, {
      diameterMm,
      as: work.holes.some((hole) => hole.diameter === diameterMm && hole.thread > diameterMm) ? "pilot" : "clearance",
    }),
  );
  // A depth of 0 stands for right through.
  const settled = (hole: (typeof work.holes)[number]) => stopSettled(hole, target, input.verdicts);
  const depths = [...new Set(work.holes.filter(settled).map((hole) => hole.depth))].filter((depth) => depth > 0);
  const depthWords = (hole: (typeof work.holes)[number]): Phrase => {
    if (!settled(hole)) return say`depth not settled`;
    return hole.depth > 0 ? say`${mm(hole.depth, 1)} deep` : say`right through, half from each face`;
  };
  const template = target === "bridge" ? input.toFit.template : undefined;
  const doubt = workshop.drillingDoubt;
  const onBody = target !== "tuners";
  // Without a place there is no sheet to lay on: the words are those of the usual one.
  const register = input.places?.register.words ?? "fret 12";
  return draft(input, {
    id,
    kind: "drill",
    target,
    title: say`Drill ${plural(work.holes.length, "hole")} for ${work.group}`,
    work,
    permanence: "permanent",
    cause: planned.cause,
    pieces: work.holes.length,
    tools: [
      ...taken.flatMap((one) => one.tools),
      ...(work.holes.every(sized) ? [] : [tool(say`drill bit not settled`, { large: true })]),
      ...depths.map(depthStop),
      ...(work.holes.every(settled) ? [] : [tool(say`stop not settled`, { large: true })]),
      tool(say`${workshop.drilling}`),
      tool(say`centre punch or awl`),
    ],
    instructions: [
      ...(template === undefined
        ? []
        : [say`Lay the sheet on by ${register} and the centre line, not by the body's edge.`]),
      say`Prick each centre; check it against the numbers below before the bit turns.`,
      ...(onBody
        ? work.holes.map((hole): Phrase => {
            const place = toldFrom(input, hole.u);
            return say`${hole.id}: ${mm(place.mm)} back from ${place.words}, ${side(input, hole.y)}, ${sized(hole) ? say`Ø ${mm(hole.diameter, 1)}` : say`bit not settled`}, ${depthWords(hole)}.`;
          })
        : []),
      ...(work.intoPlugs
        ? [say`The bit runs into the plugs: guide it, through the plate or a block, and start slowly.`]
        : []),
      say`Relieve the edge of each hole by hand, a turn or two, so that the finish does not lift.`,
      say`Measure where each hole came and enter it as it is.`,
    ],
    rehearsal: say`Drill two in scrap of ${body.wood || "the same wood"} first, with this bit, stop and guide; ${/post|stud/.test(work.group) ? "press a bushing into each" : "drive a screw into each"} and look for a split.`,
    buys: forStep(
      taken.flatMap((one) => one.buys),
      id,
    ),
    gate: {
      ...(onBody && doubt.known ? { execution: { u: doubt.value, how: workshop.drilling } } : {}),
      ...(template === undefined ? {} : { template }),
    },
  });
}

/** "10.5 to the bass side", "on the centre line". */
function side(input: PlanInput, y: number): Phrase {
  if (Math.abs(y) < 0.005) return say`on the centre line`;
  return say`${mm(Math.abs(y))} to the ${y * input.instrument.bassSide > 0 ? "bass" : "treble"} side`;
}

export function routStep(input: PlanInput, planned: PlannedWork, work: Act<"rout">, id: string): Draft {
  const ears = isEars(work.what);
  const what = ears ? `ears of ${work.cavity}` : work.cavity;
  const target = work.cavity;
  const cavity = input.instrument.body.cavities.find(({ id }) => id === work.cavity);
  const now = ears ? cavity?.ears?.depth : cavity?.depth;
  const to: Phrase = now?.known ? say`, to ${mm(now.value + work.depthBy, 1)} from the top` : say``;
  return draft(input, {
    id,
    kind: "rout",
    target,
    title: say`Rout the ${what}`,
    work,
    permanence: "permanent",
    cause: planned.cause,
    tools: [
      tool(say`router or rotary cutter with a template`),
      ...(work.depthBy > 0 ? [tool(say`depth: ${mm(work.depthBy, 1)} more than now`, { large: true })] : []),
    ],
    instructions: [
      ...(work.lengthBy > 0
        ? [say`Take ${mm(work.lengthBy / 2, 1)} off at each end: ${mm(work.lengthBy, 1)} in all.`]
        : []),
      ...(work.widthBy > 0 ? [say`Make it ${mm(work.widthBy, 1)} wider in all.`] : []),
      ...(work.depthBy > 0 ? [say`Go ${mm(work.depthBy, 1)} deeper${to}, no more than ${mm(3, 0)} a pass.`] : []),
      say`Tape the face, score the finish along the line, clamp the template.`,
      say`Try the part in before the last pass: it drops in under its own weight.`,
    ],
    rehearsal: say`Cut one end in scrap with the same cutter and template and measure it.`,
  });
}

export function plural(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? "" : "s"}`;
}

export function hours(minutes: number): Figure {
  return figure(minutes / 60, "h", 0);
}
