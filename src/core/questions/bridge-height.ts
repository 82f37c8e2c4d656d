/** "Can the saddles stand high (or low) enough?": needed contact heights, and the shim that cures them. */
import type { Instrument } from "../job/index.ts";
import { type Asking, type Problem, sumOf, weigh } from "../ledger/index.ts";
import { figure, type Known, mm, type Phrase, type Quantity, say } from "../quantity/index.ts";
import {
  countPlaneFrom,
  type FretPlane,
  fretPlaneFromHeel,
  fretPlaneFromStraightedge,
  heightsWithShimMm,
  type StringLine,
  saddleHeightMm,
  shimAngleDegrees,
  shimRange,
  type ThickEnd,
} from "../setup/index.ts";
import type { Remedy, Verdict, Work } from "../verdict/index.ts";
import { xOf } from "./bridge-model.ts";
import { chance, type InstrumentQuestion, makeVerdict, measureVerdict } from "./make-verdict.ts";
import { type Placement, placement } from "./placement.ts";

const HEAD = {
  id: "bridge.height",
  question: "Can every saddle stand at the height its string needs?",
  stake: 2,
} as const;

export function bridgeHeightQuestions(instrument: Instrument): InstrumentQuestion[] {
  return instrument.bridge ? [{ id: HEAD.id, question: HEAD.question, answer }] : [];
}

export interface NeededHeights {
  readonly known: true;
  /** Contact heights above the top, string 1 first, without a shim. */
  readonly neededMm: readonly number[];
  /** x of each contact from the nut. */
  readonly contactsMm: readonly number[];
  readonly lines: readonly StringLine[];
  readonly leaves: Readonly<Record<string, Quantity>>;
  /** Heights from leaf values, string 1 first. */
  readonly heightsOf: (x: Readonly<Record<string, number>>) => number[];
  /** x of the pocket's mouth and end wall; undefined if the pocket was not measured. */
  readonly pocket: { readonly mouthMm: number; readonly heelEndMm: number } | undefined;
  readonly planeWords: string;
}

/** Needed heights, shared by the height question, the winding question and the sheets. */
export function neededHeights(
  asking: Asking<Instrument>,
): NeededHeights | { readonly known: false; readonly missing: readonly Quantity[] } {
  return asking.derive("needed heights", (inner) => compute(inner));
}

function compute(asking: Asking<Instrument>): NeededHeights | { known: false; missing: readonly Quantity[] } {
  const placed = placement(asking);
  if (!placed.known) return placed;
  const { subject } = asking;
  const { neck, strings } = subject;
  const plane = planeOf(subject, placed);
  const missing: Quantity[] = [...plane.missing];
  const single: [string, Quantity][] = [
    ["relief", neck.relief],
    ["freeLength", neck.freeLength],
    ["radius0", neck.radiusAtNut],
  ];
  for (const [, quantity] of single) if (!quantity.known) missing.push(quantity);
  const saddles = placed.pieces.flatMap((piece) => piece.saddles.map((saddle) => ({ saddle, piece })));
  for (const { saddle } of saddles) {
    const string = strings[saddle.string - 1];
    const nutY = neck.nutY[saddle.string - 1];
    for (const quantity of [string?.action, string?.nutHeight, nutY])
      if (quantity && !quantity.known) missing.push(quantity);
  }
  if (missing.length > 0) return { known: false, missing };
  const leaves: Record<string, Quantity> = { ...plane.leaves, relief: neck.relief };
  const lines = saddles.map(({ saddle, piece }): StringLine => {
    const string = strings[saddle.string - 1] as Instrument["strings"][number];
    // A unit's own place across is where its string crosses the saddle; its front edge stands a little aside of that.
    const asMeant = piece.piece.side.known ? piece.piece.side.value : 0;
    const side = placed.model.bridge.kind === "single units" ? asMeant : (piece.pose?.sideMm ?? asMeant);
    leaves[`setback${saddle.string}`] = saddle.setback;
    return {
      scaleLengthMm: placed.model.frame.scaleLengths[saddle.string - 1]?.value ?? 0,
      setbackMm: saddle.setback.value,
      plane: plane.of(valuesOf(plane.leaves)),
      reliefMm: (neck.relief as Known).value,
      freeLengthMm: (neck.freeLength as Known).value,
      board: boardOf(subject),
      nutYMm: (neck.nutY[saddle.string - 1] as Known).value,
      contactYMm: side + saddle.q.value,
      nutHeightMm: (string.nutHeight as Known).value,
      actionMm: (string.action as Known).value,
    };
  });
  const heightsOf = (x: Readonly<Record<string, number>>): number[] => {
    const at = plane.of(x);
    return lines.map((line, index) =>
      saddleHeightMm({
        ...line,
        plane: at,
        reliefMm: x.relief as number,
        setbackMm: x[`setback${saddles[index]?.saddle.string}`] as number,
      }),
    );
  };
  const { pocket } = subject.body;
  const heelEndMm = xOf(placed.model.frame, 0);
  return {
    known: true,
    neededMm: heightsOf(valuesOf(leaves)),
    contactsMm: lines.map((line, index) => line.scaleLengthMm + line.setbackMm + (placed.model.frame.nutX[index] ?? 0)),
    lines,
    leaves,
    heightsOf,
    pocket: pocket.length.known ? { mouthMm: heelEndMm - pocket.length.value, heelEndMm } : undefined,
    planeWords: plane.words,
  };
}

function valuesOf(leaves: Readonly<Record<string, Quantity>>): Record<string, number> {
  return Object.fromEntries(
    Object.entries(leaves).map(([name, quantity]) => [name, quantity.known ? quantity.value : Number.NaN]),
  );
}

function boardOf({ neck }: Instrument): StringLine["board"] {
  const atNut = neck.radiusAtNut.known ? neck.radiusAtNut.value : Number.POSITIVE_INFINITY;
  const atEnd = neck.radiusAtEnd.known ? neck.radiusAtEnd.value : atNut;
  const endX = neck.radiusEndX.known ? neck.radiusEndX.value : 1;
  return { atNutMm: atNut, atEndMm: atEnd, endXMm: endX };
}

interface PlaneCase {
  readonly leaves: Readonly<Record<string, Quantity>>;
  /** Plane with places counted from the nut. */
  readonly of: (x: Readonly<Record<string, number>>) => FretPlane;
  readonly missing: readonly Quantity[];
  readonly words: string;
}

function planeOf(instrument: Instrument, placed: Extract<Placement, { known: true }>): PlaneCase {
  const { plane } = instrument.neck;
  const offset = placed.model.frame.offsetMm;
  const edges = plane.straightedge.filter((row) => row.u.known && row.z.known);
  if (edges.length >= 2) {
    return {
      leaves: Object.fromEntries(edges.map((row, index) => [`edge${index}`, row.z])),
      of: (x) =>
        countPlaneFrom(
          fretPlaneFromStraightedge(
            edges.map((row, index) => ({ atMm: (row.u as Known).value, zMm: x[`edge${index}`] as number })),
          ),
          -offset,
        ),
      missing: [],
      words: "straightedge on the frets, read at two places",
    };
  }
  const { heelThickness, fretHeight } = plane;
  const { depth } = instrument.body.pocket;
  return {
    leaves: { heel: heelThickness, pocket: depth, fret: fretHeight },
    of: (x) =>
      fretPlaneFromHeel({
        heelThicknessMm: x.heel as number,
        pocketDepthMm: x.pocket as number,
        fretHeightMm: x.fret as number,
      }),
    missing: [heelThickness, depth, fretHeight].filter((quantity) => !quantity.known),
    words: "heel thickness less pocket depth plus fret height",
  };
}

function answer(asking: Asking<Instrument>): Verdict {
  const heights = neededHeights(asking);
  if (!heights.known) return measureVerdict(HEAD, heights.missing, "how high each saddle must stand");
  const { bridge, limits, shim } = asking.subject;
  if (!bridge?.lowest.known || !bridge.highest.known)
    return measureVerdict(
      HEAD,
      [bridge?.lowest, bridge?.highest].filter(
        (quantity): quantity is Quantity => quantity !== undefined && !quantity.known,
      ),
      "whether the saddles reach their heights",
    );
  const reserve = limits.saddleReserve.known ? limits.saddleReserve.value : 0.5;
  const fitted = shim.known && heights.pocket ? shim.value : 0;
  const neededMm = withShim(heights, heights.neededMm, fitted);
  const low = bridge.lowest.value + reserve;
  const high = bridge.highest.value - reserve;
  const problem = heightProblem(heights, bridge.lowest, bridge.highest, reserve, fitted);
  const weighed = weigh(problem);
  const margin = Math.min(...neededMm.map((z) => Math.min(z - low, high - z)));
  const base = {
    ...HEAD,
    detail: [
      say`Needed heights of the contacts, strings 1 to ${neededMm.length}: ${join(neededMm)}; the saddles reach ${mm(bridge.lowest.value, 1)} to ${mm(bridge.highest.value, 1)}.`,
    ],
    ...(weighed.known ? { margin: { value: margin, unit: "mm", u: weighed.u }, shares: weighed.shares } : {}),
    sums: [
      sumOf(problem, {
        title: "Height of a saddle's contact",
        formula:
          "z = z_n + (z_12 − z_n)(L + s)/(L/2), z_n = plane + relief − drop + nut height, z_12 = plane + relief − drop + action",
        symbols: {},
        constants: heights.lines[0]
          ? [
              {
                symbol: "L",
                meaning: "scale length",
                value: heights.lines[0].scaleLengthMm,
                unit: "mm",
                u: 0,
                origin: "data sheet" as const,
              },
            ]
          : [],
        result: say`needed ${join(neededMm)}`,
        source: {
          text: `Derived: a straight string over nut, fret 12 and saddle. Fret plane from: ${heights.planeWords}`,
          mark: "derived" as const,
        },
      }),
    ],
    figures: {
      ...Object.fromEntries(neededMm.map((z, index) => [`needed${index + 1}Mm`, z])),
      lowestMm: bridge.lowest.value,
      highestMm: bridge.highest.value,
      marginMm: margin,
    },
  };
  if (margin >= 0) {
    const gate = limits.gateProbability.known ? limits.gateProbability.value : 0.95;
    const close =
      weighed.known && weighed.probability < gate
        ? [
            say`Close: ${chance(weighed.probability)} that the reserve is kept. Height is set by screws and can be tried: read the fret plane once more before a bridge is bought for it.`,
          ]
        : [];
    const headline = say`Every saddle can stand where it must, ${mm(margin)} inside its range and reserve at the tightest.`;
    return makeVerdict({
      ...base,
      status: "go",
      headline,
      detail: [...base.detail, ...close],
      ...(weighed.known ? { probability: weighed.probability } : {}),
    });
  }
  return shimVerdict(
    base,
    heights,
    { lowest: bridge.lowest.value, highest: bridge.highest.value, reserve, boltOn: asking.subject.neck.boltOn },
    asking.subject,
  );
}

function shimVerdict(
  base: Omit<Parameters<typeof makeVerdict>[0], "status" | "headline">,
  heights: NeededHeights,
  range: { lowest: number; highest: number; reserve: number; boltOn: boolean },
  instrument: Instrument,
): Verdict {
  const short = heights.neededMm.map((z) => Math.max(range.lowest - z, z - range.highest));
  const worst = short.indexOf(Math.max(...short));
  const tooLow = (heights.neededMm[worst] ?? 0) < range.lowest + range.reserve;
  const words: Phrase = tooLow
    ? say`The saddles bottom out: string ${worst + 1} needs its contact at ${mm(heights.neededMm[worst] ?? 0)}, the range starts at ${mm(range.lowest, 1)}, short by ${mm(short[worst] ?? 0)}`
    : say`The saddles do not reach: string ${worst + 1} needs its contact at ${mm(heights.neededMm[worst] ?? 0)}, the range ends at ${mm(range.highest, 1)}, short by ${mm(short[worst] ?? 0)}`;
  if (!heights.pocket || !range.boltOn) {
    const missing = heights.pocket || !range.boltOn ? [] : [instrument.body.pocket.length];
    return makeVerdict({
      ...base,
      ...HEAD,
      status: "no-go",
      headline: say`${words}.`,
      missing: measureVerdict(HEAD, missing, "the shim that would cure it").missing,
      remedies: [lowerBridge(heights, range)],
    });
  }
  const shim = shimRange({
    neededMm: heights.neededMm,
    contactsMm: heights.contactsMm,
    lowestMm: range.lowest,
    highestMm: range.highest,
    reserveMm: range.reserve,
    pocket: heights.pocket,
  });
  const length = heights.pocket.heelEndMm - heights.pocket.mouthMm;
  if (shim.takeMm === undefined)
    return makeVerdict({
      ...base,
      ...HEAD,
      status: "no-go",
      headline: say`${words}; no shim brings all of them in.`,
      remedies: [lowerBridge(heights, range)],
    });
  const after = heightsWithShimMm({
    neededMm: heights.neededMm,
    contactsMm: heights.contactsMm,
    pocket: heights.pocket,
    thicknessMm: shim.takeMm,
    thick: shim.thick,
  });
  const weighed = weigh(heightProblem(heights, range.lowest, range.highest, range.reserve, shim.takeMm, shim.thick));
  const thinEnd = shim.thick === "heel end" ? "nothing at the pocket's mouth" : "nothing at the heel's end";
  // The act "shim" means one that is thick at the heel's end: the other kind is left to be chosen by hand.
  const work: Work =
    shim.thick === "heel end"
      ? { act: "shim", thickness: shim.takeMm, length, angleDegrees: shim.takeAngleDegrees ?? 0 }
      : { act: "choose", what: `a tapered shim of ${shim.takeMm.toFixed(2)} mm, thick at the pocket's mouth` };
  const remedy: Remedy = {
    id: "shim",
    text: say`Full-length tapered shim: at least ${mm(shim.minMm)} at the ${shim.thick === "heel end" ? "heel's end" : "pocket's mouth"}, ${thinEnd} (${figure(shim.leastAngleDegrees, "°", 2)}); take ${mm(shim.takeMm)} (${figure(shim.takeAngleDegrees ?? 0, "°", 2)})`,
    permanence: "reversible",
    then: "go",
    figures: { minMm: shim.minMm, takeMm: shim.takeMm },
  };
  return makeVerdict({
    ...base,
    ...HEAD,
    status: "rework",
    headline: say`${words}. A tapered shim of ${mm(shim.takeMm)} in the neck pocket cures it.`,
    detail: [
      ...(base.detail ?? []),
      say`With the shim the contacts stand at ${join(after)}, inside ${mm(range.lowest + range.reserve, 1)} to ${mm(range.highest - range.reserve, 1)}.`,
    ],
    ...(weighed.known ? { probability: weighed.probability } : {}),
    remedies: [remedy, lowerBridge(heights, range)],
    work: [work],
    figures: {
      ...base.figures,
      ...Object.fromEntries(after.map((z, index) => [`withShim${index + 1}Mm`, z])),
      ...Object.fromEntries(shim.shortMm.map((value, index) => [`short${index + 1}Mm`, value])),
      riseWithReserveMm: Math.max(...heights.neededMm.map((z) => range.lowest + range.reserve - z)),
      shimLeastMm: shim.minMm,
      shimLeastDegrees: shim.leastAngleDegrees,
      shimTakeMm: shim.takeMm,
      shimTakeDegrees: shim.takeAngleDegrees ?? shimAngleDegrees({ thicknessMm: shim.takeMm, pocketLengthMm: length }),
    },
  });
}

/** Buy by numbers: the height range another bridge would have to have. */
function lowerBridge(heights: NeededHeights, range: { reserve: number }): Remedy {
  const from = Math.min(...heights.neededMm) - range.reserve;
  const to = Math.max(...heights.neededMm) + range.reserve;
  return {
    id: "another-bridge",
    text: say`Buy by numbers: a bridge whose saddles go down to ${mm(from, 1)} and up to ${mm(to, 1)}`,
    permanence: "reversible",
    figures: { lowestMm: from, highestMm: to },
  };
}

function withShim(
  heights: NeededHeights,
  neededMm: readonly number[],
  thicknessMm: number,
  thick: ThickEnd = "heel end",
): number[] {
  if (thicknessMm === 0 || !heights.pocket) return [...neededMm];
  return heightsWithShimMm({ neededMm, contactsMm: heights.contactsMm, pocket: heights.pocket, thicknessMm, thick });
}

function heightProblem(
  heights: NeededHeights,
  lowest: Quantity | number,
  highest: Quantity | number,
  reserve: number,
  shim: number,
  thick: ThickEnd = "heel end",
): Problem {
  const number = (value: Quantity | number, x: Readonly<Record<string, number>>, name: string) =>
    typeof value === "number" ? value : (x[name] as number);
  const leaves: Record<string, Quantity> = { ...heights.leaves };
  if (typeof lowest !== "number") leaves.lowest = lowest;
  if (typeof highest !== "number") leaves.highest = highest;
  return {
    leaves,
    unit: "mm",
    margin: (x) => {
      const needed = withShim(heights, heights.heightsOf(x), shim, thick);
      const low = number(lowest, x, "lowest") + reserve;
      const high = number(highest, x, "highest") - reserve;
      return Math.min(...needed.map((z) => Math.min(z - low, high - z)));
    },
  };
}

function join(values: readonly number[]): Phrase {
  return values.flatMap((value, index) => (index === 0 ? [mm(value)] : [", ", mm(value)]));
}
