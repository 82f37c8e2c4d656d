/**
 * "Do the outer strings stay on the board?": outer strings against the board's edges at the last fret, and how far
 * sideways the bridge may go.
 *
 * Model: each string runs straight from its nut slot to its saddle. A heel with play can stand askew by play over the
 * pocket's length, either way; carried on to the bridge, that is doubt about where the bridge stands from the neck's own
 * centre line. Left out: a board whose edge is not symmetrical about the centre line.
 */
import { type Pose, sideRange, sideShiftFromPlayMm } from "../bridge/index.ts";
import type { Instrument } from "../job/index.ts";
import type { Asking, Numbers } from "../ledger/index.ts";
import { exact, type Known, mm, type Phrase, type Quantity, say, standardUncertainty } from "../quantity/index.ts";
import { fretPositionMm } from "../scale/index.ts";
import type { NextReading, Remedy, Status, Sum, Verdict } from "../verdict/index.ts";
import type { SaddleCase } from "./bridge-model.ts";
import { assumed, at, doubtLine, type Judgement, judge, judgedParts, type Leaves, ruleSum, wanted } from "./judge.ts";
import { type InstrumentQuestion, makeVerdict, measureVerdict } from "./make-verdict.ts";
import { carriedAsideMm, contactAt, type Placement, placement } from "./placement.ts";

const SIDE = { id: "bridge.side", question: "Do the outer strings stay on the board?", stake: 3 } as const;
const SETTLES = "whether the outer strings stay on the board";

/** From the board's edge to the middle of an outer string at the last fret (common practice, no source). */
const EDGE_MM = 2.5;

const RULE = {
  formula:
    "margin = width/2 - edge - |y|, y = nut (1 - k) + (bridge cos f + askew + turn) k, k = nut to last fret / nut to contact",
  source: { text: "a straight string; edge 2.5: common practice", mark: "derived" },
} as const;

export function bridgeSideQuestions({ neck }: Instrument): InstrumentQuestion[] {
  return neck.boardWidthAtLastFret.known ? [{ id: SIDE.id, question: SIDE.question, answer: answerSide }] : [];
}

type KnownPlacement = Extract<Placement, { known: true }>;

interface OuterString {
  readonly string: number;
  readonly nutY: Known;
  /** Across, where the string leaves the bridge: from the part's middle, or from the centre line for a single unit. */
  readonly across: Known;
  /** Where the saddles' middle stands; 0 for a single unit. */
  readonly sideMm: number;
  /** A part that stands askew: cos f, and how far its turn carries this contact aside of the saddles' middle. */
  readonly cos: number;
  readonly askewMm: number;
  readonly contactXMm: number;
  /** Last fret as a share of the way from nut to contact. */
  readonly share: number;
}

function outerStrings(instrument: Instrument, placed: KnownPlacement, frets: number): OuterString[] {
  const { frame, bridge } = placed.model;
  const all = placed.pieces.flatMap(({ pose, saddles, piece }) =>
    saddles.flatMap((saddle): OuterString[] => {
      const { string, end, setback, q } = saddle;
      const nutY = instrument.neck.nutY[string - 1];
      const scaleLengthMm = frame.scaleLengths[string - 1]?.value ?? Number.NaN;
      if (!nutY?.known || !piece.side.known) return [];
      const units = bridge.kind === "single units";
      const contactXMm = end.value + setback.value - frame.offsetMm;
      const fromNutMm = contactXMm - (frame.nutX[string - 1] ?? 0);
      return [
        {
          string,
          nutY,
          across: units ? piece.side : q,
          ...(units || !pose ? SQUARE : standing(saddle, saddles, pose)),
          contactXMm,
          share: fretPositionMm({ scaleLengthMm, fret: frets }) / fromNutMm,
        },
      ];
    }),
  );
  const first = all.find(({ string }) => string === 1);
  const last = all.find(({ string }) => string === instrument.stringCount);
  return first && last ? [first, last] : [];
}

const SQUARE = { sideMm: 0, cos: 1, askewMm: 0 } as const;

function standing(
  saddle: SaddleCase,
  saddles: readonly SaddleCase[],
  pose: Pose,
): Pick<OuterString, "sideMm" | "cos" | "askewMm"> {
  const sideMm = pose.sideMm + carriedAsideMm(saddles, pose.yawDegrees);
  const cos = Math.cos((pose.yawDegrees * Math.PI) / 180);
  return { sideMm, cos, askewMm: contactAt(saddle, pose).yMm - sideMm - saddle.q.value * cos };
}

function answerSide(asking: Asking<Instrument>): Verdict {
  const placed = placement(asking);
  const { neck, limits } = asking.subject;
  const { boardWidthAtLastFret: width, frets } = neck;
  if (!placed.known) return measureVerdict(SIDE, placed.missing, SETTLES);
  if (!width.known || !frets.known) return measureVerdict(SIDE, unknownOf([width, frets]), SETTLES);
  const outer = outerStrings(asking.subject, placed, frets.value);
  const [one, other] = outer;
  if (!one || !other) return measureVerdict(SIDE, unknownOf(neck.nutY).slice(0, 1), SETTLES);
  const seen = sideSeen(outer, width, turnOf(asking.subject, Math.max(one.contactXMm, other.contactXMm)));
  const judged = judge({
    leaves: seen.leaves,
    margins: seen.margins((string) => string.sideMm),
    ...(seen.roomMm >= 0 ? { after: seen.margins(() => seen.middleMm) } : {}),
    work: "permanent",
    gate: limits.gateProbability,
  });
  if (!judged.known) return measureVerdict(SIDE, judged.missing, SETTLES);
  return sideVerdict(asking.subject, seen, judged, placed.model.bridge.kind === "single units");
}

function unknownOf(quantities: readonly Quantity[]): Quantity[] {
  return quantities.filter((quantity) => !quantity.known);
}

/** Where the bridge may stand from the neck's centre line because the heel can turn: 0, with its doubt. */
function turnOf({ neck, body }: Instrument, contactXMm: number): Known {
  const { pocketPlay, nutToHeelEnd, nutToFret12, fret12ToHeelEnd, boltOn } = neck;
  const { length } = body.pocket;
  const path = "neck.pocketTurn";
  const heelEndMm = nutToHeelEnd.known
    ? nutToHeelEnd.value
    : nutToFret12.known && fret12ToHeelEnd.known
      ? nutToFret12.value + fret12ToHeelEnd.value
      : undefined;
  if (!boltOn || !pocketPlay.known || !length.known || heelEndMm === undefined) return exact(0, path);
  const limitMm = sideShiftFromPlayMm({
    playMm: pocketPlay.value,
    lengthMm: length.value,
    mouthToBridgeMm: contactXMm - (heelEndMm - length.value),
  });
  return {
    ...assumed(path, 0, limitMm / Math.sqrt(3), "the heel's play in its pocket, carried on to the bridge"),
    path,
  } as Known;
}

interface SideSeen {
  readonly leaves: Leaves;
  readonly margins: (sideOf: (string: OuterString) => number) => Record<string, (x: Numbers) => number>;
  readonly outer: readonly OuterString[];
  readonly turn: Known;
  readonly lastFretXMm: number;
  /** Places of the part's middle that keep both margins. */
  readonly fromMm: number;
  readonly toMm: number;
  readonly middleMm: number;
  readonly roomMm: number;
}

function sideSeen(outer: readonly OuterString[], width: Known, turn: Known): SideSeen {
  const leaves: Record<string, Known> = { width, turn };
  for (const { string, nutY, across } of outer)
    Object.assign(leaves, { [`nut${string}`]: nutY, [`bridge${string}`]: across });
  // Strings of a multi-scale neck have their own share: the range is told with one fret and contacts to match.
  const lastFretXMm = Math.min(...outer.map(({ share, contactXMm }) => share * contactXMm));
  const { fromMm, toMm } = sideRange({
    halfWidthAtLastFretMm: width.value / 2,
    lastFretXMm,
    marginMm: EDGE_MM,
    nutYMm: outer.map(({ nutY }) => nutY.value),
    acrossMm: outer.map(({ across, cos, askewMm }) => across.value * cos + askewMm),
    contactXMm: outer.map(({ share }) => lastFretXMm / share),
  });
  const marginOf = (one: OuterString, sideMm: number) => {
    const [bridge, nut] = [`bridge${one.string}`, `nut${one.string}`];
    return (x: Numbers) => {
      const bridgeMm = sideMm + at(x, bridge) * one.cos + one.askewMm + at(x, "turn");
      return at(x, "width") / 2 - EDGE_MM - Math.abs(at(x, nut) * (1 - one.share) + bridgeMm * one.share);
    };
  };
  return {
    leaves,
    margins: (sideOf) => Object.fromEntries(outer.map((one) => [`string${one.string}`, marginOf(one, sideOf(one))])),
    outer,
    turn,
    lastFretXMm,
    fromMm,
    toMm,
    middleMm: (fromMm + toMm) / 2,
    roomMm: toMm - fromMm,
  };
}

function sideVerdict(instrument: Instrument, seen: SideSeen, judged: Judgement, units: boolean): Verdict {
  const { fromMm, toMm, middleMm, roomMm } = seen;
  const { pocketPlay, boltOn } = instrument.neck;
  // What the heel may do is settled by threads and bolts, not by reading the play more sharply.
  const byTurn = judged.doubtful && standardUncertainty(seen.turn) > 0;
  const status = byTurn && judged.status !== "no-go" ? "measure" : judged.status;
  const shift: Remedy = {
    id: "shift-sideways",
    text: say`Set the bridge ${sideWords(middleMm, units)}: both outer strings then keep their margin.`,
    permanence: "reversible",
    then: "go",
    probability: judged.probability,
    figures: { sideMm: middleMm },
  };
  const canShift = judged.status !== "go" && roomMm >= 0;
  return makeVerdict({
    ...SIDE,
    ...judgedParts(judged),
    status,
    ...(byTurn ? { next: THREADS } : {}),
    headline: sideLine(seen, status, judged.margin.value, units),
    detail: [
      ...doubtLine(
        judged,
        "Lay two threads along the outer strings before any hole: alike to both edges at the last fret.",
      ),
      ...(boltOn && !pocketPlay.known
        ? [say`The heel's play in its pocket is not reckoned in: line the neck up by two threads, then bolt it.`]
        : []),
    ],
    remedies: canShift ? [shift] : [],
    work:
      status === "rework" ? [{ act: "choose", what: `the bridge ${middleMm.toFixed(1)} mm off the centre line` }] : [],
    missing: boltOn ? wanted([pocketPlay], "how far the bridge may stand off the neck's centre line") : [],
    sums: sideSums(seen, judged),
    figures: {
      sideFromMm: fromMm,
      sideToMm: toMm,
      lastFretXMm: seen.lastFretXMm,
      turnU: standardUncertainty(seen.turn),
    },
  });
}

const THREADS: NextReading = {
  path: "neck.pocketPlay",
  what: "how the neck stands in its pocket",
  tool: "thread",
  how: "Two threads from the outer nut slots to the outer saddles: turn the heel until both edges at the last fret are alike, bolt it, and enter a play of 0 mm",
  minutes: 10,
  settles: SETTLES,
};

/** Both signs as a person marks them: right is y > 0, seen from the front with the head up. */
function sideWords(mmOff: number, units: boolean): Phrase {
  const from = units ? "of where the strings were planned" : "of the centre line";
  return say`${mm(Math.abs(mmOff), 1)} to the ${mmOff < 0 ? "left" : "right"} ${from}`;
}

function sideLine(seen: SideSeen, status: Status, marginMm: number, units: boolean): Phrase {
  const { fromMm, toMm, roomMm } = seen;
  const between = say`from ${sideWords(fromMm, units)} to ${sideWords(toMm, units)}`;
  if (status === "go")
    return say`At the last fret the outer strings stand at least ${mm(marginMm + EDGE_MM, 1)} inside the board's edges. The bridge may stand ${between}.`;
  if (roomMm < 0)
    return say`The strings spread too wide for the board, wherever the bridge stands: take a bridge whose outer strings stand ${mm(-roomMm, 1)} closer.`;
  if (status === "measure")
    return say`Too close to call whether the outer strings keep ${mm(EDGE_MM, 1)} to the board's edges.`;
  return say`One outer string runs too near the board's edge: the bridge may stand ${between}.`;
}

/** The string nearest to its edge decides; its sum is shown first. */
function sideSums(seen: SideSeen, judged: Judgement): Sum[] {
  const margin = ({ string }: OuterString) => judged.parts[`string${string}`] ?? Number.NaN;
  return [...seen.outer]
    .sort((a, b) => margin(a) - margin(b))
    .map((one) =>
      ruleSum({
        title: `String ${one.string} and the board's edge at the last fret`,
        rule: RULE,
        leaves: seen.leaves,
        rows: [
          ["width", "width", "the board, edge to edge at the last fret"],
          [`nut${one.string}`, "nut", `string ${one.string} at the nut, from the centre line`],
          [`bridge${one.string}`, "bridge", `string ${one.string} at the bridge, across`],
          ["turn", "turn", "the bridge against the neck's centre line, by the heel's play"],
        ],
        result: say`margin ${mm(margin(one))}, k = ${one.share.toFixed(4)}`,
      }),
    );
}
