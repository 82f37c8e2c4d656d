/**
 * How likely the place holds, by each way of measuring with each way of drilling, so that the worth of a better way is
 * seen before anybody drills. A bridge of several pieces goes only if every piece does: they share the scale line, and
 * each is drilled with an error of its own.
 */
import type { DrillMethod, Instrument } from "../job/index.ts";
import { probabilityOf } from "../ledger/index.ts";
import { type DoubtTerm, derive, type Known } from "../quantity/index.ts";
import type { BridgeModel } from "./bridge-model.ts";
import { type ChanceCase, DRILL_METHODS, drillingU, placeProblem } from "./place-chance.ts";
import type { Placement } from "./placement.ts";
import type { ScaleLineCandidate } from "./scale-frame.ts";

type KnownPlacement = Extract<Placement, { known: true }>;
type Frame = Extract<BridgeModel, { known: true }>["frame"];

/** One way of measuring with one way of drilling. */
export interface WayOdds {
  readonly measuring: "steel rule" | "carried over";
  readonly drilling: DrillMethod;
  readonly probability: number;
}

/** @param probability of `now`, which is one of the ways as a rule: it is not worked out twice */
export function oddsByWay(
  instrument: Instrument,
  placed: KnownPlacement,
  now: readonly ChanceCase[],
  probability: number,
): WayOdds[] {
  // All that a way of measuring changes.
  const measuredAs = (cases: readonly ChanceCase[]) =>
    JSON.stringify(
      cases.map(({ saddles, walls }) => [saddles.map(({ end }) => end), walls.map(({ old }) => old.at.u)]),
    );
  const present = measuredAs(now);
  const { frame } = placed.model;
  const byRule = frame.candidates.find((candidate) => candidate.way !== "carried over");
  const ways = [
    ...(byRule
      ? [
          {
            measuring: "steel rule" as const,
            swap: (given: ChanceCase) => measuredBy(given, frame, byRule, instrument, "steel rule"),
          },
        ]
      : []),
    { measuring: "carried over" as const, swap: (given: ChanceCase) => carriedOver(given, frame, instrument) },
  ];
  return ways.flatMap(({ measuring, swap }) => {
    const measured = now.map(swap);
    const alike = measuredAs(measured) === present;
    return DRILL_METHODS.map((drilling): WayOdds => {
      const uMm = drillingU(drilling);
      if (alike && now.every((one) => one.drillingUMm === uMm)) return { measuring, drilling, probability };
      const cases = measured.map((one) => ({ ...one, drillingUMm: uMm, drillingWords: drilling }));
      return { measuring, drilling, probability: probabilityOf(placeProblem(cases)) ?? 0 };
    });
  });
}

/** The same place, believed only as far as one candidate of the scale line goes. */
function measuredBy(
  given: ChanceCase,
  frame: Frame,
  candidate: ScaleLineCandidate,
  instrument: Instrument,
  tool: string,
): ChanceCase {
  const shift = candidate.quantity.value - frame.best.quantity.value;
  return {
    ...given,
    saddles: given.saddles.map((saddle) => {
      const doubt = withOwn(candidate.quantity, saddle.end, frame.best.quantity);
      return { ...saddle, end: { ...saddle.end, value: saddle.end.value + shift, doubt } };
    }),
    walls: given.walls.map(({ old, ...wall }) => ({
      ...wall,
      old: { ...old, at: { ...old.at, u: evidenceBy(instrument, old.group, tool) ?? old.at.u } },
    })),
  };
}

/** Below this a difference of two doubts is only the last bit of a sum. */
const NOTHING_MM = 1e-9;

/** A string of a multi-scale neck keeps what is doubtful about its own length, whatever the line rests on. */
function withOwn(line: Known, end: Known, before: Known): readonly DoubtTerm[] {
  const own = derive("own length", "length", 0, [
    { quantity: end, sensitivity: 1 },
    { quantity: before, sensitivity: -1 },
  ]);
  const doubt = own.doubt.filter(({ u }) => Math.abs(u) > NOTHING_MM);
  if (doubt.length === 0) return line.doubt;
  const both = [line, { ...own, doubt }].map((quantity) => ({ quantity, sensitivity: 1 }));
  return derive("scale line", "length", 0, both).doubt;
}

/** Story stick from the bolted neck, and the plate laid on the old holes: as read if read so, else as it would be. */
function carriedOver(given: ChanceCase, frame: Frame, instrument: Instrument): ChanceCase {
  const read = frame.candidates.find(
    (candidate) => candidate.way === "carried over" && candidate.quantity.tool === "transfer",
  );
  const asIf: ScaleLineCandidate = read ?? {
    ...frame.best,
    way: "carried over",
    quantity: {
      ...frame.best.quantity,
      doubt: [
        {
          id: "scaleLine.transfer",
          u: TRANSFER_U_MM,
          shape: "normal",
          what: "scale line carried over with a story stick",
        },
      ],
    },
  };
  const moved = measuredBy(given, frame, asIf, instrument, "plate laid on");
  if (read) return moved;
  return {
    ...moved,
    walls: moved.walls.map(({ old, ...wall }) => ({
      ...wall,
      old: { ...old, at: { ...old.at, u: sharpened(old.at.u as Known, PLATE_LAID_U_MM) } },
    })),
  };
}

const TRANSFER_U_MM = 0.15;
const PLATE_LAID_U_MM = 0.1;

function sharpened(quantity: Known, u: number): Known {
  if (!quantity.known) return quantity;
  const term = { id: `${quantity.path}:as if`, u, shape: "normal" as const, what: "plate laid on the old holes" };
  return { ...quantity, doubt: [term] };
}

function evidenceBy(instrument: Instrument, group: string, tool: string): Known | undefined {
  return instrument.evidence[`body.holes.${group}.u`]?.find((reading) => reading.tool === tool);
}

/** Was the scale line carried over with the neck bolted? */
export function hasTransfer(instrument: Instrument): boolean {
  return instrument.scaleLine.read.some((quantity) => quantity.known && quantity.tool === "transfer");
}

const SHORT = {
  "hand drill": "HandDrill",
  "drill press": "DrillPress",
  "self-centring bit through the plate": "SelfCentring",
} as const;

export function oddsFigures(odds: readonly WayOdds[]): Record<string, number> {
  return Object.fromEntries(
    odds.map((way) => [
      `p${way.measuring === "steel rule" ? "Rule" : "Transfer"}${SHORT[way.drilling]}`,
      way.probability,
    ]),
  );
}
