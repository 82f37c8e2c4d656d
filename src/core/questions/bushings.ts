/** Does the bushing of a pot, switch or jack reach through the top? Rules FT8 and FT9. */
import { type BushingFit, bushingFit, RULES } from "../fit/index.ts";
import type { Control, Instrument } from "../job/index.ts";
import type { Asking, Numbers } from "../ledger/index.ts";
import { mm, type Phrase, type Quantity, say } from "../quantity/index.ts";
import type { Remedy, Sum, Verdict, Work } from "../verdict/index.ts";
import {
  at,
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
import { measureVerdict } from "./make-verdict.ts";
import { type Thinning, thinningAt } from "./spot-face.ts";

/** So near to the least wood that it is said. */
const AT_LIMIT_MM = 0.25;

type Asked = { readonly id: string; readonly question: string };

export function bushingAnswer(asking: Asking<Instrument>, control: Control, asked: Asked): Verdict {
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
  const thinning = thinningAt(asking, control.id);
  const long = control.alternative?.threadLength;
  const longer = long?.known && !thinning?.goes ? long : undefined;
  const judged = judge({
    leaves: longer ? { ...leaves, long: longer } : leaves,
    margins: { bushing: (x) => bushingAt(x).marginMm },
    after: curedBy(thinning, longer),
    work: thinning?.goes ? "permanent" : "reversible",
    gate: limits.gateProbability,
  });
  if (!judged.known) return measureVerdict({ ...asked, stake: 2 }, judged.missing, "whether the bushing reaches");
  return bushingVerdict(asked, control, leaves, judged, thinning);
}

function bushingAt(x: Numbers): BushingFit {
  return bushingFit({
    woodMm: at(x, "wood"),
    threadMm: at(x, "thread"),
    foilMm: at(x, "foil"),
    lockWasherMm: at(x, "lockWasher"),
    washerMm: at(x, "washer"),
    nutMm: at(x, "nut"),
  });
}

/**
 * One thins the wood until the part reaches, so what stays is thread less stack whatever the wood was: that against the
 * least wood is what may fail. A longer version must reach through the wood as it is.
 */
function curedBy(thinning: Thinning | undefined, longer: Quantity | undefined): Margins | undefined {
  if (thinning?.goes) return { woodLeft: (x) => at(x, "thread") - bushingAt(x).stackMm - at(x, "woodLeft") };
  return longer ? { longer: (x) => at(x, "long") - bushingAt(x).needMm } : undefined;
}

function bushingVerdict(
  asked: Asked,
  control: Control,
  leaves: Leaves,
  judged: Judgement,
  thinning: Thinning | undefined,
): Verdict {
  const values = valuesOf(leaves);
  const now = bushingAt(values);
  const long = control.alternative?.threadLength;
  const proudLong = long?.known ? long.value - now.needMm : undefined;
  return fitVerdict({
    ...asked,
    ...judgedParts(judged),
    stake: 2,
    headline: headline(control, now, thinning, judged.status),
    detail: [
      say`Need ${mm(now.needMm, 1)}: wood ${mm(at(values, "wood"), 1)}, foil, washers and nut ${mm(now.stackMm, 1)}. Thread ${mm(at(values, "thread"), 1)}.`,
      ...doubtLine(judged, "Put it in the hole with its washers and count the threads above the nut."),
      ...limitLine(thinning, at(values, "woodLeft")),
      ...(now.shortMm > 0
        ? [
            say`Afterwards two full threads should show above the nut. Never pull a short thread through with the nut: the bushing tears.`,
          ]
        : []),
    ],
    remedies: judged.status === "go" ? [] : remediesOf(thinning, control, proudLong, judged.probability),
    work: judged.status !== "rework" ? [] : [thinning?.goes ? thinning.work : buyLong(control, now.needMm)],
    sums: [stackSum(leaves, now), ...thinSum(thinning, leaves)],
    figures: {
      need: now.needMm,
      have: at(values, "thread"),
      short: now.shortMm,
      stack: now.stackMm,
      ...(thinning && now.shortMm > 0 ? { spotFace: thinning.depthMm, woodLeft: thinning.leavesMm } : {}),
      ...(proudLong === undefined ? {} : { alternativeProud: proudLong }),
    },
  });
}

function headline(
  control: Control,
  now: BushingFit,
  thinning: Thinning | undefined,
  status: Verdict["status"],
): Phrase {
  if (status === "go") return say`The bushing reaches through the top, with ${mm(now.proudMm, 1)} of thread to spare.`;
  if (status === "measure")
    return say`Too close to call whether the bushing reaches through the top: measure before you thin the wood.`;
  const short = say`The bushing is ${mm(now.shortMm, 1)} too short for the top`;
  if (thinning?.goes)
    return say`${short}: thin the wood from inside by ${mm(thinning.depthMm, 1)}, which leaves ${mm(thinning.leavesMm, 1)}.`;
  const { alternative } = control;
  if (status === "rework" && alternative?.threadLength.known)
    return say`${short}: take the ${alternative.name}, with ${mm(alternative.threadLength.value, 1)} of thread.`;
  return say`${short}, and there is too little wood to thin.`;
}

export function limitLine(thinning: Thinning | undefined, leastMm: number): Phrase[] {
  if (!thinning?.goes || thinning.leavesMm - leastMm >= AT_LIMIT_MM) return [];
  return [
    say`That is the limit of ${mm(leastMm, 1)}: measure the wood at the hole, set the depth stop, and stop as soon as the part reaches.`,
  ];
}

function remediesOf(
  thinning: Thinning | undefined,
  control: Control,
  proudLong: number | undefined,
  probability: number,
): Remedy[] {
  const out: Remedy[] = [];
  if (thinning?.goes) {
    const figures = { depth: thinning.depthMm, leaves: thinning.leavesMm };
    out.push({
      id: "spot-face",
      text: say`Thin the wood from inside by ${mm(thinning.depthMm, 1)} at ${control.id}; ${mm(thinning.leavesMm, 1)} stays.`,
      permanence: "permanent",
      then: "go",
      probability,
      figures,
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

function buyLong(control: Control, needMm: number): Work {
  const what = control.alternative?.name ?? `${control.name} with a longer bushing`;
  return { act: "buy", what, spec: `thread at least ${needMm.toFixed(1)} mm long` };
}

function stackSum(leaves: Leaves, now: BushingFit): Sum {
  return ruleSum({
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
  });
}

export function thinSum(thinning: Thinning | undefined, leaves: Leaves): Sum[] {
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
