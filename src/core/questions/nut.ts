/** Nut slots against the new gauges, and which file opens each. Rule FT22. */
import { nutFile, nutSlotFit, RULES } from "../fit/index.ts";
import type { Instrument } from "../job/index.ts";
import type { Asking, Numbers } from "../ledger/index.ts";
import { mm, type Phrase, type Quantity, say, unknown, valueOr } from "../quantity/index.ts";
import type { Sum, Verdict } from "../verdict/index.ts";
import {
  at,
  clean,
  doubtLine,
  fitVerdict,
  type Judgement,
  judge,
  judgedParts,
  type Leaves,
  ruleSum,
  valuesOf,
} from "./judge.ts";
import { type InstrumentQuestion, listed, measureVerdict } from "./make-verdict.ts";

const ASKED = { id: "nut.slots", question: "Are the nut slots wide enough for the strings?" } as const;

export function nutQuestions(instrument: Instrument): InstrumentQuestion[] {
  return instrument.strings.length === 0 ? [] : [{ ...ASKED, answer: slotsAnswer }];
}

interface Slot {
  readonly string: number;
  readonly slotMm: number;
  readonly gaugeMm: number;
  readonly needMm: number;
  readonly widenByMm: number;
  readonly loose: boolean;
}

function slotsAnswer(asking: Asking<Instrument>): Verdict {
  const { limits, workshop } = asking.subject;
  const problem = slotProblem(asking.subject);
  const judged = judge({ ...problem, work: "permanent", gate: limits.gateProbability });
  if (!judged.known)
    return measureVerdict({ ...ASKED, stake: 2 }, judged.missing, "whether the strings bind in the nut");
  const values = valuesOf(problem.leaves);
  const slots = asking.subject.strings.map(({ number }): Slot => {
    const slotMm = at(values, `slot${number}`);
    const gaugeMm = at(values, `gauge${number}`);
    return {
      string: number,
      slotMm,
      gaugeMm,
      ...nutSlotFit({ slotMm, gaugeMm, clearanceMm: at(values, "clearance") }),
    };
  });
  const files = workshop.nutFiles.flatMap((file) => (file.known ? [file.value] : []));
  return slotsVerdict(slots, problem.leaves, judged, files);
}

function slotProblem({ neck, strings, limits }: Instrument) {
  const leaves: Record<string, Quantity> = { clearance: limits.slotClearance };
  const clearanceMm = valueOr(limits.slotClearance, 0.05);
  const margins: Record<string, (x: Numbers) => number> = {};
  const bare: typeof margins = {};
  const after: typeof margins = {};
  for (const { number, gauge } of strings) {
    const slot = neck.nutSlots[number - 1] ?? unknown(`neck.nutSlots[${number - 1}]`, "length");
    const [width, wire] = [`slot${number}`, `gauge${number}`];
    Object.assign(leaves, { [width]: slot, [wire]: gauge });
    const tight = valueOr(slot, 0) < valueOr(gauge, 0) + clearanceMm;
    margins[`string${number}`] = (x) => at(x, width) - at(x, wire) - at(x, "clearance");
    bare[`string${number}`] = (x) => at(x, width) - at(x, wire);
    // Filed until that very string slides: what the packet says of its gauge no longer matters.
    after[`string${number}`] = tight ? (x) => at(x, "clearance") : (x) => at(x, width) - at(x, wire);
  }
  return { leaves, margins, bare, after };
}

function slotsVerdict(slots: readonly Slot[], leaves: Leaves, judged: Judgement, files: readonly number[]): Verdict {
  const tight = slots.filter(({ widenByMm }) => widenByMm > 1e-9);
  const cuts = judged.status === "rework";
  const which = tight.length === 1 ? "the slot" : `the ${tight.length} slots`;
  return fitVerdict({
    ...ASKED,
    ...judgedParts(judged),
    stake: 2,
    headline: slotsLine(judged.status, tight, slots.length),
    detail: [
      ...tight.map((slot) => fileLine(slot, files)),
      ...(cuts
        ? [
            say`Round bottom, falling toward the tuner; stop when the string slides without a ping. Widening must not deepen the slot.`,
          ]
        : []),
      ...slots.filter(({ loose }) => loose).map(looseLine),
      ...doubtLine(judged, "Lay each string in its slot and press behind the nut: no ping."),
    ],
    remedies: cuts
      ? [
          {
            id: "file",
            text: say`Open ${which} to the widths listed.`,
            permanence: "permanent",
            then: "go",
            probability: judged.probability,
          },
        ]
      : [],
    work: cuts
      ? [
          {
            act: "nut slots",
            widths: tight.map(({ string, slotMm, needMm }) => ({ string, from: slotMm, to: clean(needMm) })),
          },
        ]
      : [],
    sums: slots.map((slot) => slotSum(slot, leaves)),
    figures: Object.assign(
      { tooNarrow: tight.length },
      ...slots.map(({ string, slotMm, needMm }) => ({ [`need${string}`]: needMm, [`have${string}`]: slotMm })),
    ),
  });
}

function looseLine({ string, slotMm, needMm }: Slot): Phrase {
  return say`String ${string}: the slot, ${mm(slotMm)}, is ${mm(slotMm - needMm)} wider than it need be; the string may wander.`;
}

function slotSum({ string, needMm }: Slot, leaves: Leaves): Sum {
  return ruleSum({
    title: `Slot of string ${string}`,
    rule: RULES.nutSlot,
    leaves,
    rows: [
      [`gauge${string}`, "gauge", "the string"],
      ["clearance", "clearance", "room to slide"],
      [`slot${string}`, "slot there", "the slot there is"],
    ],
    result: say`${mm(needMm)} wanted`,
  });
}

function slotsLine(status: Verdict["status"], tight: readonly Slot[], count: number): Phrase {
  if (status === "go") return say`The nut slots are wide enough for the strings.`;
  if (status === "measure")
    return say`Too close to call whether the nut slots are wide enough: measure before you file.`;
  const worst = tight.reduce((most, slot) => (slot.widenByMm > most.widenByMm ? slot : most));
  const short = mm(worst.widenByMm);
  const to = say`gauge + ${mm(worst.needMm - worst.gaugeMm)}`;
  if (tight.length === 1) return say`The nut slot of string ${worst.string} is ${short} too narrow: file it to ${to}.`;
  const strings = listed(tight.map(({ string }) => String(string)));
  const which = tight.length === count ? `All ${count} nut slots` : `The nut slots of strings ${strings}`;
  return say`${which} are too narrow, that of string ${worst.string} by ${short}: file them to ${to}.`;
}

function fileLine({ string, slotMm, gaugeMm, needMm }: Slot, files: readonly number[]): Phrase {
  const widen = say`String ${string}: ${mm(slotMm)} to ${mm(needMm)}`;
  if (files.length === 0) return say`${widen}, with a file of the gauge (${mm(gaugeMm)}) or one size over.`;
  const own = nutFile({ needMm, filesMm: files });
  if (!own) return say`${widen}: every file of yours is wider than that; abrasive string or a folded strip will do it.`;
  if (own.rollMm < 0.005) return say`${widen}, with your ${mm(own.fileMm)} file.`;
  return say`${widen}, with your ${mm(own.fileMm)} file, rolled from side to side for the last ${mm(own.rollMm)}.`;
}
