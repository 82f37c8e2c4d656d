/** Entries that several starters ask: what it is, the scale, how wide the strings are apart. */
import { InputError } from "../errors.ts";
import type { JobFile } from "../job/index.ts";
import { mm, type Phrase, rectangularU, say } from "../quantity/index.ts";
import type { Draft } from "./draft.ts";
import { type Described, readDescription } from "./instrument-words.ts";
import { plainMm, type Reading, writtenScaled } from "./reading.ts";
import type { Entry } from "./types.ts";

type FileInstrument = JobFile["instrument"];
type FileNeck = NonNullable<FileInstrument["neck"]>;

export const WHAT: Entry = {
  id: "what",
  prompt: "What do you have?",
  lay: "No tool: count the strings, and say what kind of bridge is to go on and how you will drill.",
  kind: "words",
  example: "7 strings, multi-scale, single units, left-handed",
  more: "Any words, in any order: guitar or bass; 4 to 9 strings; flat plate, single units (one for each string) or two posts; multi-scale, and which fret stands square if you know (square fret 8); left-handed; hand drill, drill press or self-centring bit; a printed scale length (648 or 25 1/2 in).",
  tool: "",
  unknown: "a right-handed guitar with six strings and a flat plate, drilled by hand",
};

export const NUT_12: Entry = {
  id: "nut-12",
  prompt: "How far is it from the nut's face to the middle of fret 12?",
  lay: "Lay the steel rule along the middle of the neck, on edge, and read at the crown of the fret wire; on a multi-scale neck along string 1, then along the last string.",
  kind: "lengths",
  example: "324",
  more: "Start from a mark, not from the end of the rule, and take it off again. Multi-scale: two figures, string 1 (the thinnest) first, e.g. 317.5 330. If you only have a printed scale length, write: scale 648.",
  tool: "steel rule",
  unknown: "a printed scale length, if you gave one; else the answer will be: measure",
};

export const SPREAD: Entry = {
  id: "spread",
  prompt: "How far apart are the two outer strings, at the nut and at the bridge?",
  lay: "Lay the steel rule across the strings at the nut, middle to middle of the outer slots, then across the bridge's saddles (those of the new bridge, if there is to be one), middle to middle of the outer grooves.",
  kind: "lengths",
  example: "36 52.5",
  more: "Two figures, nut first. From one string to the next will do as well, e.g. 7.2 10.5: under 22 mm it is read so.",
  tool: "steel rule",
  unknown: "the usual spacing for the kind of instrument is assumed, with its doubt",
};

/** Between neighbouring strings; common practice, no source. */
const USUAL_PITCH_MM = {
  guitar: { nut: 7.2, bridge: 10.4, limit: 0.5 },
  bass: { nut: 10, bridge: 19, limit: 1 },
} as const;
const USUAL_PITCH_MANY_STRINGS_BASS_MM = 18;
/** Nobody's outer strings stand closer, nobody's neighbours further apart. */
const SPACING_BELOW_MM = 22;
/** Between 7 and 9 on most; common practice, no source. */
const USUAL_SQUARE_FRET = 8;
/** A printed scale length, of a neck nobody has measured. */
const PRINTED_LIMIT_MM = 1;

/** For titles: neither bridge nor drilling. */
export const INSTRUMENT_ONLY = { bridge: false, drilling: false } as const;

const COUNT_WORDS = ["Four", "Five", "Six", "Seven", "Eight", "Nine"];

/** Reads the words, and says which defaults stand in for what was not said. */
export function readWhat(draft: Draft, uses: { readonly bridge: boolean; readonly drilling: boolean }): Described {
  const text = draft.text("what");
  const what = readDescription(text, "what");
  if (text !== undefined) draft.read("what", say`${inWords(what, uses)}.`);
  const { said } = what;
  const defaults = [
    ...(said.has("strings") ? [] : [`${what.strings} strings`]),
    ...(said.has("kind") ? [] : ["a guitar"]),
    ...(said.has("hand") ? [] : ["right-handed"]),
    ...(uses.bridge && !said.has("bridge") ? ["a flat plate"] : []),
    ...(uses.drilling && !said.has("drilling") ? ["drilled with a hand drill"] : []),
    ...(said.has("multiScale") || what.multiScale ? [] : ["one scale length for all strings"]),
  ];
  if (defaults.length > 0) draft.note(say`Not said, so taken as usual: ${defaults.join(", ")}.`);
  return what;
}

export function inWords(what: Described, uses: { readonly bridge: boolean; readonly drilling: boolean }): string {
  const parts = [
    `${COUNT_WORDS[what.strings - 4]}-string ${what.kind}`,
    ...(what.multiScale
      ? [what.squareFret === undefined ? "multi-scale" : `multi-scale with fret ${what.squareFret} square`]
      : []),
    what.leftHanded ? "left-handed" : "right-handed",
    ...(uses.bridge ? [what.bridge] : []),
    ...(uses.drilling ? [what.drilling] : []),
  ];
  return parts.join(", ");
}

export interface Scale {
  /** What goes into instrument.neck. */
  readonly neck: FileNeck;
  /** From the nut to fret 12 on the centre line; undefined if nobody knows. */
  readonly fret12Mm: number | undefined;
  /** Nut to fret 12 along each string, string 1 first; empty if nobody knows. */
  readonly halves: readonly Reading[];
}

/** The scale from nut to fret 12, from a printed scale length, or not at all. */
export function readScale(draft: Draft, what: Described, squareFretMatters = what.bridge !== "single units"): Scale {
  const text = draft.text("nut-12");
  const printed = /^scale\b\s*(.+)$/i.exec(text ?? "")?.[1];
  if (text === undefined || printed !== undefined) {
    const told = printed === undefined ? what.scaleMm : readDescription(printed, "nut-12").scaleMm;
    if (printed !== undefined && told.length === 0)
      throw new InputError("nut-12", `gives no scale length in "${printed}"`, "Write e.g. scale 648");
    if (told.length > 0 && what.multiScale !== new Set(told).size > 1)
      throw scalesDoNotFit(what, printed === undefined ? "what" : "nut-12");
    if (printed !== undefined) draft.read("nut-12", say`Printed scale length ${listMm(told)}.`);
    return printedScale(draft, what, told, squareFretMatters);
  }
  const form = what.multiScale
    ? "two figures for a multi-scale neck, along string 1, then along the last string, e.g. 317.5 330"
    : "one figure, or say multi-scale in the first entry";
  const range = {
    what: "the distance from the nut to fret 12, half the scale",
    minMm: SHORTEST_HALF_MM,
    maxMm: LONGEST_HALF_MM,
  };
  const list = draft.lengths("nut-12", { ...range, counts: [what.multiScale ? 2 : 1], form }) ?? [];
  const [first, last = first] = list;
  if (!first || !last) throw new InputError("nut-12", "gives no figure", "Write it in millimetres");
  draft.read(
    "nut-12",
    say`Nut to fret 12: ${listMm(list.map((one) => one.valueMm))}, so the scale length is ${listMm(list.map((one) => 2 * one.valueMm))} (${first.by}).`,
  );
  const halves = evenly(first, last, what.strings);
  const fret12Mm = (first.valueMm + last.valueMm) / 2;
  if (!what.multiScale) {
    draft.reading("nut-12", "neck.nutToFret12", first.written);
    return { neck: {}, fret12Mm, halves };
  }
  const scaleLength = { string1: writtenScaled(first, { factor: 2 }), lastString: writtenScaled(last, { factor: 2 }) };
  return { neck: { scaleLength, ...squareFret(draft, what, squareFretMatters) }, fret12Mm, halves };
}

const SHORTEST_HALF_MM = 200;
const LONGEST_HALF_MM = 490;

function printedScale(draft: Draft, what: Described, told: readonly number[], squareFretMatters: boolean): Scale {
  const [first, last = first] = told;
  if (first === undefined || last === undefined) {
    draft.note(say`The scale is not known: the answer waits for the reading from nut to fret 12.`);
    return { neck: what.multiScale ? squareFret(draft, what, squareFretMatters) : {}, fret12Mm: undefined, halves: [] };
  }
  const written = (length: number) => `${plainMm(length)} ±${PRINTED_LIMIT_MM} mm (assumed)`;
  draft.note(
    say`Scale length ${listMm(told)} as printed, give or take ${mm(PRINTED_LIMIT_MM, 0)}: nobody has measured it.`,
  );
  const halves = evenly(printedHalf(first), printedHalf(last), what.strings);
  const fret12Mm = (first + last) / 4;
  if (!what.multiScale) return { neck: { scaleLength: written(first) }, fret12Mm, halves };
  return {
    neck: {
      scaleLength: { string1: written(first), lastString: written(last) },
      ...squareFret(draft, what, squareFretMatters),
    },
    fret12Mm,
    halves,
  };
}

function scalesDoNotFit({ multiScale, scaleMm }: Described, entry: string): InputError {
  if (multiScale)
    return new InputError(
      entry,
      "gives one scale length for a multi-scale neck",
      "Give two, of string 1 and of the last string, e.g. scale 635 660",
    );
  return new InputError(
    entry,
    `gives ${Math.max(2, scaleMm.length)} scale lengths for a neck with one`,
    "Give one, or say multi-scale in the first entry",
  );
}

function printedHalf(lengthMm: number): Reading {
  const uMm = rectangularU(PRINTED_LIMIT_MM / 2);
  return {
    valueMm: lengthMm / 2,
    uMm,
    by: "assumed",
    measured: false,
    written: `${plainMm(lengthMm / 2)} ±${PRINTED_LIMIT_MM / 2} mm (assumed)`,
  };
}

/**
 * The square fret says how far the strings' ends stand ahead of one another. A unit marked from fret 12 along its own
 * string does not need it; a plate or a bar does, so there it is not guessed.
 */
function squareFret(draft: Draft, what: Described, matters: boolean): FileNeck {
  if (what.squareFret !== undefined) return { squareFret: what.squareFret };
  if (matters) {
    draft.note(
      say`Which fret stands square is not known, and this bridge stands across all strings: the answer waits for it.`,
    );
    return {};
  }
  draft.note(
    say`The square fret is taken as fret ${USUAL_SQUARE_FRET} (common practice: 7 to 9). That moves only figures counted from the nut, not those from fret 12 along a string.`,
  );
  return { squareFret: USUAL_SQUARE_FRET };
}

export interface Spread {
  readonly neck: FileNeck;
  /** parts.*.pitch */
  readonly pitch: string;
  readonly pitchMm: number;
}

/** Outer strings at the nut and at the bridge; the bridge's figure becomes its pitch. */
export function readSpread(draft: Draft, what: Described): Spread {
  const gaps = what.strings - 1;
  const range = { what: "the distance between two strings", minMm: 4, maxMm: 200 };
  const list = draft.lengths("spread", { ...range, counts: [2], form: "two figures, at the nut and at the bridge" });
  if (!list) return usualSpread(draft, what);
  const [nut, bridge] = list as readonly [Reading, Reading];
  const spacing = nut.valueMm < SPACING_BELOW_MM && bridge.valueMm < SPACING_BELOW_MM;
  const [nutMm, bridgeMm] = spacing ? [nut.valueMm * gaps, bridge.valueMm * gaps] : [nut.valueMm, bridge.valueMm];
  if (bridgeMm < nutMm)
    throw new InputError(
      "spread",
      `has the strings closer at the bridge (${plainMm(bridgeMm)} mm) than at the nut (${plainMm(nutMm)} mm)`,
      "Write the nut first, then the bridge",
    );
  const pitchMm = bridgeMm / gaps;
  if (!spacing && pitchMm < 6)
    throw new InputError(
      "spread",
      `puts ${what.strings} strings ${plainMm(pitchMm)} mm apart`,
      "Give the outer strings' distance at the nut, then at the bridge",
    );
  if (pitchMm > SPACING_BELOW_MM)
    throw new InputError(
      "spread",
      `puts ${what.strings} strings ${plainMm(pitchMm)} mm apart`,
      "Check the number of strings, or the figures",
    );
  draft.read(
    "spread",
    say`Outer strings ${mm(nutMm, 1)} apart at the nut, ${mm(bridgeMm, 1)} at the bridge${spacing ? " (read from string to string)" : ""}: ${mm(pitchMm, 2)} from string to string.`,
  );
  draft.reading("nut-spread", "neck.nutSpread", spacing ? writtenScaled(nut, { factor: gaps }) : nut.written);
  return { neck: {}, pitch: spacing ? bridge.written : writtenScaled(bridge, { factor: 1 / gaps }), pitchMm };
}

function usualSpread(draft: Draft, what: Described): Spread {
  const { nutMm, pitchMm, limitMm } = usualOf(what);
  const nutSpread = draft.assume(nutMm, NUT_SPREAD_LIMIT_MM, "Outer strings at the nut");
  return { neck: { nutSpread }, pitch: draft.assume(pitchMm, limitMm, "From string to string at the bridge"), pitchMm };
}

/** For questions that hardly hang on it: usual figures in the file, and one line about them. */
export function spreadNotAsked(draft: Draft, what: Described): Spread {
  const { nutMm, pitchMm, limitMm } = usualOf(what);
  draft.note(
    say`How wide the strings stand was not asked: ${mm(nutMm, 1)} at the nut and ${mm(pitchMm, 1)} from string to string at the bridge stand in the file as assumed. The answer hardly hangs on them.`,
  );
  return {
    neck: { nutSpread: `${plainMm(nutMm)} ±${NUT_SPREAD_LIMIT_MM} mm (assumed)` },
    pitch: `${plainMm(pitchMm)} ±${limitMm} mm (assumed)`,
    pitchMm,
  };
}

const NUT_SPREAD_LIMIT_MM = 2;

function usualOf(what: Described): { readonly nutMm: number; readonly pitchMm: number; readonly limitMm: number } {
  const usual = USUAL_PITCH_MM[what.kind];
  const pitchMm = what.kind === "bass" && what.strings > 4 ? USUAL_PITCH_MANY_STRINGS_BASS_MM : usual.bridge;
  return { nutMm: Number((usual.nut * (what.strings - 1)).toFixed(1)), pitchMm, limitMm: usual.limit };
}

/** Head of a grown instrument. Places count from the nut: nobody has measured the pocket. */
export function instrumentOf(what: Described, neck: FileNeck, body: FileInstrument["body"] = {}): FileInstrument {
  return {
    kind: what.kind,
    strings: what.strings,
    bassSide: what.leftHanded ? "y > 0" : "y < 0",
    ...(Object.keys(neck).length === 0 ? {} : { neck }),
    body: { ...body, endWallX: 0 },
  };
}

/** A job file names the instrument; some questions do not depend on it. */
export const NOT_ASKED =
  "Kind and number of strings were not asked: a guitar with six strings stands here until somebody says otherwise.";

export const FROM_THE_NUT =
  "Places count from the nut's face (x): the neck pocket has not been measured, so body.endWallX stands at 0. When it is measured, write there how far the end wall is from the nut's face.";

/** From string 1 to the last in even steps. */
function evenly(first: Reading, last: Reading, count: number): Reading[] {
  return Array.from({ length: count }, (_, index) => ({
    ...first,
    valueMm: first.valueMm + ((last.valueMm - first.valueMm) * index) / (count - 1),
  }));
}

function listMm(values: readonly number[]): Phrase {
  return values.flatMap((value, index) => (index === 0 ? [mm(value, 1)] : [" and ", mm(value, 1)]));
}
