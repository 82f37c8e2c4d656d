/** "Can every saddle reach its setback?": the window of plate places, and the ways out when it is empty. */
import { neededTravelMm, type PlateWindow, requiredRanges, type WindowRemedy } from "../bridge/index.ts";
import type { Instrument } from "../job/index.ts";
import { type Asking, type JointProblem, jointly, over, type Problem, sumOf, weigh } from "../ledger/index.ts";
import { figure, mm, type Phrase, type Quantity, say, standardUncertainty, valueOr } from "../quantity/index.ts";
import type { Remedy, Sum, Verdict } from "../verdict/index.ts";
import type { BridgeModel, SaddleCase } from "./bridge-model.ts";
import { missingReading } from "./how-to-measure.ts";
import { type InstrumentQuestion, makeVerdict, measureVerdict } from "./make-verdict.ts";
import { rangePhrase } from "./place-words.ts";
import { type Footing, numbersOf, type Placement, placement } from "./placement.ts";

const HEAD = {
  id: "bridge.window",
  question: "Can every saddle reach the place that its string wants?",
  stake: 3,
} as const;

export function bridgeWindowQuestions(instrument: Instrument): InstrumentQuestion[] {
  if (!instrument.bridge) return [];
  return [{ id: HEAD.id, question: HEAD.question, answer }];
}

type KnownPlacement = Extract<Placement, { known: true }>;

function answer(asking: Asking<Instrument>): Verdict {
  const placed = placement(asking);
  if (!placed.known) return measureVerdict(HEAD, placed.missing, "whether every saddle can reach its place");
  return placed.model.bridge.kind === "single units"
    ? answerUnits(placed)
    : answerPlate(placed, valueOr(asking.subject.limits.gateProbability, 0.95));
}

function answerPlate(placed: KnownPlacement, gate: number): Verdict {
  const { ordered, footing, model } = placed;
  const saddles = model.pieces[0]?.saddles ?? [];
  const yaw = placed.orderedYawDegrees;
  const weighed = weigh(widthProblem(saddles, model.reserveMm, yaw));
  // With the remedy taken, the saddles are those that the place was looked for with.
  const after = footing.remedy ? weigh(widthProblem(placed.pieces[0]?.saddles ?? [], model.reserveMm, yaw)) : weighed;
  const empty = ordered.widthMm < 0;
  const remedies = placed.remedies.flatMap((remedy) => remedyOf(remedy, model));
  if (empty) remedies.push(otherBridge(saddles, model.reserveMm));
  const headline = empty
    ? say`No place lets every saddle reach: the front edge would have to lie at ${mm(ordered.minMm)} or further back for string ${ordered.bindingMinIndex + 1}, at ${mm(ordered.maxMm)} or further forward for string ${ordered.bindingMaxIndex + 1}. The window is empty by ${mm(-ordered.widthMm)}.`
    : say`The front edge may lie ${rangePhrase(model.frame, ordered.minMm, ordered.maxMm)}: ${mm(ordered.widthMm)} wide.`;
  const rough =
    empty || !weighed.known || weighed.probability >= gate ? undefined : betterSetback(saddles, weighed.shares);
  const status = rough ? "measure" : !empty ? "go" : footing.remedy ? "rework" : "no-go";
  return makeVerdict({
    ...HEAD,
    status,
    headline,
    ...(rough ? { next: missingReading(rough, "whether the window is open for these strings") } : {}),
    detail: [
      ...(empty && ordered.widthMm + 2 * model.reserveMm < 0
        ? [
            say`Even with no reserve at the ends of the travel it is empty by ${mm(-(ordered.widthMm + 2 * model.reserveMm))}.`,
          ]
        : []),
      ...(footing.remedy
        ? [
            say`What follows is worked out ${footing.words}: the front edge may then lie from ${mm(footing.remedy.window.minMm)} to ${mm(footing.remedy.window.maxMm)}.`,
          ]
        : []),
      ...(yaw === 0
        ? []
        : [
            say`That is with the posts askew by ${figure(Math.abs(yaw), "°", 1)}, the ${yaw > 0 ? "y > 0" : "y < 0"} one nearer the neck: square, the setbacks would not all be reached so freely.`,
          ]),
      ...assumedSetbacks(saddles),
    ],
    ...(weighed.known ? { margin: { value: ordered.widthMm, unit: "mm", u: weighed.u }, shares: weighed.shares } : {}),
    ...(after.known ? { probability: after.probability } : {}),
    remedies,
    work: footing.remedy ? [{ act: "choose", what: choiceOf(footing) }] : [],
    sums: [windowSum(saddles, model, ordered, yaw), ...saddles.slice(0, 1).map((saddle) => setbackSum(saddle, model))],
    figures: windowFigures(ordered, saddles, placed),
  });
}

/** The remedy that everything after it stands on, as something to do. */
function choiceOf({ remedy, words }: Footing): string {
  const what = words.replace(/^with /, "");
  return remedy?.kind === "turned saddle" ? `turn ${what.replace(/ turned round$/, "")} round` : `fit ${what}`;
}

/** Width of the window over the leaf values, for a bridge turned by `yawDegrees`. */
function widthProblem(saddles: readonly SaddleCase[], reserveMm: number, yawDegrees = 0): Problem & JointProblem {
  const leaves: Record<string, Quantity> = {};
  for (const saddle of saddles) {
    Object.assign(leaves, {
      [`S${saddle.string}`]: saddle.end,
      [`s${saddle.string}`]: saddle.setback,
      [`a${saddle.string}`]: saddle.from,
      [`b${saddle.string}`]: saddle.to,
    });
  }
  const sin = Math.sin((yawDegrees * Math.PI) / 180);
  const cos = Math.cos((yawDegrees * Math.PI) / 180);
  const keys = saddles.map(
    ({ string, q }) => [`S${string}`, `s${string}`, `a${string}`, `b${string}`, q.value * sin] as const,
  );
  // The window is as wide as the narrowest pair of one string's latest place and another's earliest.
  const margins: Record<string, ReturnType<typeof over>> = {};
  keys.forEach(([S, s, from, , turned], i) => {
    keys.forEach(([otherS, otherSetback, , to, otherTurned], j) => {
      const reads = { S, s, from, otherS, otherSetback, to };
      margins[`${i}.${j}`] = over(reads, (x, at) => {
        const latest = (x[at.S] as number) + (x[at.s] as number) + turned - (reserveMm + (x[at.from] as number)) * cos;
        const earliest =
          (x[at.otherS] as number) +
          (x[at.otherSetback] as number) +
          otherTurned -
          ((x[at.to] as number) - reserveMm) * cos;
        return latest - earliest;
      });
    });
  });
  return jointly({ leaves, unit: "mm", margins });
}

function windowSum(
  saddles: readonly SaddleCase[],
  model: Extract<BridgeModel, { known: true }>,
  window: PlateWindow,
  yawDegrees = 0,
): Sum {
  const problem = widthProblem(saddles, model.reserveMm, yawDegrees);
  const symbols = Object.fromEntries(
    saddles.flatMap(({ string }) => [
      [`S${string}`, { symbol: `S${string}`, meaning: "scale line" }],
      [`s${string}`, { symbol: `s${string}`, meaning: `setback of string ${string}` }],
      [`a${string}`, { symbol: `a${string}`, meaning: `foremost contact of saddle ${string}` }],
      [`b${string}`, { symbol: `b${string}`, meaning: `rearmost contact of saddle ${string}` }],
    ]),
  );
  return sumOf(problem, {
    title: "Window of the front edge",
    formula:
      yawDegrees === 0
        ? "P max = min(S + s − r − a), P min = max(S + s + r − b)"
        : "P max = min(S + s + q sin f − (a + r) cos f), P min = max(S + s + q sin f − (b − r) cos f)",
    symbols,
    constants: [
      {
        symbol: "r",
        meaning: "reserve at each end of the travel",
        value: model.reserveMm,
        unit: "mm",
        u: 0,
        origin: "rule",
      },
      ...(yawDegrees === 0
        ? []
        : [{ symbol: "f", meaning: "turn of the bar", value: yawDegrees, unit: "°", u: 0, origin: "rule" as const }]),
    ],
    result: say`P max ${mm(window.maxMm)}, P min ${mm(window.minMm)}, width ${mm(window.widthMm)}`,
    source: {
      text: "Derived: each saddle's range laid over the place its string wants. Reserve 0.5 mm: common practice",
      mark: "derived",
    },
  });
}

export function setbackSum(saddle: SaddleCase, model: Extract<BridgeModel, { known: true }>): Sum {
  const { how, setback } = saddle;
  return {
    title: `Setback of string ${saddle.string}`,
    formula: how.formula,
    rows: [
      {
        symbol: "L",
        meaning: "scale length",
        value: model.frame.scaleLengths[saddle.string - 1]?.value ?? 0,
        unit: "mm",
        u: 0,
        origin: model.frame.scaleLengths[saddle.string - 1]?.origin ?? "assumed",
        path: "neck.scaleLength",
      },
      {
        symbol: "s",
        meaning: how.how,
        value: setback.value,
        unit: "mm",
        u: standardUncertainty(setback),
        origin: setback.origin,
        path: setback.path,
      },
    ],
    result: say`s = ${mm(setback.value)}`,
    source: how.source,
  };
}

function remedyOf(remedy: WindowRemedy, model: Extract<BridgeModel, { known: true }>): Remedy[] {
  if (!remedy.opens) return [];
  const { window } = remedy;
  const figures = { minMm: window.minMm, maxMm: window.maxMm, widthMm: window.widthMm };
  const then = say`window ${mm(window.minMm)} to ${mm(window.maxMm)}`;
  switch (remedy.kind) {
    case "another string": {
      const string = remedy.index + 1;
      const name = model.spares.find((spare) => spare.string === string)?.name ?? `another string ${string}`;
      return [
        {
          id: `string-${string}`,
          text: say`Fit the ${name} instead: ${then}`,
          permanence: "reversible",
          then: "go",
          figures,
        },
      ];
    }
    case "turned saddle": {
      const which = remedy.indexes.map((index) => index + 1);
      return [
        {
          id: `turn-${which.join("-")}`,
          text: say`Turn saddle ${which.join(" and ")} round (contact ${mm(remedy.byMm, 1)} further back): ${then}`,
          permanence: "reversible",
          then: "go",
          figures,
        },
      ];
    }
    case "smaller reserve":
      return [
        {
          id: "reserve",
          text: say`Accept a reserve of ${mm(remedy.reserveMm, 1)} at the ends of the travel: ${then}`,
          permanence: "reversible",
          then: "go",
          figures,
        },
      ];
    case "longer travel":
      return [];
    default:
      return remedy satisfies never;
  }
}

/** Buy by numbers: what the saddles of another bridge must reach. */
function otherBridge(saddles: readonly SaddleCase[], reserveMm: number): Remedy {
  const travel = travelFor(saddles, reserveMm);
  return {
    id: "another-bridge",
    text: say`Buy by numbers: a bridge whose saddles all travel at least ${mm(travel.travelMm, 1)} from one common front end (${mm(travel.exactMm, 1)} if every value were exact)`,
    permanence: "reversible",
    figures: { travelMm: travel.travelMm, exactMm: travel.exactMm },
  };
}

function travelFor(saddles: readonly SaddleCase[], reserveMm: number) {
  const line = Math.max(...saddles.map((saddle) => standardUncertainty(saddle.end)));
  const string = Math.max(...saddles.map((saddle) => standardUncertainty(saddle.setback)));
  return neededTravelMm({
    targetsMm: numbersOf(saddles).targetsMm,
    reserveMm,
    doubt: { sharedMm: line, stringMm: string },
  });
}

/** An open window may close once a string's own setback is read: the one that decides most and can be read better. */
function betterSetback(saddles: readonly SaddleCase[], shares: Verdict["shares"]): Quantity | undefined {
  const rough = new Map(
    saddles.filter(({ setback }) => setback.tool !== "trial reading").map(({ setback }) => [setback.path, setback]),
  );
  const first = shares.find((share) => rough.has(share.path));
  return first && rough.get(first.path);
}

function assumedSetbacks(saddles: readonly SaddleCase[]): Phrase[] {
  const guessed = saddles.filter((saddle) => saddle.setback.origin === "assumed");
  if (guessed.length === 0) return [];
  return [
    say`The setbacks of ${guessed.length === saddles.length ? "all strings" : `strings ${guessed.map((saddle) => saddle.string).join(", ")}`} are a fixed rule, not read on this instrument: a plain third can want ${mm(2, 0)} more.`,
  ];
}

function windowFigures(
  window: PlateWindow,
  saddles: readonly SaddleCase[],
  placed: KnownPlacement,
): Record<string, number> {
  const out: Record<string, number> = {
    yawDegrees: placed.orderedYawDegrees,
    minMm: window.minMm,
    maxMm: window.maxMm,
    widthMm: window.widthMm,
    emptyByMm: Math.max(0, -window.widthMm),
    widthWithoutReserveMm: window.widthMm + 2 * placed.model.reserveMm,
  };
  for (const saddle of saddles) out[`setback${saddle.string}Mm`] = saddle.setback.value;
  for (const spare of placed.model.spares) out[`spareSetback${spare.string}Mm`] = spare.setback.value;
  if (placed.footing.remedy)
    Object.assign(out, {
      footingMinMm: placed.footing.remedy.window.minMm,
      footingMaxMm: placed.footing.remedy.window.maxMm,
    });
  return out;
}

/** Single units: one window a string, always open unless the travel itself is too short for the reserves. */
function answerUnits(placed: KnownPlacement): Verdict {
  const { model } = placed;
  const tight = placed.pieces.filter((piece) => piece.window.widthMm < 0);
  const narrowest = placed.pieces.reduce((a, b) => (b.window.widthMm < a.window.widthMm ? b : a));
  const saddle = narrowest.saddles[0] as SaddleCase;
  const weighed = weigh(widthProblem([saddle], model.reserveMm));
  const figures: Record<string, number> = {};
  for (const [index, { window }] of placed.pieces.entries()) {
    figures[`unit${index + 1}MinMm`] = window.minMm;
    figures[`unit${index + 1}MaxMm`] = window.maxMm;
  }
  return makeVerdict({
    ...HEAD,
    status: tight.length > 0 ? "no-go" : "go",
    headline:
      tight.length > 0
        ? say`The travel of ${tight.length} of ${placed.pieces.length} units is shorter than the two reserves: ${mm(-narrowest.window.widthMm)} short.`
        : say`Each unit has a window of its own, the narrowest ${mm(narrowest.window.widthMm)} wide (string ${saddle.string}).`,
    detail: assumedSetbacks(placed.pieces.flatMap((piece) => piece.saddles)),
    ...(weighed.known
      ? {
          margin: { value: narrowest.window.widthMm, unit: "mm", u: weighed.u },
          probability: weighed.probability,
          shares: weighed.shares,
        }
      : {}),
    remedies: tight.length > 0 ? [otherBridge([saddle], model.reserveMm)] : [],
    sums: [windowSum([saddle], model, narrowest.window), setbackSum(saddle, model)],
    figures,
  });
}

/** For the slip: what each saddle must cover for a plate that stands at a given place. */
export function rangesWanted(saddles: readonly SaddleCase[], reserveMm: number, placeMm: number) {
  return requiredRanges({
    targetsMm: numbersOf(saddles).targetsMm,
    reserveMm,
    placeFromMm: placeMm,
    placeToMm: placeMm,
  });
}
