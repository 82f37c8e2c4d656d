/**
 * Further rows of the trade about a bridge: strings inside the board's edges, two strings on one saddle, string holes
 * right through the body, posts in bushings that are there. Each is asked only where its data is given.
 */
import { sideRange } from "../bridge/index.ts";
import { findThread, fromBothFaces, RULES, threadsTogether } from "../fit/index.ts";
import type { Instrument } from "../job/index.ts";
import { type Asking, type Problem, sumOf, weigh } from "../ledger/index.ts";
import { figure, type Known, mm, type Phrase, type Quantity, say } from "../quantity/index.ts";
import { fretPositionMm, shareSaddle } from "../scale/index.ts";
import type { Verdict } from "../verdict/index.ts";
import { type InstrumentQuestion, makeVerdict, measureVerdict } from "./make-verdict.ts";
import { type PlacedPiece, placement } from "./placement.ts";
import { scaleFrame } from "./scale-frame.ts";
import { setbackOf } from "./setbacks.ts";

const SIDE = { id: "bridge.side", question: "Do the outer strings stay on the board?", stake: 3 } as const;
const SHARED = {
  id: "bridge.shared-saddles",
  question: "How far out are two strings that share a saddle?",
  stake: 1,
} as const;
const THROUGH = { id: "bridge.through", question: "Can the string holes be drilled right through?", stake: 3 } as const;
const POSTS = { id: "bridge.post-thread", question: "Do the posts screw into the bushings?", stake: 2 } as const;

/** From the board's edge to the middle of an outer string at the last fret (common practice, no source). */
const EDGE_MM = 2.5;
/** What an ear lets pass at fret 12 when chords ring (common practice, no source). */
const CENTS_LEFT = 3;

export function bridgeRowQuestions(instrument: Instrument): InstrumentQuestion[] {
  const { bridge, neck, body } = instrument;
  if (!bridge) return [];
  const shared = bridge.pieces.some((piece) => piece.saddles.some((saddle) => saddle.sharedBy));
  const holesOnly = bridge.topAnchor === undefined && bridge.pieces.some((piece) => piece.stringHoles.length > 0);
  const through = bridge.anchor === "through" || (bridge.anchor === "unknown" && holesOnly);
  const bushings = body.holes.some((hole) => hole.bushing);
  return [
    ...(neck.boardWidthAtLastFret.known ? [{ id: SIDE.id, question: SIDE.question, answer: answerSide }] : []),
    ...(shared ? [{ id: SHARED.id, question: SHARED.question, answer: answerShared }] : []),
    ...(through ? [{ id: THROUGH.id, question: THROUGH.question, answer: answerThrough }] : []),
    ...(bridge.postThread !== "" || (bridge.kind === "two posts" && bushings)
      ? [{ id: POSTS.id, question: POSTS.question, answer: answerPosts }]
      : []),
  ];
}

interface OuterString {
  readonly string: number;
  readonly nutY: Known;
  readonly q: Known;
  readonly contactXMm: number;
  readonly sideMm: number;
}

function outerStrings(instrument: Instrument, pieces: readonly PlacedPiece[], offsetMm: number): OuterString[] {
  const all = pieces.flatMap((piece) =>
    piece.saddles.flatMap((saddle): OuterString[] => {
      const nutY = instrument.neck.nutY[saddle.string - 1];
      if (!nutY?.known) return [];
      const contactXMm = saddle.end.value + saddle.setback.value - offsetMm;
      return [{ string: saddle.string, nutY, q: saddle.q, contactXMm, sideMm: piece.pose?.sideMm ?? 0 }];
    }),
  );
  const first = all.find(({ string }) => string === 1);
  const last = all.find(({ string }) => string === instrument.stringCount);
  return first && last ? [first, last] : [];
}

function answerSide(asking: Asking<Instrument>): Verdict {
  const placed = placement(asking);
  const { neck } = asking.subject;
  const width = neck.boardWidthAtLastFret;
  if (!placed.known) return measureVerdict(SIDE, placed.missing, "where the outer strings run");
  const outer = outerStrings(asking.subject, placed.pieces, placed.model.frame.offsetMm);
  const missing: Quantity[] = [width, neck.frets].filter((quantity) => !quantity.known);
  if (outer.length < 2) missing.push(...neck.nutY.filter((quantity) => !quantity.known).slice(0, 1));
  if (missing.length > 0 || !width.known || !neck.frets.known)
    return measureVerdict(SIDE, missing, "whether the outer strings stay on the board");
  const lengths = placed.model.frame.scaleLengths.map(({ value }) => value);
  const scaleLengthMm = lengths.reduce((sum, length) => sum + length, 0) / lengths.length;
  const lastFretXMm = fretPositionMm({ scaleLengthMm, fret: neck.frets.value });
  const problem: Problem = {
    leaves: {
      width,
      ...Object.fromEntries(
        outer.flatMap(({ string, nutY, q }) => [
          [`nut${string}`, nutY],
          [`q${string}`, q],
        ]),
      ),
    },
    unit: "mm",
    margin: (x) =>
      Math.min(
        ...outer.map(({ string, contactXMm, sideMm }) => {
          const share = lastFretXMm / contactXMm;
          const y = (x[`nut${string}`] as number) * (1 - share) + (sideMm + (x[`q${string}`] as number)) * share;
          return (x.width as number) / 2 - EDGE_MM - Math.abs(y);
        }),
      ),
  };
  const weighed = weigh(problem);
  if (!weighed.known) return measureVerdict(SIDE, weighed.missing, "whether the outer strings stay on the board");
  const range = sideRange({
    halfWidthAtLastFretMm: width.value / 2,
    lastFretXMm,
    marginMm: EDGE_MM,
    nutYMm: outer.map(({ nutY }) => nutY.value),
    acrossMm: outer.map(({ q }) => q.value),
    contactXMm: outer.map(({ contactXMm }) => contactXMm),
  });
  const room = range.toMm - range.fromMm;
  const go = weighed.margin >= 0;
  return makeVerdict({
    ...SIDE,
    status: go ? "go" : room >= 0 ? "rework" : "no-go",
    headline: go
      ? say`At the last fret the outer strings stand at least ${mm(weighed.margin + EDGE_MM, 1)} inside the board's edges; the bridge may stand ${mm(range.fromMm, 1)} to ${mm(range.toMm, 1)} off the centre line.`
      : room >= 0
        ? say`One outer string runs too near the board's edge: shift the bridge to between ${mm(range.fromMm, 1)} and ${mm(range.toMm, 1)} off the centre line.`
        : say`The strings spread too wide for the board by ${mm(-room, 1)} at the last fret, wherever the bridge stands: a narrower bridge is needed.`,
    margin: { value: weighed.margin, unit: "mm", u: weighed.u },
    probability: weighed.probability,
    shares: weighed.shares,
    work: !go && room >= 0 ? [{ act: "choose", what: "the bridge shifted sideways" }] : [],
    sums: [
      sumOf(problem, {
        title: "Outer string and board's edge at the last fret",
        formula: "margin = width/2 − edge − |y|, y = y_nut (1 − x/x_c) + (side + q) x/x_c",
        symbols: { width: { symbol: "width", meaning: "board at the last fret" } },
        constants: [
          { symbol: "edge", meaning: "to the string's middle", value: EDGE_MM, unit: "mm", u: 0, origin: "rule" },
          { symbol: "x", meaning: "last fret from the nut", value: lastFretXMm, unit: "mm", u: 0, origin: "rule" },
        ],
        result: say`margin ${mm(weighed.margin)}`,
        source: { text: "Derived: a straight string. 2.5 mm from the edge: common practice", mark: "derived" },
      }),
    ],
    figures: { sideFromMm: range.fromMm, sideToMm: range.toMm, lastFretXMm },
  });
}

interface SharedPair {
  readonly strings: readonly [number, number];
  readonly answer: ReturnType<typeof shareSaddle>;
  readonly setbacks: readonly [Known, Known];
}

function answerShared(asking: Asking<Instrument>): Verdict {
  const frame = scaleFrame(asking);
  const { bridge, strings, stringCount } = asking.subject;
  if (!frame.known || !bridge)
    return measureVerdict(SHARED, frame.known ? [] : frame.missing, "what is left on each string");
  const pairs = bridge.pieces.flatMap((piece) =>
    piece.saddles.flatMap((saddle): SharedPair[] => {
      const [first, second] = saddle.sharedBy ?? [];
      if (first === undefined || second === undefined || first !== saddle.string) return [];
      const other = piece.saddles.find(({ string }) => string === second);
      const [a, b] = [first, second].map((string) => {
        const data = strings[string - 1];
        const length = frame.scaleLengths[string - 1];
        return data && length ? setbackOf(data, length, stringCount).quantity : undefined;
      });
      const length = frame.scaleLengths[first - 1];
      if (!a?.known || !b?.known || !length || !saddle.q.known || !other?.q.known) return [];
      const apartMm = Math.abs(saddle.q.value - other.q.value);
      const answer = shareSaddle({ scaleLengthMm: length.value, setbacksMm: [a.value, b.value], apartMm });
      return [{ strings: [first, second], answer, setbacks: [a, b] }];
    }),
  );
  const worst = [...pairs].sort((p, q) => Math.abs(q.answer.centsLeft[0]) - Math.abs(p.answer.centsLeft[0]))[0];
  if (!worst)
    return measureVerdict(
      SHARED,
      strings
        .map(({ setback }) => setback.cents)
        .filter((one) => !one.known)
        .slice(0, 2),
      "what is left on each string",
    );
  const left = Math.abs(worst.answer.centsLeft[0]);
  const lines = pairs.map(
    ({ strings: [a, b], answer }): Phrase =>
      say`Strings ${a} and ${b}: ${figure(Math.abs(answer.centsLeft[0]), "cents", 1)} left on each, at a common setback of ${mm(answer.setbackMm)}.`,
  );
  const [wanted, other] = worst.setbacks;
  return makeVerdict({
    ...SHARED,
    status: left <= CENTS_LEFT ? "go" : "rework",
    headline: say`Strings ${worst.strings[0]} and ${worst.strings[1]} keep ${figure(left, "cents", 1)} each${left <= CENTS_LEFT ? "" : ": more than passes"}.`,
    detail: lines,
    margin: { value: CENTS_LEFT - left, unit: "cents", u: 0 },
    remedies:
      left <= CENTS_LEFT
        ? []
        : [
            {
              id: "angled-saddle",
              text: say`A saddle angled by ${figure(Math.abs(worst.answer.angleDegrees), "°", 1)}, or one saddle a string`,
              permanence: "reversible",
              then: "go",
            },
          ],
    work:
      left <= CENTS_LEFT
        ? []
        : [
            {
              act: "buy",
              what: "angled saddle",
              spec: `${Math.abs(worst.answer.angleDegrees).toFixed(1)}° from square`,
            },
          ],
    sums: [
      {
        title: `Strings ${worst.strings[0]} and ${worst.strings[1]} on one saddle`,
        formula: "left = (s_1 − s_2)/2 · 1731.2/L",
        rows: [
          {
            symbol: "s_1",
            meaning: `setback of string ${worst.strings[0]}`,
            value: wanted.value,
            unit: "mm",
            u: 0,
            origin: wanted.origin,
            path: wanted.path,
          },
          {
            symbol: "s_2",
            meaning: `setback of string ${worst.strings[1]}`,
            value: other.value,
            unit: "mm",
            u: 0,
            origin: other.origin,
            path: other.path,
          },
        ],
        result: say`left ${figure(left, "cents", 1)}`,
        source: { text: "Derived: half the difference of the two setbacks. 3 cents: common practice", mark: "derived" },
      },
    ],
    figures: { centsLeft: left, setbackMm: worst.answer.setbackMm, angleDegrees: worst.answer.angleDegrees },
  });
}

function answerThrough(asking: Asking<Instrument>): Verdict {
  const { body, workshop } = asking.subject;
  const missing = [body.thickness, workshop.bitReach].filter((quantity) => !quantity.known);
  if (!body.thickness.known || !workshop.bitReach.known)
    return measureVerdict(THROUGH, missing, "whether the bit reaches half way from each face");
  const hole = fromBothFaces({ bodyMm: body.thickness.value, bitReachMm: workshop.bitReach.value });
  const problem: Problem = {
    leaves: { body: body.thickness, reach: workshop.bitReach },
    unit: "mm",
    margin: (x) => fromBothFaces({ bodyMm: x.body as number, bitReachMm: x.reach as number }).marginMm,
  };
  const weighed = weigh(problem);
  if (!weighed.known)
    return measureVerdict(THROUGH, weighed.missing, "whether the bit reaches half way from each face");
  const go = weighed.margin >= 0;
  return makeVerdict({
    ...THROUGH,
    status: go ? "go" : "no-go",
    headline: go
      ? say`Drill from both faces, ${mm(hole.eachMm, 1)} from each, so that a wandering bit shows on neither: the bit reaches ${mm(workshop.bitReach.value, 1)}.`
      : say`The bit reaches ${mm(workshop.bitReach.value, 1)}, ${mm(hole.reachMm, 1)} from each face is needed: take a longer one, or load from the top.`,
    detail: [
      say`On the back the sides change and the distances along stay: mark both faces from the neck's centre line. Drill press only.`,
    ],
    margin: { value: weighed.margin, unit: "mm", u: weighed.u },
    probability: weighed.probability,
    shares: weighed.shares,
    sums: [
      sumOf(problem, {
        title: "Reach of the bit",
        formula: RULES.fromBothFaces.formula,
        symbols: {
          body: { symbol: "body", meaning: "thickness" },
          reach: { symbol: "reach", meaning: "free length of the bit" },
        },
        result: say`margin ${mm(hole.marginMm, 1)}`,
        source: RULES.fromBothFaces.source,
      }),
    ],
    figures: { eachFaceMm: hole.eachMm, bitReachMm: workshop.bitReach.value },
  });
}

function answerPosts(asking: Asking<Instrument>): Verdict {
  const { bridge, body } = asking.subject;
  const bushing = body.holes.find((hole) => hole.bushing)?.bushing;
  const post = findThread(bridge?.postThread ?? "");
  const there = findThread(bushing ?? "");
  if (!post || !there) {
    const unnamed = [...(post ? [] : ["the posts"]), ...(there ? [] : ["the bushings"])].join(" and ");
    return makeVerdict({
      ...POSTS,
      status: "measure",
      headline: say`The thread of ${unnamed} is not known, or not in the table: measure it over ten threads before a post is turned in.`,
      next: {
        path: post ? "body.holes" : "parts.bridge.postThread",
        what: `the thread of ${unnamed}`,
        tool: "calliper",
        how: "Outer diameter over the crests; a rule over ten threads, divided by ten",
        minutes: 3,
        settles: "whether the posts go into the bushings",
      },
    });
  }
  const pair = threadsTogether({ post, bushing: there });
  return makeVerdict({
    ...POSTS,
    status: pair.goes ? "go" : "rework",
    headline: pair.goes
      ? say`The posts (${post.name}) go into the bushings (${there.name}).`
      : say`Posts ${post.name} do not go into bushings ${there.name}: ${mm(pair.diameterDifferenceMm)} apart in diameter, ${mm(pair.slipOverTenTurnsMm)} of slip over ten turns. Do not force them.`,
    margin: { value: pair.marginMm, unit: "mm", u: 0 },
    remedies: pair.goes
      ? []
      : [
          {
            id: "old-posts",
            text: say`Keep the old posts, if the new bridge sits on them`,
            permanence: "reversible",
            then: "go",
          },
          {
            id: "new-bushings",
            text: say`Draw the old bushings and press in those sold with the posts`,
            permanence: "hidden",
            then: "go",
          },
        ],
    work: pair.goes ? [] : [{ act: "choose", what: "the old posts, or new bushings" }],
    sums: [
      {
        title: "Post and bushing",
        formula: "diameters within 0.1 and pitches within 1 %",
        rows: [
          { symbol: "d post", meaning: post.name, value: post.majorMm, unit: "mm", u: 0, origin: "data sheet" },
          { symbol: "d bushing", meaning: there.name, value: there.majorMm, unit: "mm", u: 0, origin: "data sheet" },
          { symbol: "P post", meaning: "pitch", value: post.pitchMm, unit: "mm", u: 0, origin: "data sheet" },
          { symbol: "P bushing", meaning: "pitch", value: there.pitchMm, unit: "mm", u: 0, origin: "data sheet" },
        ],
        result: say`margin ${mm(pair.marginMm)}`,
        source: {
          text: "ISO 261 coarse threads and ASME B1.1 threads as tabulated; limits common practice",
          mark: "published",
        },
      },
    ],
    figures: { diameterDifferenceMm: pair.diameterDifferenceMm, slipOverTenTurnsMm: pair.slipOverTenTurnsMm },
  });
}
