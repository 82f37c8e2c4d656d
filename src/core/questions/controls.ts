/** Pots, switches and jacks: hole and room below. Rules FT10, FT11. Bushings: bushings.ts. Knobs and tapers: knobs.ts. */
import { type DepthBelow, type HoleForThread, holeForThread, openingTool, RULES } from "../fit/index.ts";
import type { Control, Instrument } from "../job/index.ts";
import type { Asking } from "../ledger/index.ts";
import { mm, type Phrase, say, unknown } from "../quantity/index.ts";
import type { Remedy, Verdict } from "../verdict/index.ts";
import { bushingAnswer, limitLine, thinSum } from "./bushings.ts";
import {
  at,
  clean,
  doubtLine,
  fitVerdict,
  type Judgement,
  judge,
  judgedParts,
  type Leaves,
  type Margins,
  ruleSum,
  valuesOf,
} from "./judge.ts";
import { knobQuestions } from "./knobs.ts";
import { type InstrumentQuestion, measureVerdict } from "./make-verdict.ts";
import { roomBelow, roomBelowSum } from "./room-below.ts";
import { type Thinning, thinningAt } from "./spot-face.ts";

/** A hole this much too wide needs a washer that covers it. Common practice, no source. */
const WIDE_FROM_MM = 1;

export function controlQuestions(instrument: Instrument): InstrumentQuestion[] {
  return instrument.controls.flatMap((control) => [...woodQuestions(control), ...knobQuestions(control)]);
}

type Asked = { readonly id: string; readonly question: string };
type Answer = (asking: Asking<Instrument>, control: Control, asked: Asked) => Verdict;

function woodQuestions(control: Control): InstrumentQuestion[] {
  const { id, name, kind } = control;
  const ask = (part: string, words: string, answer: Answer): InstrumentQuestion => {
    const asked = { id: `control.${id}.${part}`, question: words };
    return { ...asked, answer: (asking) => answerFor(asking, id, asked, answer) };
  };
  const hole = ask("hole", `Does the ${name} (${id}) go through its hole?`, holeAnswer);
  const bushing = ask("bushing", `Does the bushing of the ${name} (${id}) reach through the top?`, bushingAnswer);
  const depth = ask("depth", `Is there room below for the ${name} (${id})?`, depthAnswer);
  // A jack often sits in a plate of its own: nothing is asked of wood that nobody has described.
  const inWood = kind !== "jack" || control.threadLength.known;
  const inCavity = kind !== "jack" || (control.depth.known && control.freeDepth.known);
  return [...(inWood ? [bushing] : []), hole, ...(inCavity ? [depth] : [])];
}

function answerFor(asking: Asking<Instrument>, id: string, asked: Asked, answer: Answer): Verdict {
  const control = asking.subject.controls.find((one) => one.id === id);
  if (control) return answer(asking, control, asked);
  return measureVerdict({ ...asked, stake: 2 }, [unknown(`controls.${id}`, "length")], "whether it fits");
}

function depthAnswer(asking: Asking<Instrument>, control: Control, asked: Asked): Verdict {
  const room: Leaves = { free: control.freeDepth, part: control.depth, lugs: control.lugs };
  const thinning = thinningAt(asking, control.id);
  const byMm = thinning?.goes ? thinning.depthMm : 0;
  const leaves: Leaves = byMm > 0 ? { ...room, wood: control.wood, woodLeft: asking.subject.limits.woodLeft } : room;
  const judged = judge({
    leaves,
    margins: { depth: (x) => roomBelow(x).marginMm },
    after: byMm > 0 ? thinnedBy(byMm) : undefined,
    work: "permanent",
    gate: asking.subject.limits.gateProbability,
  });
  if (!judged.known) return measureVerdict({ ...asked, stake: 2 }, judged.missing, "whether there is room below");
  const cure = judged.status === "rework" ? thinning : undefined;
  const values = valuesOf(leaves);
  const now = roomBelow(values);
  const free = at(values, "free");
  return fitVerdict({
    ...asked,
    ...judgedParts(judged),
    stake: 2,
    headline: depthLine(now, cure, judged.status),
    detail: [
      say`Need ${mm(now.needMm, 1)} with room for the lugs; free depth ${mm(free, 1)}.`,
      ...doubtLine(judged, "Lay a lump of putty on the lugs, close the cover, and measure how flat it got."),
      ...limitLine(cure, at(values, "woodLeft")),
    ],
    remedies: judged.status === "go" ? [] : depthRemedies(cure, now.shortMm, judged.probability),
    work: cure ? [cure.work] : [],
    sums: [roomBelowSum(leaves, now, "the part"), ...thinSum(cure, leaves)],
    figures: {
      need: now.needMm,
      have: free,
      short: now.shortMm,
      ...(cure ? { spotFace: cure.depthMm, freeDepthAfter: free + cure.depthMm } : {}),
    },
  });
}

/**
 * One thins until the part has room, so what is short is what comes off the wood, and the rest has to be enough: that
 * against the least wood may fail as well as the room.
 */
function thinnedBy(byMm: number): Margins {
  return {
    depth: (x) => roomBelow(x).marginMm + byMm,
    woodLeft: (x) => at(x, "wood") + roomBelow(x).marginMm - at(x, "woodLeft"),
  };
}

function depthLine(now: DepthBelow, cure: Thinning | undefined, status: Verdict["status"]): Phrase {
  if (status === "go") return say`There is room below, with ${mm(now.marginMm, 1)} to spare.`;
  if (status === "measure")
    return say`Too close to call whether the cover will close: measure before you thin the wood.`;
  const short = say`Too deep by ${mm(now.shortMm, 1)}: the cover will not close`;
  if (!cure) return say`${short}.`;
  return say`${short} as it is. Thinning the wood by ${mm(cure.depthMm, 1)} brings the part up and leaves ${mm(cure.depthMm - now.shortMm, 1)} to spare.`;
}

function depthRemedies(cure: Thinning | undefined, shortMm: number, probability: number): Remedy[] {
  const others: Remedy[] = [
    { id: "shallower-part", text: say`Take a part at least ${mm(shortMm, 1)} shallower.`, permanence: "reversible" },
    { id: "raised-cover", text: say`Make a cover that stands ${mm(shortMm, 1)} higher.`, permanence: "reversible" },
  ];
  if (!cure) return others;
  const text = say`Thin the wood from inside by ${mm(cure.depthMm, 1)}; ${mm(cure.leavesMm, 1)} stays.`;
  return [{ id: "spot-face", text, permanence: "permanent", then: "go", probability }, ...others];
}

function holeAnswer(asking: Asking<Instrument>, control: Control, asked: Asked): Verdict {
  const { limits, workshop } = asking.subject;
  const leaves: Leaves = { hole: control.hole, thread: control.threadDiameter, clearance: limits.bushingClearance };
  const values = valuesOf(leaves);
  const targetMm = at(values, "thread") + at(values, "clearance");
  const judged = judge({
    leaves,
    margins: { hole: (x) => at(x, "hole") - at(x, "thread") - at(x, "clearance") },
    bare: { hole: (x) => at(x, "hole") - at(x, "thread") },
    after: { hole: (x) => targetMm - at(x, "thread") },
    work: "permanent",
    gate: limits.gateProbability,
  });
  if (!judged.known) return measureVerdict({ ...asked, stake: 3 }, judged.missing, "whether it goes through its hole");
  const reamers = workshop.reamers.flatMap((one) => (one.known ? [one.value] : []));
  return holeVerdict(asked, control.id, leaves, judged, reamers);
}

function holeVerdict(
  asked: Asked,
  id: string,
  leaves: Leaves,
  judged: Judgement,
  reamersMm: readonly number[],
): Verdict {
  const values = valuesOf(leaves);
  const holeMm = at(values, "hole");
  const now = holeForThread({ holeMm, threadMm: at(values, "thread"), clearanceMm: at(values, "clearance") });
  const reams = judged.status === "rework";
  const target = mm(now.targetMm, 1);
  return fitVerdict({
    ...asked,
    ...judgedParts(judged),
    stake: 3,
    headline: holeLine(judged.status, now, holeMm, at(values, "thread")),
    detail: [
      ...(reams ? [toolLine(openingTool({ fromMm: holeMm, toMm: now.targetMm, reamersMm }))] : []),
      ...doubtLine(judged, "Try the bushing in the hole."),
      ...(now.tooWideByMm > WIDE_FROM_MM
        ? [
            say`The hole is ${mm(now.tooWideByMm, 1)} wider than it need be: take a washer that covers it all round, and centre the part.`,
          ]
        : []),
    ],
    remedies: reams
      ? [
          {
            id: "ream",
            text: say`Ream to ${target}, trying the part as you go.`,
            permanence: "permanent",
            then: "go",
            probability: judged.probability,
          },
        ]
      : [],
    work: reams ? [{ act: "ream", where: `controls.${id}`, count: 1, from: holeMm, to: clean(now.targetMm) }] : [],
    sums: [
      ruleSum({
        title: "Hole for the bushing",
        rule: RULES.threadHole,
        leaves,
        rows: [
          ["hole", "hole there", "the hole there is"],
          ["thread", "thread", "across the thread"],
          ["clearance", "clearance", "free fit"],
        ],
        result: say`${target}`,
      }),
    ],
    figures: { have: holeMm, target: now.targetMm, reamBy: now.reamByMm, tooWideBy: now.tooWideByMm },
  });
}

function holeLine(status: Verdict["status"], now: HoleForThread, holeMm: number, threadMm: number): Phrase {
  if (status === "rework") return say`Ream the hole from ${mm(holeMm, 1)} to ${mm(now.targetMm, 1)}.`;
  if (status === "measure")
    return say`Too close to call whether the bushing passes a hole of ${mm(holeMm)}: it wants ${mm(now.targetMm)}.`;
  return say`The bushing passes its hole of ${mm(holeMm, 1)}, ${mm(holeMm - threadMm)} wider than the thread.`;
}

function toolLine(how: ReturnType<typeof openingTool>): Phrase {
  const tool = how.ownMm === undefined ? say`a ${how.tool}` : say`your ${mm(how.ownMm)} reamer`;
  return say`Use ${tool}, by hand, from the face inward; never a twist bit in a hole that is there: it grabs and tears the finish. Break the edge of the finish first.`;
}
