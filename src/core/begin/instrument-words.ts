/**
 * "7 strings, multi-scale, single units, left-handed": what somebody has, in any order, in few words.
 *
 * Everything may be left out; what is not said gets a usual default, which the caller states. A word that means nothing
 * here is refused, because it could be the one that mattered.
 */
import { InputError } from "../errors.ts";
import type { DrillMethod } from "../job/index.ts";
import { parseQuantity } from "../quantity/index.ts";
import { shown } from "./reading.ts";

export type BridgeKind = "flat plate" | "single units" | "two posts";

export interface Described {
  readonly kind: "guitar" | "bass";
  readonly strings: number;
  readonly leftHanded: boolean;
  readonly multiScale: boolean;
  readonly bridge: BridgeKind;
  readonly drilling: DrillMethod;
  readonly squareFret?: number;
  /** Printed scale lengths: one, or string 1 and the last string. */
  readonly scaleMm: readonly number[];
  /** Keys that were said; the others are defaults. */
  readonly said: ReadonlySet<string>;
}

interface Rule {
  readonly key: string;
  readonly pattern: RegExp;
  readonly value: (match: RegExpExecArray) => string | number;
}

const NUMBER_WORDS = ["four", "five", "six", "seven", "eight", "nine"];
const COUNT = String.raw`(\d+|${NUMBER_WORDS.join("|")})`;

/** The first rule that fits takes its words away, so the longer phrases come first. */
const RULES: readonly Rule[] = [
  {
    key: "drilling",
    pattern: /\bself[- ]cent(?:r|er)ing(?: (?:drill|bit))?(?: through (?:the )?(?:plate|bridge))?/,
    value: () => "self-centring bit through the plate",
  },
  { key: "drilling", pattern: /\b(?:drill|pillar|bench)[- ]?(?:press|drill)\b/, value: () => "drill press" },
  {
    key: "drilling",
    pattern: /\b(?:hand[- ]?(?:held )?drill|(?:drilled )?by hand|cordless(?: drill)?)\b/,
    value: () => "hand drill",
  },
  {
    key: "squareFret",
    pattern: /\b(?:square|straight|perpendicular)(?: (?:at|is))?(?: fret)? (\d{1,2})\b/,
    value: (match) => Number(match[1]),
  },
  {
    key: "squareFret",
    pattern: /\bfret (\d{1,2}) (?:is )?(?:square|straight|perpendicular)\b/,
    value: (match) => Number(match[1]),
  },
  { key: "multiScale", pattern: /\b(?:multi[- ]?scale|fan(?:ned)?[- ]?frets?|fan(?:ned)?)\b/, value: () => "yes" },
  { key: "hand", pattern: /\bleft(?:[- ]?hand(?:ed|er)?)?\b|\blefty\b/, value: () => "left" },
  { key: "hand", pattern: /\bright(?:[- ]?hand(?:ed|er)?)?\b/, value: () => "right" },
  { key: "bridge", pattern: /\b(?:two|2)[- ]?(?:posts?|studs?)\b|\b(?:posts?|studs?)\b/, value: () => "two posts" },
  {
    key: "bridge",
    pattern: /\b(?:single|individual|separate)[- ](?:strings? )?(?:units?|bridges?|saddles?)\b|\bunits?\b/,
    value: () => "single units",
  },
  { key: "bridge", pattern: /\bflat(?:[- ]?plates?)?\b|\bplates?\b|\bhard ?tail\b/, value: () => "flat plate" },
  {
    key: "strings",
    pattern: new RegExp(String.raw`\b${COUNT}[- ]?strings?(?:ed|er)?\b`),
    value: (match) => countOf(match[1] ?? ""),
  },
  { key: "kind", pattern: /\bbass(?:[- ]guitar)?\b/, value: () => "bass" },
  { key: "kind", pattern: /\b(?:guitar|baritone)\b/, value: () => "guitar" },
  { key: "scale", pattern: /(?<![\d.])(\d{3,4}(?:\.\d+)?)(?![\d.])(?: ?mm\b)?/, value: (match) => Number(match[1]) },
  {
    key: "scale",
    pattern: /(?<![\d.])(\d{2}(?:\.\d+|[ -]\d+\/\d+)?) ?(?:in\b|inch(?:es)?\b|")/,
    value: (match) => inches(match[1] ?? ""),
  },
  {
    key: "strings",
    pattern: new RegExp(String.raw`(?<![\d.])\b(${COUNT})\b(?![\d.])`),
    value: (match) => countOf(match[1] ?? ""),
  },
];

const FILLERS =
  /\b(?:a|an|and|with|the|my|of|it|is|its|has|have|i|on|in|for|to|new|old|electric|solid|body|bolt|bolted|neck|bridge|bridges|scale|scales|length|lengths|drill|drilled|drilling|mm|one|each|string|strings|by|using|use|will|be)\b|[,.;:&+/-]/g;

const SHORTEST_SCALE_MM = 400;
const LONGEST_SCALE_MM = 1000;
const MOST_FRETS = 24;

/** @throws InputError naming the entry and the word that means nothing here, or two words that contradict */
export function readDescription(text: string | undefined, entry: string): Described {
  const found = new Map<string, (string | number)[]>();
  let rest = (text ?? "").toLowerCase();
  for (const { key, pattern, value } of RULES) {
    for (let match = pattern.exec(rest); match; match = pattern.exec(rest)) {
      found.set(key, [...(found.get(key) ?? []), value(match)]);
      rest = `${rest.slice(0, match.index)} , ${rest.slice(match.index + match[0].length)}`;
    }
  }
  const left = rest.replace(FILLERS, " ").replace(/\s+/g, " ").trim();
  if (left !== "") {
    throw new InputError(
      entry,
      `does not know "${shown(left)}"`,
      "Use words such as: 6 strings, bass, flat plate, single units, two posts, multi-scale, left-handed, drill press",
    );
  }
  return describedBy(found, entry);
}

function describedBy(found: ReadonlyMap<string, readonly (string | number)[]>, entry: string): Described {
  const one = (key: string): string | number | undefined => {
    const values = [...new Set(found.get(key) ?? [])];
    if (values.length > 1) throw new InputError(entry, `says both ${values.join(" and ")}`, "Say one of them");
    return values[0];
  };
  const scaleMm = (found.get("scale") ?? []).map(Number);
  refuseScales(scaleMm, entry);
  const kind = one("kind") === "bass" ? "bass" : "guitar";
  const strings = Number(one("strings") ?? (kind === "bass" ? 4 : 6));
  if (!(strings >= 4 && strings <= 9))
    throw new InputError(entry, `says ${strings} strings`, "Four to nine are known here");
  const squareFret = one("squareFret");
  if (squareFret !== undefined && Number(squareFret) > MOST_FRETS)
    throw new InputError(
      entry,
      `says that fret ${squareFret} stands square`,
      `Name a fret from 0 (the nut) to ${MOST_FRETS}`,
    );
  const multiScale = one("multiScale") === "yes" || new Set(scaleMm).size > 1 || squareFret !== undefined;
  return {
    kind,
    strings,
    leftHanded: one("hand") === "left",
    multiScale,
    bridge: (one("bridge") ?? "flat plate") as BridgeKind,
    drilling: (one("drilling") ?? "hand drill") as DrillMethod,
    ...(squareFret === undefined ? {} : { squareFret: Number(squareFret) }),
    scaleMm,
    said: new Set(found.keys()),
  };
}

function refuseScales(scaleMm: readonly number[], entry: string): void {
  if (scaleMm.length > 2)
    throw new InputError(
      entry,
      `gives ${scaleMm.length} scale lengths`,
      "Give one, or those of string 1 and of the last string",
    );
  const wrong = scaleMm.find((length) => !(length >= SHORTEST_SCALE_MM && length <= LONGEST_SCALE_MM));
  if (wrong === undefined) return;
  throw new InputError(
    entry,
    `${wrong} mm is no scale length: ${SHORTEST_SCALE_MM} to ${LONGEST_SCALE_MM} mm is possible`,
    "Write the whole scale length, e.g. 648 or 25 1/2 in",
  );
}

function countOf(word: string): number {
  const index = NUMBER_WORDS.indexOf(word);
  return index < 0 ? Number(word) : index + 4;
}

function inches(text: string): number {
  return parseQuantity(`${text} in`, { path: "scale length", kind: "length" }).value;
}
