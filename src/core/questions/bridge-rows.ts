/** Two more rows of the trade about a bridge: strings that share a saddle, and posts in bushings that are there. */
import { findThread, RULES, threadsTogether } from "../fit/index.ts";
import type { Instrument } from "../job/index.ts";
import { type Asking, type Problem, sumOf, weigh } from "../ledger/index.ts";
import { figure, type Known, mm, type Phrase, type Quantity, say } from "../quantity/index.ts";
import { centsLeft, shareSaddle } from "../scale/index.ts";
import type { Remedy, Verdict, Work } from "../verdict/index.ts";
import { bridgeSideQuestions } from "./bridge-side.ts";
import { bridgeThroughQuestions } from "./bridge-through.ts";
import { answered } from "./judge.ts";
import { type InstrumentQuestion, listed, makeVerdict, measureVerdict } from "./make-verdict.ts";
import { type ScaleFrame, scaleFrame } from "./scale-frame.ts";
import { setbackOf } from "./setbacks.ts";

const SHARED = {
  id: "bridge.shared-saddles",
  question: "How far out are the strings that share a saddle?",
  stake: 1,
} as const;
const SHARED_SETTLES = "how many cents are left on each string";
const POSTS = { id: "bridge.post-thread", question: "Do the posts screw into the bushings?", stake: 2 } as const;

/** What an ear lets pass at fret 12 when chords ring (common practice, no source). */
const CENTS_LEFT = 3;
const OCTAVE = 12;

/** Each is asked only where its data is given. */
export function bridgeRowQuestions(instrument: Instrument): InstrumentQuestion[] {
  const { bridge, body } = instrument;
  if (!bridge) return [];
  const shared = bridge.pieces.some((piece) => piece.saddles.some((saddle) => saddle.sharedBy));
  const bushings = body.holes.some((hole) => hole.bushing);
  const questions = [
    ...bridgeSideQuestions(instrument),
    ...(shared ? [{ id: SHARED.id, question: SHARED.question, answer: answerShared }] : []),
    ...bridgeThroughQuestions(instrument),
    ...(bridge.postThread !== "" || (bridge.kind === "two posts" && bushings)
      ? [{ id: POSTS.id, question: POSTS.question, answer: answerPosts }]
      : []),
  ];
  return questions.map(answered);
}

/** One string of a shared saddle. */
interface Sharer {
  readonly string: number;
  readonly setback: Known;
  /** End of its own scale, behind that of the first string on the saddle. */
  readonly lineMm: number;
  readonly scaleLengthMm: number;
  readonly q: Known;
}

interface SharedSaddleCase {
  readonly sharers: readonly Sharer[];
  /** Cents left on each at the place that they share. */
  readonly left: readonly number[];
  readonly worst: number;
  /** Setback of the common place, behind the first string's scale line. */
  readonly setbackMm: number;
}

function answerShared(asking: Asking<Instrument>): Verdict {
  const frame = scaleFrame(asking);
  if (!frame.known) return measureVerdict(SHARED, frame.missing, SHARED_SETTLES);
  const { saddles, missing } = sharedSaddles(asking.subject, frame);
  const worst = [...saddles].sort((a, b) => b.worst - a.worst)[0];
  if (missing.length > 0 || !worst) return measureVerdict(SHARED, missing, SHARED_SETTLES);
  const problem = sharedProblem(worst);
  const weighed = weigh(problem);
  if (!weighed.known) return measureVerdict(SHARED, weighed.missing, SHARED_SETTLES);
  const go = weighed.margin >= 0;
  const names = listed(
    worst.sharers.map(({ string }) => String(string)),
    9,
  );
  const angleDegrees = angleOf(worst);
  return makeVerdict({
    ...SHARED,
    status: go ? "go" : "rework",
    headline: say`Strings ${names} on one saddle are left up to ${figure(worst.worst, "cents", 1)} out at fret 12${go ? "" : ": more than passes"}.`,
    detail: [
      ...saddles.map(sharedLine),
      ...(angleDegrees === undefined || !go
        ? []
        : [say`A crown angled by ${figure(Math.abs(angleDegrees), "°", 1)} would set both right.`]),
    ],
    margin: { value: weighed.margin, unit: "cents", u: weighed.u },
    // With one place for each string nothing of the compromise is left.
    ...(go ? { probability: weighed.probability } : {}),
    shares: weighed.shares,
    ...sharedRework(worst, angleDegrees, go),
    sums: [
      sumOf(problem, {
        title: `Strings ${names} on one saddle`,
        formula: "left = (place - middle of the places) 1731.2/L; margin = 3 - the largest",
        symbols: Object.fromEntries(
          worst.sharers.map(({ string }) => [
            `s${string}`,
            { symbol: `s${string}`, meaning: `setback of string ${string}` },
          ]),
        ),
        result: say`margin ${figure(weighed.margin, "cents", 1)}`,
        source: { text: "each string's distance from the common place; 3 cents: common practice", mark: "derived" },
      }),
    ],
    figures: {
      centsLeft: worst.worst,
      setbackMm: worst.setbackMm,
      ...(angleDegrees === undefined ? {} : { angleDegrees }),
    },
  });
}

function sharedRework(
  { sharers }: SharedSaddleCase,
  angleDegrees: number | undefined,
  go: boolean,
): { readonly remedies: readonly Remedy[]; readonly work: readonly Work[] } {
  if (go) return { remedies: [], work: [] };
  const single: Remedy = {
    id: "saddle-a-string",
    text: say`A bridge with a saddle for each string`,
    permanence: "reversible",
    then: "go",
  };
  if (angleDegrees === undefined)
    return { remedies: [single], work: [{ act: "buy", what: "bridge", spec: "a saddle for each string" }] };
  const toTail = angleDegrees > 0 ? sharers[0] : sharers[1];
  const spec = `${Math.abs(angleDegrees).toFixed(1)}° from square, string ${toTail?.string ?? 0} toward the tail`;
  const angled: Remedy = {
    id: "angled-saddle",
    text: say`A saddle angled by ${figure(Math.abs(angleDegrees), "°", 1)}, string ${toTail?.string ?? 0} toward the tail`,
    permanence: "reversible",
    then: "go",
    figures: { angleDegrees },
  };
  return { remedies: [angled, single], work: [{ act: "buy", what: "angled saddle", spec }] };
}

function sharedLine({ sharers, left, setbackMm }: SharedSaddleCase): Phrase {
  const each = sharers.reduce<Phrase>(
    (words, { string }, index) =>
      say`${words}${index === 0 ? "" : ", "}string ${string} ${figure(Math.abs(left[index] ?? 0), "cents", 1)} ${(left[index] ?? 0) < 0 ? "flat" : "sharp"}`,
    [],
  );
  return say`Common setback ${mm(setbackMm)}: ${each}.`;
}

/** Turn of the crown that serves both of a pair; one straight crown cannot serve three. */
function angleOf({ sharers }: SharedSaddleCase): number | undefined {
  const [a, b] = sharers;
  if (!a || !b || sharers.length !== 2) return undefined;
  return shareSaddle({
    scaleLengthMm: a.scaleLengthMm,
    setbacksMm: [a.lineMm + a.setback.value, b.lineMm + b.setback.value],
    apartMm: Math.abs(a.q.value - b.q.value),
  }).angleDegrees;
}

function sharedSaddles(
  { bridge, strings, stringCount }: Instrument,
  frame: Extract<ScaleFrame, { known: true }>,
): { readonly saddles: readonly SharedSaddleCase[]; readonly missing: readonly Quantity[] } {
  const missing: Quantity[] = [];
  const saddles = (bridge?.pieces ?? []).flatMap((piece) =>
    piece.saddles.flatMap((saddle): SharedSaddleCase[] => {
      const together = saddle.sharedBy ?? [];
      if (together[0] !== saddle.string) return [];
      const firstEnd = frame.ends[saddle.string - 1]?.value ?? 0;
      const sharers = together.flatMap((string): Sharer[] => {
        const data = strings[string - 1];
        const length = frame.scaleLengths[string - 1];
        const q = piece.saddles.find((one) => one.string === string)?.q;
        if (!data || !length || !q) return [];
        const { quantity } = setbackOf(data, length, stringCount);
        missing.push(...[quantity, q].filter((one) => !one.known));
        if (!quantity.known || !q.known) return [];
        const lineMm = (frame.ends[string - 1]?.value ?? 0) - firstEnd;
        return [{ string, setback: quantity, lineMm, scaleLengthMm: length.value, q }];
      });
      const places = sharers.map(({ lineMm, setback }) => lineMm + setback.value);
      const left = centsOf(sharers, places);
      return [{ sharers, left, worst: Math.max(...left.map(Math.abs)), setbackMm: mean(places) }];
    }),
  );
  return { saddles, missing };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function centsOf(sharers: readonly Sharer[], placesMm: readonly number[]): number[] {
  const commonMm = mean(placesMm);
  return sharers.map(({ scaleLengthMm }, index) =>
    centsLeft({ scaleLengthMm, fret: OCTAVE, shortMm: (placesMm[index] ?? Number.NaN) - commonMm }),
  );
}

function sharedProblem({ sharers }: SharedSaddleCase): Problem {
  return {
    leaves: Object.fromEntries(sharers.map(({ string, setback }) => [`s${string}`, setback])),
    unit: "cents",
    margin: (x) => {
      const places = sharers.map(({ string, lineMm }) => lineMm + (x[`s${string}`] ?? Number.NaN));
      return CENTS_LEFT - Math.max(...centsOf(sharers, places).map(Math.abs));
    },
  };
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
      headline: say`The thread of ${unnamed} is not known: measure it over ten threads before a post is turned in, and write it as M8x1.25 or 5/16-24 is written.`,
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
        formula: RULES.threadMatch.formula,
        rows: [
          { symbol: "d post", meaning: post.name, value: post.majorMm, unit: "mm", u: 0, origin: "data sheet" },
          { symbol: "d bushing", meaning: there.name, value: there.majorMm, unit: "mm", u: 0, origin: "data sheet" },
          { symbol: "P post", meaning: "pitch", value: post.pitchMm, unit: "mm", u: 0, origin: "data sheet" },
          { symbol: "P bushing", meaning: "pitch", value: there.pitchMm, unit: "mm", u: 0, origin: "data sheet" },
        ],
        result: say`margin ${mm(pair.marginMm)}`,
        source: {
          text: `threads as tabulated from ISO 261 and ASME B1.1 (published); limits: ${RULES.threadMatch.source.text}`,
          mark: RULES.threadMatch.source.mark,
        },
      },
    ],
    figures: { diameterDifferenceMm: pair.diameterDifferenceMm, slipOverTenTurnsMm: pair.slipOverTenTurnsMm },
  });
}
