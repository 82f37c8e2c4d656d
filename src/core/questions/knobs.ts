/** Knobs on shafts, and which way a pot comes up. Rules FT12 and FT13. */
import {
  AUDIO_AT_HALF,
  type KnobFit,
  knobFit,
  levelAfterTurn,
  MOST_WOBBLE_MM,
  RULES,
  type Taper,
  taperFromOhms,
} from "../fit/index.ts";
import type { Control, Instrument, Shaft } from "../job/index.ts";
import type { Asking, Numbers } from "../ledger/index.ts";
import { figure, mm, type Phrase, type Quantity, say, unknown, valueOr } from "../quantity/index.ts";
import type { Remedy, Verdict, Work } from "../verdict/index.ts";
import { missingReading } from "./how-to-measure.ts";
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
} from "./judge.ts";
import { type InstrumentQuestion, measureVerdict } from "./make-verdict.ts";

type Asked = { readonly id: string; readonly question: string };

/** Asked of a knob that somebody has named: by a bore, or by how it is held. */
export function knobQuestions(control: Control): InstrumentQuestion[] {
  const { id, name, kind, shafts } = control;
  const knob: Asked = { id: `control.${id}.knob`, question: `Does the knob go onto the ${name} (${id})?` };
  const taper: Asked = {
    id: `control.${id}.taper`,
    question: `Does the ${name} (${id}) come up the way it is turned?`,
  };
  const named = shafts.some(({ knobBore, knobKind }) => knobBore.known || knobKind !== "unknown");
  return [
    ...(named ? [{ ...knob, answer: (asking: Asking<Instrument>) => knobAnswer(asking, id, knob) }] : []),
    ...(kind === "pot" || kind === "stacked pot"
      ? [{ ...taper, answer: (asking: Asking<Instrument>) => taperAnswer(asking, id, taper) }]
      : []),
  ];
}

interface Pair {
  readonly which: string;
  readonly shaft: Shaft;
  readonly fit: KnobFit;
}

function knobAnswer(asking: Asking<Instrument>, id: string, asked: Asked): Verdict {
  const control = asking.subject.controls.find((one) => one.id === id);
  const shafts = control?.shafts ?? [];
  const settles = "whether the knob goes on";
  if (shafts.length === 0)
    return measureVerdict({ ...asked, stake: 1 }, [unknown(`controls.${id}.shafts`, "length")], settles);
  const unknowns = shafts.flatMap(({ diameter, knobBore }) => [diameter, knobBore]).filter((leaf) => !leaf.known);
  if (unknowns.length > 0) return measureVerdict({ ...asked, stake: 1 }, unknowns, settles);
  const pairs = shafts.map(
    (shaft, index): Pair => ({ which: whichOf(index, shafts.length), shaft, fit: fitOf(shaft) }),
  );
  const { leaves, margins, after } = knobProblem(shafts);
  const sleeves = pairs.every(({ fit }) => fit.answer === "fits" || fit.answer === "sleeve");
  const judged = judge({
    leaves,
    margins,
    after: sleeves ? after : undefined,
    work: "reversible",
    gate: asking.subject.limits.gateProbability,
  });
  if (!judged.known) return measureVerdict({ ...asked, stake: 1 }, judged.missing, settles);
  // Splines decide before diameters do: no wobble figure cures a knob that has nothing to grip.
  return knobVerdict(asked, pairs, leaves, sleeves ? judged : { ...judged, status: "no-go", probability: 0 });
}

function knobProblem(shafts: readonly Shaft[]): {
  readonly leaves: Leaves;
  readonly margins: Margins;
  readonly after: Margins;
} {
  const leaves: Record<string, Quantity> = {};
  const margins: Record<string, (x: Numbers) => number> = {};
  const after: typeof margins = {};
  for (const [index, shaft] of shafts.entries()) {
    const [own, bore] = [`shaft${index}`, `bore${index}`];
    leaves[own] = shaft.diameter;
    leaves[bore] = shaft.knobBore;
    const wobble = (x: Numbers) => at(x, bore) - at(x, own);
    // A sleeve is turned to the two diameters as they are known now.
    const { wobbleMm } = fitOf(shaft);
    const taken = wobbleMm > MOST_WOBBLE_MM ? wobbleMm : 0;
    margins[`knob${index}`] = (x) => MOST_WOBBLE_MM - Math.abs(wobble(x));
    after[`knob${index}`] = (x) => MOST_WOBBLE_MM - Math.abs(wobble(x) - taken);
  }
  return { leaves, margins, after };
}

function knobVerdict(asked: Asked, pairs: readonly Pair[], leaves: Leaves, judged: Judgement): Verdict {
  const wrong = pairs.filter(({ fit }) => fit.answer !== "fits");
  const figures = pairs.map(({ fit }, index) => {
    const suffix = index === 0 ? "" : String(index + 1);
    return { [`wobble${suffix}`]: fit.wobbleMm, [`sleeveWall${suffix}`]: fit.sleeveWallMm };
  });
  return fitVerdict({
    ...asked,
    ...judgedParts(judged),
    headline: wrong[0] ? wrongLine(wrong[0]) : goesLine(pairs),
    detail: [
      ...pairs.map(
        ({ which, shaft, fit }) =>
          say`${which}: across ${mm(valueOr(shaft.diameter, 0))}, bore ${mm(valueOr(shaft.knobBore, 0))}, difference ${mm(fit.wobbleMm)}.`,
      ),
      ...doubtLine(judged, "Slide it on by hand, with the pot backed from inside."),
      ...(wrong.length > 0 ? [say`Never press it on: the pot is pushed apart or the split shaft snaps.`] : []),
    ],
    remedies: wrong.flatMap((pair) => knobRemedies(pair, judged.probability)),
    work: judged.status === "rework" ? wrong.map(sleeveWork) : [],
    sums: pairs.map(({ which, fit }, index) =>
      ruleSum({
        title: `Knob, ${which.toLowerCase()}`,
        rule: RULES.knob,
        leaves,
        rows: [
          [`bore${index}`, "bore", "bore of the knob"],
          [`shaft${index}`, "shaft", "across the shaft"],
        ],
        result: say`${mm(fit.wobbleMm)} of wobble`,
      }),
    ),
    figures: Object.assign({ mostWobble: MOST_WOBBLE_MM }, ...figures),
  });
}

function goesLine(pairs: readonly Pair[]): Phrase {
  const most = Math.max(...pairs.map(({ fit }) => Math.abs(fit.wobbleMm)));
  return say`The knob goes on: bore and shaft differ by ${mm(most)}.`;
}

function whichOf(index: number, count: number): string {
  if (count === 1) return "Shaft";
  return index === 0 ? "Inner shaft" : "Outer shaft";
}

function fitOf(shaft: Shaft): KnobFit {
  const { diameter, knobBore, splines, knobSplines } = shaft;
  return knobFit({
    shaftMm: valueOr(diameter, Number.NaN),
    boreMm: valueOr(knobBore, Number.NaN),
    shaftKind: shaft.kind,
    knobKind: shaft.knobKind,
    ...(splines.known ? { shaftSplines: splines.value } : {}),
    ...(knobSplines.known ? { knobSplines: knobSplines.value } : {}),
  });
}

function wrongLine({ which, shaft, fit }: Pair): Phrase {
  const bore = mm(valueOr(shaft.knobBore, 0));
  const across = mm(valueOr(shaft.diameter, 0));
  switch (fit.answer) {
    case "sleeve":
      return say`${which}: a bore of ${bore} on ${across} wobbles by ${mm(fit.wobbleMm)}: put a sleeve between.`;
    case "too tight":
      return say`${which}: a bore of ${bore} does not go onto ${across} without force.`;
    case "other splines":
      return say`${which}: ${valueOr(shaft.splines, 0)} splines in a knob for ${valueOr(shaft.knobSplines, 0)}: they do not mesh.`;
    case "splined knob on a solid shaft":
      return say`${which}: a push-on knob has nothing to grip on a solid shaft: take one with a set screw.`;
    case "fits":
      return say`${which}: the knob goes on.`;
    default:
      return fit.answer satisfies never;
  }
}

function sleeveSpec({ shaft }: Pair): string {
  return `inside ${valueOr(shaft.diameter, 0).toFixed(2)} mm, outside ${valueOr(shaft.knobBore, 0).toFixed(2)} mm`;
}

function sleeveWork(pair: Pair): Work {
  return { act: "buy", what: "shaft sleeve", spec: sleeveSpec(pair) };
}

function knobRemedies(pair: Pair, probability: number): Remedy[] {
  const other: Remedy = {
    id: "other-knob",
    text: say`Take a knob made for a ${mm(valueOr(pair.shaft.diameter, 0))} ${pair.shaft.kind === "unknown" ? "" : `${pair.shaft.kind} `}shaft.`,
    permanence: "reversible",
    then: "go",
  };
  if (pair.fit.answer !== "sleeve") return [other];
  return [
    { id: "sleeve", text: say`A sleeve, ${sleeveSpec(pair)}.`, permanence: "reversible", then: "go", probability },
    other,
  ];
}

/** A level at half turn above this comes up with a rush. Linear is the most that is called even. */
const EVEN_AT_HALF = 0.5;

function taperAnswer(asking: Asking<Instrument>, id: string, asked: Asked): Verdict {
  const control = asking.subject.controls.find((one) => one.id === id);
  const taper = control && taperOf(control);
  if (!control || !taper) return taperUnknown(asked, control);
  const { rises } = control;
  const half = levelAfterTurn({ taper, atHalf: AUDIO_AT_HALF, turn: 0.5, rises });
  const goes = rises === "clockwise" || half <= EVEN_AT_HALF + 1e-9;
  const percent = figure(100 * half, "%", 0);
  const asMade = levelAfterTurn({ taper, atHalf: AUDIO_AT_HALF, turn: 0.5, rises: "clockwise" });
  return fitVerdict({
    ...asked,
    status: goes ? "go" : "rework",
    probability: 1,
    headline: goes
      ? say`Rising ${rises}, this ${taper} pot gives ${percent} at half turn${rises === "clockwise" ? ", as it is made" : ""}.`
      : say`Rising ${rises}, this ${taper} pot gives ${percent} at half turn: nearly all of it happens near the start.`,
    detail: [
      ...(rises === "anticlockwise"
        ? [
            say`Swapping the outer lugs turns the direction and takes the taper the wrong way round: ${figure(100 * asMade, "%", 0)} becomes ${percent}.`,
          ]
        : []),
      ...(goes ? [] : [say`Taper letters differ from maker to maker: read the ohms at half turn before you order.`]),
    ],
    remedies: goes ? [] : taperRemedies(control),
    work: goes ? [] : taperWork(control),
    sums: [
      {
        title: "Level at half turn",
        formula: RULES.taper.formula,
        rows: [
          {
            symbol: "m",
            meaning: `${taper} pot at half turn clockwise`,
            value: asMade,
            unit: "",
            u: 0,
            origin: "rule",
          },
        ],
        result: say`${percent}`,
        source: RULES.taper.source,
      },
    ],
    figures: { halfTurn: half, asMade },
  });
}

/** As named on the part, else as its ohms at half turn tell. */
function taperOf({ taper, ohms, ohmsAtHalfTurn }: Control): Taper | undefined {
  if (taper !== "unknown") return taper;
  if (!ohms.known || !ohmsAtHalfTurn.known) return undefined;
  return taperFromOhms({ atHalfTurnOhms: ohmsAtHalfTurn.value, wholeOhms: ohms.value });
}

function taperUnknown(asked: Asked, control: Control | undefined): Verdict {
  const pair = control ? [control.ohmsAtHalfTurn, control.ohms] : [];
  // Both were read and cannot belong together: one of them is wrong, and nobody knows which.
  const open = pair.every((quantity) => quantity.known) ? pair : pair.filter((quantity) => !quantity.known);
  const missing = open.map((quantity) => missingReading(quantity, "whether it comes up evenly"));
  const [next] = missing;
  return fitVerdict({
    ...asked,
    status: "measure",
    headline: say`Not known yet: the pot's taper. Name it, or read its ohms at half turn and between the outer lugs.`,
    missing,
    ...(next ? { next } : {}),
  });
}

function taperRemedies(control: Control): Remedy[] {
  const own: Remedy[] =
    control.otherHand === ""
      ? []
      : [
          {
            id: "other-hand",
            text: say`Order the version for the other hand: ${control.otherHand}.`,
            permanence: "reversible",
            then: "go",
            probability: 1,
          },
        ];
  return [
    ...own,
    {
      id: "linear",
      text: say`Take a linear pot: ${figure(50, "%", 0)} at half turn either way round.`,
      permanence: "reversible",
      then: "go",
      probability: 1,
    },
    {
      id: "keep-direction",
      text: say`Leave the outer lugs as they are: it then rises clockwise, evenly.`,
      permanence: "reversible",
      then: "go",
      probability: 1,
    },
  ];
}

function taperWork(control: Control): Work[] {
  const other = { act: "buy", what: "pot for the other hand", spec: control.otherHand } as const;
  const choose = {
    act: "choose",
    what: `${control.id}: a linear or reverse audio pot, or leave it rising clockwise`,
  } as const;
  return [control.otherHand === "" ? choose : other];
}
