/** The lever switch: slot and screws in the visible face, depth and width in the cavity. Rules FT10, FT14 to FT16. */
import {
  type GapToFoil,
  gapToFoil,
  RULES,
  type ScrewPairFit,
  type SlotFit,
  screwPairFit,
  slotFit,
} from "../fit/index.ts";
import type { Instrument, Lever } from "../job/index.ts";
import type { Asking, Numbers } from "../ledger/index.ts";
import { mm, type Phrase, say, unknown, valueOr } from "../quantity/index.ts";
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
import { type InstrumentQuestion, measureVerdict } from "./make-verdict.ts";
import { roomBelow, roomBelowSum } from "./room-below.ts";

/** A maker's figure for a slot leaves the lever this much travel to spare. Common practice, no source. */
const SLOT_SPARE_MM = 0.2;

type Asked = { readonly id: string; readonly question: string };

export function leverQuestions(instrument: Instrument): InstrumentQuestion[] {
  if (!instrument.lever) return [];
  const { name } = instrument.lever;
  const ask = (
    id: string,
    question: string,
    answer: (asking: Asking<Instrument>, lever: Lever, asked: Asked) => Verdict,
  ): InstrumentQuestion => ({
    id,
    question,
    answer: (asking) => {
      const lever = asking.subject.lever;
      if (lever) return answer(asking, lever, { id, question });
      return measureVerdict({ id, question, stake: 1 }, [unknown("controls.lever", "length")], "whether it fits");
    },
  });
  return [
    ask("lever.slot", `Do the slot and the screw holes suit the ${name}?`, slotAnswer),
    ask("lever.width", `Does the ${name} stay clear of the foil?`, widthAnswer),
    ask("lever.depth", `Is there room below for the ${name}?`, depthAnswer),
  ];
}

function slotAnswer(asking: Asking<Instrument>, lever: Lever, asked: Asked): Verdict {
  const leaves: Leaves = {
    slot: lever.oldSlot,
    need: lever.slot,
    oldScrews: lever.oldScrews,
    screws: lever.screws,
    oldHole: lever.oldScrewHole,
    hole: lever.screwHole,
    wall: asking.subject.limits.holeWall,
  };
  // Only the old holes leave the face as it is: anywhere else two holes are drilled in it, however much wood lies between.
  const screws = (x: Numbers) => pairAt(x).reuseMm;
  const cutTo = Math.max(valueOr(lever.oldSlot, 0), valueOr(lever.slot, 0));
  const judged = judge({
    leaves,
    margins: { slot: (x) => slotAt(x).marginMm, screws },
    bare: { slot: (x) => slotAt(x).marginMm + SLOT_SPARE_MM, screws },
    after: { slot: (x) => cutTo - at(x, "need") + SLOT_SPARE_MM, ...screwsAfter(leaves) },
    work: "permanent",
    gate: asking.subject.limits.gateProbability,
  });
  if (!judged.known) return measureVerdict({ ...asked, stake: 3 }, judged.missing, "what must be cut for the lever");
  return slotVerdict(asked, leaves, judged, lever.cover === "" ? "a cover plate over slot and screws" : lever.cover);
}

/**
 * What the screws still ask once the work is done. A cover plate takes their part: once it is on, the slot alone must
 * do. Holes drilled in the open want their wall; old holes that are used have to be the right ones.
 */
function screwsAfter(leaves: Leaves): Margins {
  if (Object.values(leaves).some((leaf) => !leaf.known)) return {};
  const pair = pairAt(valuesOf(leaves));
  if (pair.sameHoles) return { screws: (x) => pairAt(x).reuseMm };
  return needsCover(pair) ? {} : { wall: (x) => pairAt(x).wallMm - at(x, "wall") };
}

function needsCover({ sameHoles, marginMm }: ScrewPairFit): boolean {
  return !sameHoles && marginMm < 0;
}

function slotAt(x: Numbers): SlotFit {
  return slotFit({ slotMm: at(x, "slot"), needMm: at(x, "need") });
}

function pairAt(x: Numbers): ScrewPairFit {
  return screwPairFit({
    oldOffsetMm: at(x, "oldScrews"),
    newOffsetMm: at(x, "screws"),
    oldHoleMm: at(x, "oldHole"),
    newHoleMm: at(x, "hole"),
    leastWallMm: at(x, "wall"),
  });
}

function slotVerdict(asked: Asked, leaves: Leaves, judged: Judgement, cover: string): Verdict {
  const values = valuesOf(leaves);
  const slot = slotAt(values);
  const pair = pairAt(values);
  const covered = needsCover(pair);
  const cuts = judged.status === "rework";
  const [have, need] = [at(values, "slot"), at(values, "need")];
  return fitVerdict({
    ...asked,
    ...judgedParts(judged),
    stake: 3,
    headline: slotLine(judged.status, values, pair, cover),
    detail: [
      say`Slot ${mm(have, 1)}, needed ${mm(need, 1)}${slot.lengthenMm > 0 ? say`: ${mm(slot.eachEndMm)} at each end` : ""}.`,
      say`Screws at ±${mm(at(values, "screws"))} against ±${mm(at(values, "oldScrews"))}: ${mm(pair.apartMm)} apart, ${pair.sameHoles ? "the old holes serve" : say`wall ${mm(pair.wallMm)}`}.`,
      ...doubtLine(judged, "Hold the lever behind the slot and look."),
    ],
    remedies: cuts ? slotRemedies(values, pair, cover, judged.probability) : [],
    work: cuts
      ? [slotWork(have, Math.max(have, need), pair.sameHoles ? 0 : at(values, "screws"), covered ? cover : "")]
      : [],
    sums: slotSums(leaves, slot, pair),
    figures: {
      slotHave: have,
      slotNeed: need,
      lengthen: slot.lengthenMm,
      apart: pair.apartMm,
      wall: pair.wallMm,
      overlap: pair.overlapMm,
    },
  });
}

function slotSums(leaves: Leaves, slot: SlotFit, pair: ScrewPairFit): Sum[] {
  return [
    ruleSum({
      title: "Slot",
      rule: RULES.slot,
      leaves,
      rows: [
        ["slot", "slot there", "length of the slot"],
        ["need", "slot needed", "the maker's slot"],
      ],
      result: say`${mm(slot.marginMm, 1)}`,
    }),
    ruleSum({
      title: "New screw holes against the old",
      rule: RULES.holeWall,
      leaves,
      rows: [
        ["screws", "new", "new screws from the middle"],
        ["oldScrews", "old", "old screws from the middle"],
        ["hole", "new hole", "across a new hole"],
        ["oldHole", "old hole", "across an old hole"],
        ["wall", "least", "least wall"],
      ],
      result: say`${mm(pair.wallMm)}`,
    }),
  ];
}

function slotWork(from: number, to: number, screwOffset: number, cover: string): Work {
  return { act: "slot", where: "lever", from, to, screwOffset, cover };
}

function slotLine(status: Verdict["status"], values: Numbers, pair: ScrewPairFit, cover: string): Phrase {
  if (status === "go") return say`The slot and the screw holes suit the lever.`;
  if (status === "measure") return say`Too close to call what must be cut for the lever: measure first.`;
  const lengthen =
    slotAt(values).lengthenMm > 0
      ? say`Lengthen the slot from ${mm(at(values, "slot"), 1)} to ${mm(at(values, "need"), 1)}`
      : undefined;
  if (pair.sameHoles) return say`${lengthen ?? []}.`;
  if (!needsCover(pair)) {
    const drill = say`two screw holes ${mm(at(values, "screws"))} each side of the slot's middle; the old ones stay open in sight, ${mm(pair.wallMm)} of wood between.`;
    return lengthen ? say`${lengthen} and drill ${drill}` : say`Drill ${drill}`;
  }
  const holes =
    pair.overlapMm > 0
      ? say`the new screw holes overlap the old ones by ${mm(pair.overlapMm)} in the visible face`
      : say`the new screw holes leave only ${mm(pair.wallMm)} of wall to the old ones`;
  return lengthen
    ? say`${lengthen}; ${holes}: cover them (${cover}).`
    : say`As for the screws, ${holes}: cover them (${cover}).`;
}

function cutText(values: Numbers, pair: ScrewPairFit, cover: string): Phrase {
  const cuts = slotAt(values).lengthenMm > 0;
  if (needsCover(pair)) return say`${cuts ? "Cut the slot and drill" : "Drill"} the new holes under a cover: ${cover}.`;
  if (pair.sameHoles) return say`Cut the slot, half at each end.`;
  return say`${cuts ? "Cut the slot, half at each end, and drill" : "Drill"} the two screw holes; the old ones stay in sight, or lay a cover over all four.`;
}

function slotRemedies(values: Numbers, pair: ScrewPairFit, cover: string, probability: number): Remedy[] {
  const cut: Remedy = {
    id: "cut-slot",
    text: cutText(values, pair, cover),
    permanence: "permanent",
    then: "go",
    probability,
  };
  const other: Remedy = {
    id: "other-lever",
    text: say`Take a lever with the old slot and screw spacing.`,
    permanence: "reversible",
    then: "go",
  };
  return [cut, other];
}

function widthAnswer(asking: Asking<Instrument>, lever: Lever, asked: Asked): Verdict {
  const { limits, treated } = asking.subject;
  const leaves: Leaves = { room: lever.freeWidth, part: lever.width, foil: limits.foil, least: limits.lugToFoil };
  const insulated = treated?.some(({ where, how }) => how === "insulated" && where.endsWith("lever")) ?? false;
  const gap = { gap: (x: Numbers) => gapAt(x).gapMm };
  const touches = valueOr(lever.freeWidth, 0) - valueOr(lever.width, 0) < 2 * valueOr(limits.foil, 0);
  const judged = judge({
    leaves,
    margins: insulated ? gap : { gap: (x) => gapAt(x).marginMm },
    bare: gap,
    after: touches ? undefined : gap,
    work: "reversible",
    gate: limits.gateProbability,
  });
  if (!judged.known)
    return measureVerdict({ ...asked, stake: 1 }, judged.missing, "whether the lever touches the foil");
  return widthVerdict(asked, leaves, judged, insulated);
}

function gapAt(x: Numbers): GapToFoil {
  return gapToFoil({
    freeWidthMm: at(x, "room"),
    partMm: at(x, "part"),
    foilMm: at(x, "foil"),
    leastMm: at(x, "least"),
  });
}

function widthVerdict(asked: Asked, leaves: Leaves, judged: Judgement, insulated: boolean): Verdict {
  const values = valuesOf(leaves);
  const { gapMm } = gapAt(values);
  const least = at(values, "least");
  const reworks = judged.status === "rework";
  const widest = at(values, "room") - 2 * at(values, "foil");
  const cover: Remedy = {
    id: "insulate",
    text: say`Lay tape or card over the foil beside the lever.`,
    permanence: "reversible",
    then: "go",
    probability: judged.probability,
  };
  const other: Remedy = {
    id: "narrower-lever",
    text: say`Take a lever narrower than ${mm(widest, 1)}.`,
    permanence: "reversible",
  };
  return fitVerdict({
    ...asked,
    ...judgedParts(judged),
    headline: widthLine(judged.status, gapMm, least, insulated),
    detail: [
      say`Room ${mm(at(values, "room"), 1)}, lever ${mm(at(values, "part"), 1)}.`,
      ...doubtLine(judged, "Put it in and look from the side."),
    ],
    remedies: judged.status === "go" ? [] : [reworks ? cover : other],
    work: reworks ? [{ act: "insulate", where: "the cavity wall beside the lever" }] : [],
    sums: [
      ruleSum({
        title: "Gap to the foil",
        rule: RULES.lugToFoil,
        leaves,
        rows: [
          ["room", "room", "width of the cavity at the lever"],
          ["part", "part", "width of the lever"],
          ["foil", "foil", "foil"],
          ["least", "least", "least gap"],
        ],
        result: say`${mm(gapMm, 1)}`,
      }),
    ],
    figures: { gap: gapMm, least },
  });
}

function widthLine(status: Verdict["status"], gapMm: number, leastMm: number, insulated: boolean): Phrase {
  if (status === "no-go") return say`The lever is too wide for the cavity.`;
  if (insulated) return say`The foil beside the lever is covered; ${mm(gapMm, 1)} at each side.`;
  if (status === "rework")
    return say`Only ${mm(gapMm, 1)} between lugs and foil, under ${mm(leastMm, 1)}: cover the foil there.`;
  return say`The lever stays ${mm(gapMm, 1)} clear of the foil.`;
}

function depthAnswer(asking: Asking<Instrument>, lever: Lever, asked: Asked): Verdict {
  const leaves: Leaves = { free: lever.freeDepth, part: lever.depth, lugs: lever.lugs };
  const judged = judge({
    leaves,
    margins: { depth: (x) => roomBelow(x).marginMm },
    work: "reversible",
    gate: asking.subject.limits.gateProbability,
  });
  if (!judged.known) return measureVerdict({ ...asked, stake: 1 }, judged.missing, "whether there is room below");
  const now = roomBelow({
    free: valueOr(lever.freeDepth, Number.NaN),
    part: valueOr(lever.depth, Number.NaN),
    lugs: valueOr(lever.lugs, 2),
  });
  const goes = judged.status === "go";
  return fitVerdict({
    ...asked,
    ...judgedParts(judged),
    headline: goes
      ? say`There is room below the lever, with ${mm(now.marginMm, 1)} to spare.`
      : say`The lever is too deep by ${mm(now.shortMm, 1)}: the cover will not close.`,
    detail: [
      say`Need ${mm(now.needMm, 1)} with room for the lugs; free depth ${mm(valueOr(lever.freeDepth, Number.NaN), 1)}.`,
      ...doubtLine(judged, "Lay a lump of putty on the lugs, close the cover, and measure how flat it got."),
    ],
    remedies: goes
      ? []
      : [
          {
            id: "shallower-lever",
            text: say`Take a lever at least ${mm(now.shortMm, 1)} shallower, or a cover that stands higher.`,
            permanence: "reversible",
          },
        ],
    sums: [roomBelowSum(leaves, now, "the lever")],
    figures: { need: now.needMm, have: valueOr(lever.freeDepth, Number.NaN), spare: now.marginMm },
  });
}
