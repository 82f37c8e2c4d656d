/** Tuners: hole, thickness of the headstock, slot of the post, fixing screws. Rules FT17 to FT21. */
import { headstockFit, openingTool, postSlotFit, RULES, tunerAdapter } from "../fit/index.ts";
import type { Instrument, Tuners } from "../job/index.ts";
import type { Asking, Numbers } from "../ledger/index.ts";
import { mm, type Phrase, type Quantity, say, unknown, valueOr } from "../quantity/index.ts";
import type { Remedy, Verdict, Work } from "../verdict/index.ts";
import { at, doubtLine, fitVerdict, type Judgement, judge, judgedParts, type Leaves, ruleSum } from "./judge.ts";
import { type InstrumentQuestion, measureVerdict } from "./make-verdict.ts";
import { screwsAnswer } from "./tuner-screws.ts";

/** A maker's figure for a hole has the free fit of a bushing in it. Common practice, no source. */
const FREE_FIT_MM = 0.1;
/** A hole this much wider than asked for lets a bushing stand off its middle. Common practice, no source. */
const MOST_WIDER_MM = 0.3;

type Asked = { readonly id: string; readonly question: string };
type Answer = (asking: Asking<Instrument>, tuners: Tuners, asked: Asked) => Verdict;

export function tunerQuestions(instrument: Instrument): InstrumentQuestion[] {
  const { tuners } = instrument;
  if (!tuners) return [];
  const { name } = tuners;
  const ask = (id: string, question: string, answer: Answer): InstrumentQuestion => ({
    id,
    question,
    answer: (asking) => {
      const here = asking.subject.tuners;
      if (here) return answer(asking, here, { id, question });
      return measureVerdict({ id, question, stake: 1 }, [unknown("headstock.hole", "length")], "whether they fit");
    },
  });
  return [
    ask("tuners.hole", `Do the ${name} tuners go through their holes?`, holeAnswer),
    ask("tuners.thickness", `Does the headstock suit the ${name} tuners?`, thicknessAnswer),
    ask("tuners.post", `Does the thickest string go into the post?`, postAnswer),
    ...(tuners.screw && tuners.oldScrews.length > 0
      ? [ask("tuners.screws", `Do the new tuner screws stay clear of the old holes?`, screwsAnswer)]
      : []),
  ];
}

function holeAnswer(asking: Asking<Instrument>, tuners: Tuners, asked: Asked): Verdict {
  const leaves: Leaves = { hole: tuners.oldHole, need: tuners.hole };
  const over = (x: Numbers) => at(x, "hole") - at(x, "need");
  const wider = (x: Numbers) => MOST_WIDER_MM - over(x);
  const toMm = valueOr(tuners.hole, Number.NaN);
  const fromMm = valueOr(tuners.oldHole, Number.NaN);
  const tooWide = fromMm - toMm > MOST_WIDER_MM;
  const judged = judge({
    leaves,
    margins: { hole: over, wider },
    bare: { hole: (x) => over(x) + FREE_FIT_MM, wider },
    // A ring is bought or a plug made to the hole as it is: nothing of the present size can fail it.
    after: tooWide ? { ring: () => FREE_FIT_MM } : { hole: (x) => toMm - at(x, "need") + FREE_FIT_MM },
    work: tooWide && ringFits(tuners) ? "reversible" : "permanent",
    gate: asking.subject.limits.gateProbability,
  });
  if (!judged.known) return measureVerdict({ ...asked, stake: 3 }, judged.missing, "whether the tuners go through");
  const { answer, wallMm } = tunerAdapter({ holeMm: fromMm, bushingMm: toMm });
  const hole = {
    status: judged.status,
    tooWide,
    fromMm,
    toMm,
    ring: answer === "adapter",
    wallMm,
    count: tuners.count,
  };
  return holeVerdict(asked, hole, leaves, judged, asking.subject.workshop.reamers);
}

/** A ring is put in and taken out again; holes too narrow for one are plugged, and that stays. */
function ringFits({ oldHole, hole }: Tuners): boolean {
  return (
    oldHole.known && hole.known && tunerAdapter({ holeMm: oldHole.value, bushingMm: hole.value }).answer === "adapter"
  );
}

function holeVerdict(
  asked: Asked,
  hole: HoleSeen,
  leaves: Leaves,
  judged: Judgement,
  reamers: readonly Quantity[],
): Verdict {
  const { fromMm, toMm, tooWide, count } = hole;
  const reworks = judged.status === "rework";
  return fitVerdict({
    ...asked,
    ...judgedParts(judged),
    stake: 3,
    headline: holeLine(hole),
    detail: [
      ...(reworks && !tooWide ? [toolLine(fromMm, toMm, reamers)] : []),
      ...doubtLine(judged, "Try one bushing in its hole by hand."),
      ...(judged.status === "go" ? [] : [say`Finish in a hole eats about ${mm(0.2, 1)}: measure at bare wood.`]),
    ],
    remedies: holeRemedies(hole, judged.probability),
    work: reworks ? [holeWork(hole)] : [],
    sums: [
      ruleSum({
        title: "Hole",
        rule: tooWide ? RULES.adapter : RULES.tunerHole,
        leaves,
        rows: [
          ["hole", "hole", "the hole there is"],
          ["need", "bushing", "the hole the maker asks for"],
        ],
        result: say`${mm(judged.parts.hole ?? Number.NaN, 1)}`,
      }),
    ],
    figures: {
      have: fromMm,
      target: toMm,
      reamBy: Math.max(0, toMm - fromMm),
      count,
      ...(tooWide ? { ringWall: hole.wallMm } : {}),
    },
  });
}

interface HoleSeen {
  readonly status: Verdict["status"];
  readonly tooWide: boolean;
  readonly fromMm: number;
  readonly toMm: number;
  readonly ring: boolean;
  readonly wallMm: number;
  readonly count: number;
}

function holeLine({ status, tooWide, fromMm, toMm, ring, wallMm, count }: HoleSeen): Phrase {
  if (status === "go") return say`The tuners go through holes of ${mm(fromMm, 1)}; they ask for ${mm(toMm, 1)}.`;
  if (status === "measure")
    return say`Too close to call whether the tuners pass holes of ${mm(fromMm)}: they ask for ${mm(toMm)}.`;
  if (!tooWide) return say`Ream the ${count} holes from ${mm(fromMm, 1)} to ${mm(toMm, 1)}.`;
  if (ring) return say`The holes are ${mm(fromMm - toMm, 1)} too wide: fit adapter rings with a wall of ${mm(wallMm)}.`;
  return say`The holes are ${mm(fromMm - toMm, 1)} too wide, too little for a ring: plug them with the headstock's grain and drill again.`;
}

function toolLine(fromMm: number, toMm: number, reamers: readonly Quantity[]): Phrase {
  const how = openingTool({ fromMm, toMm, reamersMm: reamers.flatMap((one) => (one.known ? [one.value] : [])) });
  const tool =
    how.ownMm === undefined ? say`a reamer, or a step bit from both faces` : say`your ${mm(how.ownMm)} reamer`;
  return say`Use ${tool}, never a twist bit: it grabs and tears the veneer. Try the bushing as you go; it goes in by thumb and a light press.`;
}

function holeWork({ tooWide, ring, fromMm, toMm, count }: HoleSeen): Work {
  if (!tooWide) return { act: "ream", where: "tuners", count, from: fromMm, to: toMm };
  if (ring)
    return {
      act: "buy",
      what: "tuner adapter rings",
      spec: `outside ${fromMm.toFixed(2)} mm, inside ${toMm.toFixed(2)} mm`,
    };
  return {
    act: "choose",
    what: "plug the tuner holes with tapered plugs of the same wood, grain as the headstock, and drill again",
  };
}

function holeRemedies({ status, tooWide, ring, fromMm, toMm, wallMm }: HoleSeen, probability: number): Remedy[] {
  if (status !== "rework") return [];
  const other: Remedy = {
    id: "other-tuners",
    text: say`Take tuners made for holes of ${mm(fromMm, 1)}.`,
    permanence: "reversible",
    then: "go",
  };
  if (tooWide && ring) {
    const text = say`Adapter rings with a wall of ${mm(wallMm)}.`;
    return [{ id: "adapter", text, permanence: "reversible", then: "go", probability }, other];
  }
  if (tooWide) {
    const text = say`Plug the holes with the headstock's grain, let the glue cure, and drill again to ${mm(toMm, 1)}.`;
    return [{ id: "plug", text, permanence: "permanent", then: "go", probability }, other];
  }
  return [{ id: "ream", text: say`Ream to ${mm(toMm, 1)}.`, permanence: "permanent", then: "go", probability }, other];
}

function thicknessAnswer(asking: Asking<Instrument>, tuners: Tuners, asked: Asked): Verdict {
  const leaves: Leaves = { thickness: tuners.headstockThickness, least: tuners.thinnest, most: tuners.thickest };
  const fitAt = (x: Numbers) =>
    headstockFit({ thicknessMm: at(x, "thickness"), thinnestMm: at(x, "least"), thickestMm: at(x, "most") });
  const judged = judge({
    leaves,
    margins: { thin: (x) => at(x, "thickness") - at(x, "least"), thick: (x) => at(x, "most") - at(x, "thickness") },
    work: "reversible",
    gate: asking.subject.limits.gateProbability,
  });
  if (!judged.known) return measureVerdict({ ...asked, stake: 1 }, judged.missing, "whether the headstock suits");
  const value = valueOr(tuners.headstockThickness, Number.NaN);
  const [least, most] = [valueOr(tuners.thinnest, Number.NaN), valueOr(tuners.thickest, Number.NaN)];
  const now = fitAt({ thickness: value, least, most });
  const goes = judged.status === "go";
  return fitVerdict({
    ...asked,
    ...judgedParts(judged),
    headline: goes
      ? say`The headstock, ${mm(value, 1)}, lies inside the tuners' range of ${mm(least, 1)} to ${mm(most, 1)}.`
      : now.tooThinByMm > 0
        ? say`The headstock is ${mm(now.tooThinByMm, 1)} too thin for these tuners.`
        : say`The headstock is ${mm(now.tooThickByMm, 1)} too thick for these tuners.`,
    detail: doubtLine(judged, "Put one tuner in and look at its thread."),
    remedies: goes
      ? []
      : [
          {
            id: "other-tuners",
            text:
              now.tooThinByMm > 0
                ? say`Washers under the bushings take up ${mm(now.tooThinByMm, 1)}; or other tuners.`
                : say`Take tuners for a thicker headstock.`,
            permanence: "reversible",
          },
        ],
    sums: [
      ruleSum({
        title: "Headstock",
        rule: RULES.headstock,
        leaves,
        rows: [
          ["thickness", "thickness", "headstock at the holes"],
          ["least", "least", "thinnest the maker allows"],
          ["most", "most", "thickest the maker allows"],
        ],
        result: say`${mm(now.marginMm, 1)}`,
      }),
    ],
    figures: { thickness: value, thinnest: least, thickest: most, spareThin: value - least, spareThick: most - value },
  });
}

function postAnswer(asking: Asking<Instrument>, tuners: Tuners, asked: Asked): Verdict {
  const { strings, limits } = asking.subject;
  const gauges = strings.map(({ gauge }) => gauge);
  const missing = gauges.filter((gauge) => !gauge.known);
  const thickest = gauges.reduce<Quantity | undefined>(
    (most, gauge) => (valueOr(gauge, 0) > valueOr(most ?? gauge, -1) || !most ? gauge : most),
    undefined,
  );
  if (!thickest || missing.length > 0)
    return measureVerdict(
      { ...asked, stake: 1 },
      thickest ? missing : [unknown("strings.1.gauge", "length")],
      "whether the thickest string goes in",
    );
  const leaves: Leaves = { slot: tuners.postSlot, gauge: thickest };
  const judged = judge({
    leaves,
    margins: { slot: (x) => postSlotFit({ slotMm: at(x, "slot"), thickestStringMm: at(x, "gauge") }).marginMm },
    work: "reversible",
    gate: limits.gateProbability,
  });
  if (!judged.known)
    return measureVerdict({ ...asked, stake: 1 }, judged.missing, "whether the thickest string goes in");
  const [slot, gauge] = [valueOr(tuners.postSlot, Number.NaN), valueOr(thickest, Number.NaN)];
  const goes = judged.status === "go";
  return fitVerdict({
    ...asked,
    ...judgedParts(judged),
    headline: goes
      ? say`The thickest string, ${mm(gauge, 3)}, goes into the post's slot of ${mm(slot, 1)}.`
      : say`The thickest string, ${mm(gauge, 3)}, does not go into the post's slot of ${mm(slot, 1)}.`,
    detail: doubtLine(judged, "Try the string's end in the slot."),
    remedies: goes
      ? []
      : [
          {
            id: "other-tuners",
            text: say`Take tuners with a slot of ${mm(gauge + 0.2, 1)} or more, or a set whose thickest string tapers at its end.`,
            permanence: "reversible",
          },
        ],
    sums: [
      ruleSum({
        title: "Slot of the post",
        rule: RULES.postSlot,
        leaves,
        rows: [
          ["slot", "slot", "slot of the post"],
          ["gauge", "string", "thickest string"],
        ],
        result: say`${mm(slot - gauge)}`,
      }),
    ],
    figures: { slot, thickest: gauge, spare: slot - gauge },
  });
}
