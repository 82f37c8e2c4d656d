/** Do a pickup's poles stand under the strings? Rules FT5 to FT7. */
import { crossingMm, type PoleRow, poleFit, polePairFit, RULES, type StringLine } from "../fit/index.ts";
import type { Instrument, Pickup } from "../job/index.ts";
import type { Asking, Numbers } from "../ledger/index.ts";
import { mm, type Phrase, type Quantity, say, unknown, valueOr } from "../quantity/index.ts";
import type { Remedy, Sum, Verdict } from "../verdict/index.ts";
import {
  assumed,
  at,
  doubtLine,
  fitVerdict,
  type Judgement,
  judge,
  judgedParts,
  type Leaves,
  type Margins,
  ruleSum,
  valuesOf,
} from "./judge.ts";
import { type InstrumentQuestion, measureVerdict } from "./make-verdict.ts";
import { type ScaleFrame, scaleFrame } from "./scale-frame.ts";
import { setbackOf } from "./setbacks.ts";

export function poleQuestion(id: string, name: string): InstrumentQuestion {
  const question = {
    id: `pickup.${id}.poles`,
    question: `Do the poles of the ${name} (${id}) stand under the strings?`,
  };
  return { ...question, answer: (asking) => poles(asking, id, question) };
}

type Asked = { readonly id: string; readonly question: string };
type KnownFrame = Extract<ScaleFrame, { known: true }>;

function poles(asking: Asking<Instrument>, id: string, question: Asked): Verdict {
  const pickup = asking.subject.pickups.find((one) => one.id === id);
  if (pickup?.poles === "none") {
    return fitVerdict({
      ...question,
      status: "go",
      headline: say`The ${pickup.name} has no poles: any string spread will do.`,
    });
  }
  const frame = scaleFrame(asking);
  const where = pickup && frame.known ? leavesOf(asking.subject, pickup, frame) : undefined;
  if (!pickup || !frame.known || !where) {
    const missing = frame.known ? [unknown(`fit.pickups.${id}`, "length")] : frame.missing;
    return measureVerdict({ ...question, stake: 1 }, missing, "where the strings pass over the pickup");
  }
  return pickup.poles === "two a string"
    ? overPairs(asking, question, where)
    : overPoles(asking, question, pickup, where);
}

interface Where {
  readonly leaves: Leaves;
  /** Somebody measured where the pickup stands across: then its shift is judged, not only its spread. */
  readonly sideKnown: boolean;
  readonly bassSide: 1 | -1;
  /** One of the two outer strings of the pickup at a set of values. */
  readonly lineOf: (x: Numbers, name: "first" | "last") => StringLine;
  readonly row: (x: Numbers) => PoleRow;
}

/** Where each of the two outer strings runs, and where the poles stand. */
function leavesOf(instrument: Instrument, pickup: Pickup, frame: KnownFrame): Where {
  const strings = [...pickup.strings].sort((a, b) => a - b);
  const first = strings[0] ?? 1;
  const last = strings[strings.length - 1] ?? instrument.stringCount;
  const leaves: Record<string, Quantity> = {
    line: frame.best.quantity,
    place: pickup.centre.u,
    // A pickup whose side place nobody gave is taken to stand under its strings; only its spread is judged.
    side: pickup.centre.y.known
      ? pickup.centre.y
      : assumed(`fit.pickups.${pickup.id}.y`, 0, 0.5, "taken on the centre line"),
    slant: pickup.slant,
    poleSpread: pickup.poleSpread,
    poleDiameter: pickup.poleDiameter.known
      ? pickup.poleDiameter
      : assumed(`${pickup.poleDiameter.path}`, 4.8, 0.3, "the usual pole, common practice"),
    polePair: pickup.polePair.known
      ? pickup.polePair
      : assumed(`${pickup.polePair.path}`, 9, 1, "the usual pair, common practice"),
    ...stringLeaves("first", instrument, frame, first),
    ...stringLeaves("last", instrument, frame, last),
  };
  const ends = { first: endOf(frame, first), last: endOf(frame, last) };
  const lineOf = (x: Numbers, name: "first" | "last"): StringLine => {
    const { nut, setback, bridge } = STRING_LEAVES[name];
    return {
      nutXMm: ends[name].nutXMm,
      nutYMm: at(x, nut),
      contactXMm: ends[name].endXMm + at(x, setback),
      contactYMm: at(x, bridge),
    };
  };
  const middleXMm = frame.best.quantity.value - frame.offsetMm;
  return {
    leaves,
    sideKnown: pickup.centre.y.known && pickup.centre.y.origin !== "assumed",
    bassSide: instrument.bassSide,
    lineOf,
    row: (x) => ({ xMm: at(x, "place") - at(x, "line") + middleXMm, yMm: at(x, "side"), slantDegrees: at(x, "slant") }),
  };
}

/** Leaves of the two outer strings. */
const STRING_LEAVES = {
  first: { nut: "firstNut", setback: "firstSetback", bridge: "firstBridge" },
  last: { nut: "lastNut", setback: "lastSetback", bridge: "lastBridge" },
} as const;

function endOf(frame: KnownFrame, string: number): { readonly nutXMm: number; readonly endXMm: number } {
  const end = frame.ends[string - 1]?.value ?? frame.best.quantity.value;
  return { nutXMm: frame.nutX[string - 1] ?? 0, endXMm: end - frame.offsetMm };
}

function stringLeaves(
  name: "first" | "last",
  instrument: Instrument,
  frame: KnownFrame,
  string: number,
): Record<string, Quantity> {
  const { nut, setback: own, bridge } = STRING_LEAVES[name];
  const data = instrument.strings[string - 1];
  const length = frame.scaleLengths[string - 1];
  const setback = data && length ? setbackOf(data, length, instrument.stringCount).quantity : undefined;
  return {
    [nut]: instrument.neck.nutY[string - 1] ?? unknown(`neck.nutY[${string - 1}]`, "length"),
    [bridge]: bridgeY(instrument, string),
    [own]: setback ?? assumed(`strings.${string}.setback`, 3, 1, "a fixed rule, not this string"),
  };
}

/** y of a string at the bridge, the bridge on the centre line. */
function bridgeY(instrument: Instrument, string: number): Quantity {
  for (const { side, saddles } of instrument.bridge?.pieces ?? []) {
    const saddle = saddles.find((one) => one.string === string);
    if (!saddle) continue;
    if (!saddle.q.known || !side.known) return saddle.q.known ? side : saddle.q;
    return side.value === 0 ? saddle.q : { ...saddle.q, value: saddle.q.value + side.value };
  }
  return unknown("parts.bridge.pitch", "length");
}

function overPoles(asking: Asking<Instrument>, question: Asked, pickup: Pickup, where: Where): Verdict {
  const { polePair: _pair, ...leaves } = where.leaves;
  const fitAt = (x: Numbers) =>
    poleFit({
      first: where.lineOf(x, "first"),
      last: where.lineOf(x, "last"),
      poles: where.row(x),
      poleSpreadMm: at(x, "poleSpread"),
      poleDiameterMm: at(x, "poleDiameter"),
    });
  const { limits } = asking.subject;
  const judged = judge({
    leaves,
    margins: ownOffsets(where, (x) => at(x, "poleDiameter") / 2),
    work: "reversible",
    gate: limits.gateProbability,
  });
  if (!judged.known)
    return measureVerdict({ ...question, stake: 1 }, judged.missing, "where the strings pass over the poles");
  const now = fitAt(valuesOf(leaves));
  const warnMm = valueOr(limits.poleWarn, 1);
  const shift = shiftOf(now.sideMm, where);
  const off = Math.abs(now.offsetMm) + shift.mm;
  const shown = {
    spread: now.spreadMm,
    offset: now.offsetMm,
    side: now.sideMm,
    poleSpread: valueOr(pickup.poleSpread, Number.NaN),
    poleRadius: valueOr(leaves.poleDiameter as Quantity, Number.NaN) / 2,
    warnAt: warnMm,
    warn: off > warnMm ? 1 : 0,
    ...(where.sideKnown ? { farthest: off } : {}),
  };
  return fitVerdict({
    ...question,
    ...judgedParts(judged),
    headline: shift.shows
      ? shiftedPoleLine(now.offsetMm, shift, judged, warnMm)
      : poleLine(now.offsetMm, judged, warnMm),
    detail: [
      say`Outer strings ${mm(now.spreadMm)} apart over the pickup, outer poles ${mm(shown.poleSpread)}.`,
      ...shiftLine(shift, off),
      ...doubtLine(judged, "Hold a thread from nut to saddle over the poles."),
    ],
    remedies:
      judged.status === "go"
        ? []
        : [
            {
              id: "other-spread",
              text: say`Take a pickup with its outer poles about ${mm(now.spreadMm, 1)} apart, or one with a blade.`,
              permanence: "reversible",
            },
            ...moveRemedy(shift),
          ],
    sums: [poleSum(leaves, now), ...shiftSum(leaves, now, where), limitSum(leaves, judged)],
    figures: shown,
  });
}

function poleLine(offsetMm: number, judged: Judgement, warnMm: number): Phrase {
  const off = Math.abs(offsetMm);
  const way = offsetMm > 0 ? "outside" : "inside";
  if (judged.margin.value < 0)
    return say`The outer strings pass beside their poles, ${mm(off)} ${way} the pole centres: they will be quieter.`;
  if (off > warnMm)
    return say`The outer strings stand ${mm(off)} ${way} the pole centres: it shows, but they are still over the poles.`;
  return say`The poles stand under the strings: the outer ones are ${mm(off)} ${way} the pole centres.`;
}

/** Spread and shift apart: another pickup cures the first, another place the second. */
function shiftedPoleLine(offsetMm: number, shift: Shift, judged: Judgement, warnMm: number): Phrase {
  const off = Math.abs(offsetMm);
  const apart = say`by their spread ${mm(off)} ${offsetMm > 0 ? "outside" : "inside"} the pole centres, and ${shift.words}`;
  if (judged.margin.value < 0)
    return say`The outer strings pass beside their poles, up to ${mm(off + shift.mm)} off: ${apart}. They will be quieter.`;
  if (off + shift.mm > warnMm) return say`The outer strings are still over the poles, and it shows: ${apart}.`;
  return say`The poles stand under the strings: the outer ones are ${apart}.`;
}

const LINE_ROWS = [
  ["place", "u", "the pickup, from the end wall"],
  ["line", "S", "the scale line"],
  ["firstNut", "a", "first string at the nut"],
  ["firstBridge", "b", "first string at the bridge"],
  ["firstSetback", "s", "its setback"],
  ["lastNut", "c", "last string at the nut"],
  ["lastBridge", "d", "last string at the bridge"],
  ["lastSetback", "t", "its setback"],
  ["slant", "slant", "slant of the poles"],
] as const;

function poleSum(leaves: Leaves, now: { readonly offsetMm: number }) {
  const rows = [...LINE_ROWS, ["poleSpread", "poles", "outer poles, centre to centre"] as const];
  return ruleSum({
    title: "Offset of the outer strings",
    rule: RULES.poles,
    leaves,
    rows,
    result: say`${mm(now.offsetMm)}`,
  });
}

function limitSum(leaves: Leaves, judged: Judgement) {
  return ruleSum({
    title: "Still over the pole",
    rule: RULES.poleLimits,
    leaves,
    rows: [["poleDiameter", "pole", "across one pole"]],
    result: say`${mm(judged.margin.value)}`,
  });
}

function overPairs(asking: Asking<Instrument>, question: Asked, where: Where): Verdict {
  const { poleDiameter: _diameter, ...leaves } = where.leaves;
  const fitAt = (x: Numbers) =>
    polePairFit({
      first: where.lineOf(x, "first"),
      last: where.lineOf(x, "last"),
      poles: where.row(x),
      pairCentresMm: at(x, "poleSpread"),
      polePairMm: at(x, "polePair"),
    });
  const gate = asking.subject.limits.gateProbability;
  const judged = judge({
    leaves,
    margins: ownOffsets(where, (x) => at(x, "polePair") / 2),
    work: "reversible",
    gate,
  });
  if (!judged.known)
    return measureVerdict({ ...question, stake: 1 }, judged.missing, "where the strings pass over the pole pairs");
  const now = fitAt(valuesOf(leaves));
  const goes = judged.margin.value >= 0;
  const shift = shiftOf(now.sideMm, where);
  const rows = [
    ...LINE_ROWS,
    ["poleSpread", "pairs", "pair centre to pair centre"] as const,
    ["polePair", "pair", "between the two poles of a pair"] as const,
  ];
  return fitVerdict({
    ...question,
    ...judgedParts(judged),
    headline: pairLine(goes, now.offsetMm, shift, judged),
    detail: [
      say`String pitch over the half ${mm(now.pitchMm)}, pair centres ${mm(valueOr(where.leaves.poleSpread as Quantity, Number.NaN))}.`,
      ...shiftLine(shift, now.offsetMm + shift.mm),
      ...doubtLine(judged, "Hold a thread from nut to saddle over the poles."),
    ],
    remedies: goes
      ? []
      : [
          {
            id: "other-spread",
            text: say`Take a half with pair centres about ${mm(now.pitchMm, 1)} apart.`,
            permanence: "reversible",
          },
          ...moveRemedy(shift),
        ],
    sums: [
      ruleSum({ title: "Offset in the pair", rule: RULES.polePairs, leaves, rows, result: say`${mm(now.offsetMm)}` }),
      ...shiftSum(leaves, now, where),
    ],
    figures: {
      pitch: now.pitchMm,
      offset: now.offsetMm,
      sideMm: now.sideMm,
      ...(where.sideKnown ? { farthest: now.offsetMm + shift.mm } : {}),
      pairCentres: valueOr(where.leaves.poleSpread as Quantity, Number.NaN),
    },
  });
}

function pairLine(goes: boolean, offsetMm: number, shift: Shift, judged: Judgement): Phrase {
  if (!shift.shows)
    return goes
      ? say`Each string runs between its two poles, at most ${mm(offsetMm)} off the middle of the pair.`
      : say`The strings pass outside their pole pairs, ${mm(offsetMm)} off the middle of the pair.`;
  if (goes)
    return say`Each string runs between its two poles: by their pitch at most ${mm(offsetMm)} off the middle of the pair, and ${shift.words}, which leaves ${mm(judged.margin.value)} to the nearest pole.`;
  return say`The strings pass outside their pole pairs, up to ${mm(offsetMm + shift.mm)} off the middle of the pair: ${shift.words}.`;
}

/**
 * The strings' middle off the pickup's, where somebody measured it. One outer string is then farther off its pole, the
 * other nearer.
 */
interface Shift {
  readonly mm: number;
  /** Large enough to be read. */
  readonly shows: boolean;
  /** "the strings stand 3.67 mm to the bass side of the pickup's middle" */
  readonly words: Phrase;
  readonly toward: string;
}

/** A shift under this is lost in the reading of any tool (common practice). */
const SHOWN_FROM_MM = 0.05;

function shiftOf(sideMm: number, { sideKnown, bassSide }: Where): Shift {
  const off = sideKnown ? Math.abs(sideMm) : 0;
  const toward = sideMm * bassSide > 0 ? "bass" : "treble";
  const words = say`the strings stand ${mm(off)} to the ${toward} side of the pickup's middle`;
  return { mm: off, shows: off >= SHOWN_FROM_MM, words, toward };
}

function shiftLine(shift: Shift, farthestMm: number): Phrase[] {
  return shift.shows ? [say`Spread and shift together: the worse string is ${mm(farthestMm)} off its own middle.`] : [];
}

function moveRemedy(shift: Shift): Remedy[] {
  if (!shift.shows) return [];
  const text = say`Move the pickup ${mm(shift.mm)} to the ${shift.toward} side, and its rout with it; first measure again where it stands.`;
  return [{ id: "move", text, permanence: "permanent" }];
}

function shiftSum(leaves: Leaves, { sideMm }: { readonly sideMm: number }, { sideKnown }: Where): Sum[] {
  if (!sideKnown) return [];
  const rows = [...LINE_ROWS, ["side", "y", "the pickup's middle from the centre line"] as const];
  return [ruleSum({ title: "Shift of the strings", rule: RULES.poleShift, leaves, rows, result: say`${mm(sideMm)}` })];
}

/**
 * Each outer string's own offset, outside its pole and inside it: straight margins, where the least of them has a kink.
 * Where the side place is not known the spread alone is judged, half and half.
 */
function ownOffsets(where: Where, reach: (x: Numbers) => number): Margins {
  const { lineOf, row } = where;
  const crossing = (name: "first" | "last") => (x: Numbers) => crossingMm(lineOf(x, name), row(x));
  const now = valuesOf(where.leaves);
  const [first, last] = [crossing("first"), crossing("last")];
  const [upper, lower] = first(now) >= last(now) ? [first, last] : [last, first];
  const both = (name: string, off: (x: Numbers) => number): Margins => ({
    [`outside${name}`]: (x) => reach(x) - off(x),
    [`inside${name}`]: (x) => reach(x) + off(x),
  });
  const half = (x: Numbers) => at(x, "poleSpread") / 2;
  return where.sideKnown
    ? { ...both("First", (x) => upper(x) - half(x)), ...both("Last", (x) => -lower(x) - half(x)) }
    : both("", (x) => (upper(x) - lower(x)) / 2 - half(x));
}
