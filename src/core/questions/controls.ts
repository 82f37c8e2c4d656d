/** Pots, switches and jacks in their holes: bushing, room below, hole. Rules FT8 to FT11. Knobs and tapers: knobs.ts. */
import { bushingFit, controlDepth, holeForThread, openingTool, RULES } from "../fit/index.ts";
import type { Control, Instrument } from "../job/index.ts";
import type { Asking, Numbers } from "../ledger/index.ts";
import { mm, type Phrase, say, unknown, valueOr } from "../quantity/index.ts";
import type { Remedy, Verdict } from "../verdict/index.ts";
import { at, doubtLine, judge, judgedParts, type Leaves, type Margins, ruleSum } from "./judge.ts";
import { knobQuestions } from "./knobs.ts";
import { type InstrumentQuestion, makeVerdict, measureVerdict } from "./make-verdict.ts";
import { stackOf, type Thinning, thinningAt } from "./spot-face.ts";

/** So near to the least wood that it is said. */
const AT_LIMIT_MM = 0.25;
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

function bushingAnswer(asking: Asking<Instrument>, control: Control, asked: Asked): Verdict {
  const { limits } = asking.subject;
  const leaves: Leaves = {
    wood: control.wood,
    thread: control.threadLength,
    foil: limits.foil,
    lockWasher: limits.lockWasher,
    washer: limits.washer,
    nut: limits.nut,
    woodLeft: limits.woodLeft,
  };
  const fitAt = (x: Numbers) =>
    bushingFit({
      woodMm: at(x, "wood"),
      threadMm: at(x, "thread"),
      foilMm: at(x, "foil"),
      lockWasherMm: at(x, "lockWasher"),
      washerMm: at(x, "washer"),
      nutMm: at(x, "nut"),
    });
  const thinning = thinningAt(asking, control.id);
  const long = control.alternative?.threadLength;
  const judged = judge({
    leaves: long?.known && !thinning?.goes ? { ...leaves, long } : leaves,
    margins: { bushing: (x) => fitAt(x).marginMm },
    after: curedBy(thinning, long?.known ?? false, fitAt),
    work: thinning?.goes ? "permanent" : "reversible",
    gate: limits.gateProbability,
  });
  if (!judged.known) return measureVerdict({ ...asked, stake: 2 }, judged.missing, "whether the bushing reaches");
  const now = bushingFit({
    woodMm: valueOr(control.wood, Number.NaN),
    threadMm: valueOr(control.threadLength, Number.NaN),
    ...stackOf(asking.subject),
  });
  const proudLong = long?.known ? long.value - now.needMm : undefined;
  const cures = judged.status === "rework";
  return makeVerdict({
    ...asked,
    ...judgedParts(judged),
    stake: 2,
    headline: bushingLine(control, now, thinning),
    detail: [
      say`Need ${mm(now.needMm, 1)}: wood ${mm(valueOr(control.wood, Number.NaN), 1)}, foil, washers and nut ${mm(now.stackMm, 1)}. Thread ${mm(valueOr(control.threadLength, Number.NaN), 1)}.`,
      ...doubtLine(judged, "Put it in the hole with its washers and count the threads above the nut."),
      ...limitLine(thinning, valueOr(limits.woodLeft, 3)),
      say`Afterwards two full threads should show above the nut. Never pull a short thread through with the nut: the bushing tears.`,
    ],
    remedies: judged.status === "go" ? [] : bushingRemedies(thinning, control, proudLong, judged.probability),
    work: !cures ? [] : thinning?.goes ? [thinning.work] : buyLong(control, now.needMm),
    sums: [
      ruleSum({
        title: "Bushing through the top",
        rule: RULES.bushing,
        leaves,
        rows: [
          ["thread", "thread", "length of the thread"],
          ["wood", "wood", "wood at the hole"],
          ["foil", "foil", "foil"],
          ["lockWasher", "lock washer", "lock washer, inside"],
          ["washer", "washer", "washer"],
          ["nut", "nut", "nut"],
        ],
        result: say`${mm(now.marginMm, 1)}`,
      }),
      ...thinSum(thinning, leaves),
    ],
    figures: {
      need: now.needMm,
      have: valueOr(control.threadLength, Number.NaN),
      short: now.shortMm,
      stack: now.stackMm,
      ...(thinning && now.shortMm > 0 ? { spotFace: thinning.depthMm, woodLeft: thinning.leavesMm } : {}),
      ...(proudLong === undefined ? {} : { alternativeProud: proudLong }),
    },
  });
}

/**
 * One thins the wood until the part reaches, so what stays is thread less stack whatever the wood was: that against the
 * least wood is what may fail. A longer version must reach through the wood as it is.
 */
function curedBy(
  thinning: Thinning | undefined,
  longer: boolean,
  fitAt: (x: Numbers) => { readonly needMm: number; readonly stackMm: number },
): Margins | undefined {
  if (thinning?.goes) return { woodLeft: (x) => at(x, "thread") - fitAt(x).stackMm - at(x, "woodLeft") };
  return longer ? { longer: (x) => at(x, "long") - fitAt(x).needMm } : undefined;
}

function bushingLine(
  control: Control,
  now: { readonly marginMm: number; readonly shortMm: number },
  thinning: Thinning | undefined,
): Phrase {
  if (now.shortMm === 0)
    return say`The bushing reaches through the top, with ${mm(now.marginMm, 1)} of thread to spare.`;
  const short = say`The bushing is ${mm(now.shortMm, 1)} too short for the top`;
  if (thinning?.goes)
    return say`${short}: thin the wood from inside by ${mm(thinning.depthMm, 1)}, which leaves ${mm(thinning.leavesMm, 1)}.`;
  const { alternative } = control;
  if (alternative?.threadLength.known)
    return say`${short}: take the ${alternative.name}, with ${mm(alternative.threadLength.value, 1)} of thread.`;
  return say`${short}, and there is too little wood to thin.`;
}

function limitLine(thinning: Thinning | undefined, leastMm: number): Phrase[] {
  if (!thinning?.goes || thinning.leavesMm - leastMm >= AT_LIMIT_MM) return [];
  return [
    say`That is the limit of ${mm(leastMm, 1)}: measure the wood at the hole, set the depth stop, and stop as soon as the part reaches.`,
  ];
}

function bushingRemedies(
  thinning: Thinning | undefined,
  control: Control,
  proudLong: number | undefined,
  probability: number,
): Remedy[] {
  const out: Remedy[] = [];
  if (thinning?.goes) {
    out.push({
      id: "spot-face",
      text: say`Thin the wood from inside by ${mm(thinning.depthMm, 1)} at ${control.id}; ${mm(thinning.leavesMm, 1)} stays.`,
      permanence: "permanent",
      then: "go",
      probability,
      figures: { depth: thinning.depthMm, leaves: thinning.leavesMm },
    });
  }
  if (control.alternative && proudLong !== undefined && proudLong >= 0) {
    out.push({
      id: "longer-bushing",
      text: say`Take the ${control.alternative.name}: its thread stands ${mm(proudLong, 1)} proud of what is needed. Nuts on the inside take that up.`,
      permanence: "reversible",
      then: "go",
      figures: { proud: proudLong },
    });
  }
  return out;
}

function buyLong(control: Control, needMm: number) {
  const what = control.alternative?.name ?? `${control.name} with a longer bushing`;
  return [{ act: "buy" as const, what, spec: `thread at least ${needMm.toFixed(1)} mm long` }];
}

function thinSum(thinning: Thinning | undefined, leaves: Leaves) {
  if (!thinning?.goes) return [];
  const rows = [["wood", "wood", "wood at the hole"] as const, ["woodLeft", "least", "least wood that stays"] as const];
  return [
    ruleSum({
      title: "Wood left",
      rule: RULES.spotFace,
      leaves,
      rows,
      result: say`${mm(thinning.depthMm, 1)} deep, ${mm(thinning.leavesMm, 1)} left`,
    }),
  ];
}

function depthAnswer(asking: Asking<Instrument>, control: Control, asked: Asked): Verdict {
  const leaves: Leaves = { free: control.freeDepth, part: control.depth, lugs: control.lugs };
  const fitAt = (x: Numbers) =>
    controlDepth({ partMm: at(x, "part"), lugsMm: at(x, "lugs"), freeDepthMm: at(x, "free") });
  const thinning = thinningAt(asking, control.id);
  const byMm = thinning?.goes ? thinning.depthMm : 0;
  const judged = judge({
    leaves,
    margins: { depth: (x) => fitAt(x).marginMm },
    after: byMm > 0 ? { depth: (x) => fitAt(x).marginMm + byMm } : undefined,
    work: "permanent",
    gate: asking.subject.limits.gateProbability,
  });
  if (!judged.known) return measureVerdict({ ...asked, stake: 2 }, judged.missing, "whether there is room below");
  const free = valueOr(control.freeDepth, Number.NaN);
  const now = controlDepth({
    partMm: valueOr(control.depth, Number.NaN),
    lugsMm: valueOr(control.lugs, 2),
    freeDepthMm: free,
  });
  const cures = judged.status === "rework" && thinning !== undefined;
  return makeVerdict({
    ...asked,
    ...judgedParts(judged),
    stake: 2,
    headline: depthLine(now, cures ? thinning : undefined),
    detail: [
      say`Need ${mm(now.needMm, 1)} with room for the lugs; free depth ${mm(free, 1)}.`,
      ...doubtLine(judged, "Lay a lump of putty on the lugs, close the cover, and measure how flat it got."),
    ],
    remedies:
      judged.status === "go" ? [] : depthRemedies(cures ? thinning : undefined, now.shortMm, judged.probability),
    work: cures ? [thinning.work] : [],
    sums: [
      ruleSum({
        title: "Room below",
        rule: RULES.controlDepth,
        leaves,
        rows: [
          ["free", "free depth", "inner face of the top to the cover"],
          ["part", "part", "the part below the top"],
          ["lugs", "lugs", "room for bent lugs"],
        ],
        result: say`${mm(now.marginMm, 1)}`,
      }),
    ],
    figures: {
      need: now.needMm,
      have: free,
      short: now.shortMm,
      ...(cures ? { spotFace: thinning.depthMm, freeDepthAfter: free + byMm } : {}),
    },
  });
}

function depthLine(
  now: { readonly marginMm: number; readonly shortMm: number },
  thinning: Thinning | undefined,
): Phrase {
  if (now.shortMm === 0) return say`There is room below, with ${mm(now.marginMm, 1)} to spare.`;
  const short = say`Too deep by ${mm(now.shortMm, 1)}: the cover will not close`;
  if (!thinning) return say`${short}.`;
  return say`${short} as it is. Thinning the wood by ${mm(thinning.depthMm, 1)} brings the part up and leaves ${mm(thinning.depthMm - now.shortMm, 1)} to spare.`;
}

function depthRemedies(thinning: Thinning | undefined, shortMm: number, probability: number): Remedy[] {
  const others: Remedy[] = [
    { id: "shallower-part", text: say`Take a part at least ${mm(shortMm, 1)} shallower.`, permanence: "reversible" },
    { id: "raised-cover", text: say`Make a cover that stands ${mm(shortMm, 1)} higher.`, permanence: "reversible" },
  ];
  if (!thinning) return others;
  const thin: Remedy = {
    id: "spot-face",
    text: say`Thin the wood from inside by ${mm(thinning.depthMm, 1)}; ${mm(thinning.leavesMm, 1)} stays.`,
    permanence: "permanent",
    then: "go",
    probability,
  };
  return [thin, ...others];
}

function holeAnswer(asking: Asking<Instrument>, control: Control, asked: Asked): Verdict {
  const { limits, workshop } = asking.subject;
  const leaves: Leaves = { hole: control.hole, thread: control.threadDiameter, clearance: limits.bushingClearance };
  const targetMm = valueOr(control.threadDiameter, Number.NaN) + valueOr(limits.bushingClearance, 0.1);
  const judged = judge({
    leaves,
    margins: { hole: (x) => at(x, "hole") - at(x, "thread") - at(x, "clearance") },
    bare: { hole: (x) => at(x, "hole") - at(x, "thread") },
    after: { hole: (x) => targetMm - at(x, "thread") },
    work: "permanent",
    gate: limits.gateProbability,
  });
  if (!judged.known) return measureVerdict({ ...asked, stake: 3 }, judged.missing, "whether it goes through its hole");
  const holeMm = valueOr(control.hole, Number.NaN);
  const now = holeForThread({
    holeMm,
    threadMm: valueOr(control.threadDiameter, Number.NaN),
    clearanceMm: valueOr(limits.bushingClearance, 0.1),
  });
  const reams = judged.status === "rework";
  const how = openingTool({
    fromMm: holeMm,
    toMm: now.targetMm,
    reamersMm: workshop.reamers.flatMap((one) => (one.known ? [one.value] : [])),
  });
  return makeVerdict({
    ...asked,
    ...judgedParts(judged),
    stake: 3,
    headline: reams
      ? say`Ream the hole from ${mm(holeMm, 1)} to ${mm(now.targetMm, 1)}.`
      : holeLine(judged.status, now, holeMm),
    detail: [
      ...(reams ? [toolLine(how)] : []),
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
            text: say`Ream to ${mm(now.targetMm, 1)}, trying the part as you go.`,
            permanence: "permanent",
            then: "go",
            probability: judged.probability,
          },
        ]
      : [],
    work: reams
      ? [{ act: "ream", where: `controls.${control.id}`, count: 1, from: holeMm, to: round(now.targetMm) }]
      : [],
    sums: [
      ruleSum({
        title: "Hole for the bushing",
        rule: RULES.threadHole,
        leaves,
        rows: [
          ["hole", "hole", "the hole there is"],
          ["thread", "thread", "across the thread"],
          ["clearance", "clearance", "free fit"],
        ],
        result: say`${mm(now.targetMm, 1)}`,
      }),
    ],
    figures: { have: holeMm, target: now.targetMm, reamBy: now.reamByMm, tooWideBy: now.tooWideByMm },
  });
}

function holeLine(status: Verdict["status"], now: { readonly targetMm: number }, holeMm: number): Phrase {
  if (status === "measure")
    return say`Too close to call whether the bushing passes a hole of ${mm(holeMm)}: it wants ${mm(now.targetMm)}.`;
  return say`The bushing passes the hole of ${mm(holeMm, 1)}; it wants ${mm(now.targetMm, 1)}.`;
}

function toolLine(how: ReturnType<typeof openingTool>): Phrase {
  const tool = how.ownMm === undefined ? say`a ${how.tool}` : say`your ${mm(how.ownMm, 2)} reamer`;
  return say`Use ${tool}, by hand, from the face inward; never a twist bit in a hole that is there: it grabs and tears the finish. Break the edge of the finish first.`;
}

/** Binary dust off a figure that goes on a work list. */
function round(value: number): number {
  return Math.round(value * 1e6) / 1e6;
}
