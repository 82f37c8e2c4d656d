/** "Can the saddles stand high (or low) enough?": needed contact heights, and the shim that cures them. */
import type { Instrument } from "../job/index.ts";
import { type Asking, type KnownWeight, type Problem, sumOf, weigh } from "../ledger/index.ts";
import { figure, mm, type Phrase, type Quantity, say } from "../quantity/index.ts";
import {
  heightsWithShimMm,
  type Pocket,
  type ShimAnswer,
  shimAngleDegrees,
  shimRange,
  type ThickEnd,
} from "../setup/index.ts";
import type { Remedy, Sum, Verdict, Work } from "../verdict/index.ts";
import { chance, type InstrumentQuestion, makeVerdict, measureVerdict } from "./make-verdict.ts";
import { type NeededHeights, neededHeights } from "./needed-heights.ts";

const HEAD = {
  id: "bridge.height",
  question: "Can every saddle stand at the height its string needs?",
  stake: 2,
} as const;

export function bridgeHeightQuestions(instrument: Instrument): InstrumentQuestion[] {
  return instrument.bridge ? [{ id: HEAD.id, question: HEAD.question, answer }] : [];
}

/** What the saddles reach, and what is to stay free at each end of it. */
interface Range {
  readonly lowest: number;
  readonly highest: number;
  readonly reserve: number;
}

type Base = Omit<Parameters<typeof makeVerdict>[0], "status" | "headline"> & { readonly detail: readonly Phrase[] };

function answer(asking: Asking<Instrument>): Verdict {
  const heights = neededHeights(asking);
  if (!heights.known) return measureVerdict(HEAD, heights.missing, "how high each saddle must stand");
  const { bridge, limits, shim } = asking.subject;
  const ends = [bridge?.lowest, bridge?.highest];
  if (!bridge?.lowest.known || !bridge.highest.known) {
    const unknown = ends.filter((quantity): quantity is Quantity => quantity !== undefined && !quantity.known);
    return measureVerdict(HEAD, unknown, "whether the saddles reach their heights");
  }
  const reserve = limits.saddleReserve.known ? limits.saddleReserve.value : 0.5;
  const range: Range = { lowest: bridge.lowest.value, highest: bridge.highest.value, reserve };
  const fittedMm = shim.known && heights.pocket ? shim.value : 0;
  const neededMm = withShim(heights, heights.neededMm, fittedMm);
  const problem = heightProblem(heights, { lowest: bridge.lowest, highest: bridge.highest, reserve }, fittedMm);
  const weighed = weigh(problem);
  const margin = Math.min(...neededMm.map((z) => Math.min(z - range.lowest - reserve, range.highest - reserve - z)));
  const base: Base = {
    ...HEAD,
    detail: [
      say`Needed heights of the contacts, strings 1 to ${neededMm.length}: ${join(neededMm)}; the saddles reach ${mm(range.lowest, 1)} to ${mm(range.highest, 1)}.`,
    ],
    ...(weighed.known ? { margin: { value: margin, unit: "mm", u: weighed.u }, shares: weighed.shares } : {}),
    sums: [heightSum(problem, heights, neededMm)],
    figures: {
      ...Object.fromEntries(neededMm.map((z, index) => [`needed${index + 1}Mm`, z])),
      lowestMm: range.lowest,
      highestMm: range.highest,
      marginMm: margin,
    },
  };
  if (margin < 0) return outOfRange({ base, heights, range, neededMm, fittedMm }, asking.subject);
  const gate = limits.gateProbability.known ? limits.gateProbability.value : 0.95;
  return inRange(base, margin, weighed.known ? weighed : undefined, gate);
}

function heightSum(problem: Problem, heights: NeededHeights, neededMm: readonly number[]): Sum {
  const length = heights.lines[0]?.scaleLengthMm;
  const row = { symbol: "L", meaning: "scale length", unit: "mm", u: 0, origin: "data sheet" as const };
  return sumOf(problem, {
    title: "Height of a saddle's contact",
    formula:
      "z = z_n + (z_12 − z_n)(L + s)/(L/2), z_n = plane + relief − drop + nut height, z_12 = plane + relief − drop + action",
    symbols: {},
    constants: length === undefined ? [] : [{ ...row, value: length }],
    result: say`needed ${join(neededMm)}`,
    source: {
      text: `Derived: a straight string over nut, fret 12 and saddle. Fret plane from: ${heights.planeWords}`,
      mark: "derived",
    },
  });
}

function inRange(base: Base, margin: number, weighed: KnownWeight | undefined, gate: number): Verdict {
  const close = weighed && weighed.probability < gate;
  const doubt = close
    ? [
        say`Close: ${chance(weighed.probability)} that the reserve is kept. Height is set by screws and can be tried: read the fret plane once more before a bridge is bought for it.`,
      ]
    : [];
  return makeVerdict({
    ...base,
    status: "go",
    headline: say`Every saddle can stand where it must, ${mm(margin)} inside its range and reserve at the tightest.`,
    detail: [...base.detail, ...doubt],
    ...(weighed ? { probability: weighed.probability } : {}),
  });
}

/** Heights that do not do as things stand. */
interface Amiss {
  readonly base: Base;
  readonly heights: NeededHeights;
  readonly range: Range;
  /** As it stands, with the shim that is in. */
  readonly neededMm: readonly number[];
  /** The shim that is in; 0 without one. */
  readonly fittedMm: number;
}

/** The saddle that is worst off: beyond the range, or inside it with less than the reserve. */
function outOfRangeWords({ neededMm, fittedMm, range: { lowest, highest, reserve } }: Amiss): Phrase {
  const short = neededMm.map((z) => Math.max(lowest - z, z - highest));
  const worst = short.indexOf(Math.max(...short));
  const by = short[worst] ?? 0;
  const z = neededMm[worst] ?? 0;
  const tooLow = lowest - z >= z - highest;
  const shim = fittedMm === 0 ? say`` : say` with the shim of ${mm(fittedMm)} in`;
  const needs = say`string ${worst + 1} needs its contact at ${mm(z)}${shim}`;
  const end = say`the range ${tooLow ? "starts" : "ends"} at ${mm(tooLow ? lowest : highest, 1)}`;
  if (by <= 0)
    return say`Too near the end of the saddles' screws: ${needs}, ${end}, and ${mm(reserve, 1)} is to stay free`;
  return say`${tooLow ? "The saddles bottom out" : "The saddles do not reach"}: ${needs}, ${end}, short by ${mm(by)}`;
}

function outOfRange(amiss: Amiss, instrument: Instrument): Verdict {
  const { base, heights, range, fittedMm } = amiss;
  const words = outOfRangeWords(amiss);
  const buy = lowerBridge(amiss);
  const { boltOn } = instrument.neck;
  const { pocket } = heights;
  if (!pocket || !boltOn) {
    const missing = pocket || !boltOn ? [] : [instrument.body.pocket.length];
    return makeVerdict({
      ...base,
      status: "no-go",
      headline: say`${words}.`,
      missing: measureVerdict(HEAD, missing, "the shim that would cure it").missing,
      remedies: [buy],
    });
  }
  const { lowest: lowestMm, highest: highestMm, reserve: reserveMm } = range;
  const { neededMm, contactsMm } = heights;
  // Reckoned from the bare pocket, so that what comes out is the whole thickness, whatever is in it now.
  const shim = shimRange({ neededMm, contactsMm, lowestMm, highestMm, reserveMm, pocket });
  if (fittedMm > 0 && !shim.needed) return withoutShim(amiss, words, shim.maxMm);
  if (shim.takeMm === undefined) {
    const headline = say`${words}; no shim brings all of them in.`;
    return makeVerdict({ ...base, status: "no-go", headline, remedies: [buy] });
  }
  return shimmed({ ...amiss, pocket, shim: { ...shim, takeMm: shim.takeMm }, words });
}

const SHIM_STEP_MM = 0.05;
/** Rounding must not lose a whole step on the last bit of a sum. */
const ROUNDING = 1e-9;

/** The shim that is in is the trouble: without it, or with a thinner one, every saddle is in its range. */
function withoutShim(amiss: Amiss, words: Phrase, maxMm: number): Verdict {
  const { base, heights, range, fittedMm } = amiss;
  const bare = heights.neededMm;
  const mostMm = Math.max(0, Math.floor(maxMm / SHIM_STEP_MM + ROUNDING) * SHIM_STEP_MM);
  const thinner = mostMm >= SHIM_STEP_MM ? say`, or put one of at most ${mm(mostMm)} in its place` : say``;
  const weighed = weigh(heightProblem(heights, range, 0));
  const [from, to] = [range.lowest + range.reserve, range.highest - range.reserve];
  const most = mostMm >= SHIM_STEP_MM ? `, or with one of at most ${mostMm.toFixed(2)} mm in all` : "";
  return makeVerdict({
    ...base,
    status: "rework",
    headline: say`${words}. Take the shim of ${mm(fittedMm)} out${thinner}.`,
    detail: [
      ...base.detail,
      say`Without a shim the contacts stand at ${join(bare)}, inside ${mm(from, 1)} to ${mm(to, 1)}.`,
    ],
    ...(weighed.known ? { probability: weighed.probability } : {}),
    remedies: [
      {
        id: "no-shim",
        text: say`Take the shim of ${mm(fittedMm)} out of the neck pocket${thinner}`,
        permanence: "reversible",
        then: "go",
        figures: { mostMm },
      },
      lowerBridge(amiss),
    ],
    work: [{ act: "choose", what: `the neck without its shim${most}` }],
    figures: {
      ...base.figures,
      ...Object.fromEntries(bare.map((z, index) => [`withShim${index + 1}Mm`, z])),
      shimMostMm: mostMm,
    },
  });
}

interface Shimmed extends Amiss {
  readonly pocket: Pocket;
  readonly shim: ShimAnswer & { readonly takeMm: number };
  readonly words: Phrase;
}

function shimmed(given: Shimmed): Verdict {
  const { base, heights, range, neededMm, fittedMm, pocket, shim, words } = given;
  const { takeMm: thicknessMm, thick } = shim;
  const length = pocket.heelEndMm - pocket.mouthMm;
  const degrees = shim.takeAngleDegrees ?? shimAngleDegrees({ thicknessMm, pocketLengthMm: length });
  const after = withShim(heights, heights.neededMm, thicknessMm, thick);
  const weighed = weigh(heightProblem(heights, range, thicknessMm, thick));
  const [from, to] = [range.lowest + range.reserve, range.highest - range.reserve];
  const instead = insteadOf(fittedMm);
  return makeVerdict({
    ...base,
    status: "rework",
    headline:
      fittedMm === 0
        ? say`${words}. A tapered shim of ${mm(thicknessMm)} in the neck pocket cures it.`
        : say`${words}. A tapered shim of ${mm(thicknessMm)} in all${instead}, cures it.`,
    detail: [
      ...base.detail,
      say`With the shim the contacts stand at ${join(after)}, inside ${mm(from, 1)} to ${mm(to, 1)}.`,
    ],
    ...(weighed.known ? { probability: weighed.probability } : {}),
    remedies: [shimRemedy(shim, degrees, instead), lowerBridge(given)],
    work: [shimWork(shim, length, degrees)],
    figures: {
      ...base.figures,
      ...Object.fromEntries(after.map((z, index) => [`withShim${index + 1}Mm`, z])),
      ...Object.fromEntries(neededMm.map((z, index) => [`short${index + 1}Mm`, range.lowest - z])),
      riseWithReserveMm: Math.max(...neededMm.map((z) => from - z)),
      shimLeastMm: shim.minMm,
      shimLeastDegrees: shim.leastAngleDegrees,
      shimTakeMm: thicknessMm,
      shimTakeDegrees: degrees,
    },
  });
}

/** Two wedges in one pocket would add up: the old one never stays. */
function insteadOf(fittedMm: number): Phrase {
  return fittedMm === 0 ? say`` : say`, in place of the old one of ${mm(fittedMm)}, which comes out`;
}

function shimRemedy(shim: Shimmed["shim"], degrees: number, instead: Phrase): Remedy {
  const [thickEnd, thinEnd] =
    shim.thick === "heel end" ? ["heel's end", "pocket's mouth"] : ["pocket's mouth", "heel's end"];
  return {
    id: "shim",
    text: say`Full-length tapered shim: at least ${mm(shim.minMm)} at the ${thickEnd}, nothing at the ${thinEnd} (${figure(shim.leastAngleDegrees, "°", 2)}); take ${mm(shim.takeMm)} (${figure(degrees, "°", 2)})${instead}`,
    permanence: "reversible",
    then: "go",
    figures: { minMm: shim.minMm, takeMm: shim.takeMm },
  };
}

/** The act "shim" means one that is thick at the heel's end: the other kind is left to be chosen by hand. */
function shimWork({ takeMm, thick }: Shimmed["shim"], length: number, angleDegrees: number): Work {
  if (thick === "heel end") return { act: "shim", thickness: takeMm, length, angleDegrees };
  return { act: "choose", what: `a tapered shim of ${takeMm.toFixed(2)} mm, thick at the pocket's mouth` };
}

/** Buy by numbers: the height range another bridge would have to have. */
function lowerBridge({ neededMm, range }: Amiss): Remedy {
  const from = Math.min(...neededMm) - range.reserve;
  const to = Math.max(...neededMm) + range.reserve;
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

/** The least margin over the leaf values; the ends of the range are leaves too where they are quantities. */
function heightProblem(
  heights: NeededHeights,
  range: { readonly lowest: Quantity | number; readonly highest: Quantity | number; readonly reserve: number },
  shim: number,
  thick: ThickEnd = "heel end",
): Problem {
  const { lowest, highest, reserve } = range;
  const leaves: Record<string, Quantity> = { ...heights.leaves };
  if (typeof lowest !== "number") leaves.lowest = lowest;
  if (typeof highest !== "number") leaves.highest = highest;
  return {
    leaves,
    unit: "mm",
    margin: (x) => {
      const needed = withShim(heights, heights.heightsOf(x), shim, thick);
      const low = (typeof lowest === "number" ? lowest : (x.lowest as number)) + reserve;
      const high = (typeof highest === "number" ? highest : (x.highest as number)) - reserve;
      return Math.min(...needed.map((z) => Math.min(z - low, high - z)));
    },
  };
}

function join(values: readonly number[]): Phrase {
  return values.flatMap((value, index) => (index === 0 ? [mm(value)] : [", ", mm(value)]));
}
