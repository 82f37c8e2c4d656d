/**
 * Measuring tools and ways of measuring, with the doubt of one reading.
 *
 * `u` is the standard uncertainty of one reading by a careful person. It contains the tool's own error; the limits
 * that standards set for the tools themselves are in accuracy.ts. Where two values are read from one placing (one
 * laying of the rule, one story stick), a part of the error is common to both: `placingShare` is that part of the
 * variance. A rule is laid against two ends with equal care, so half belongs to the end that is shared; then the
 * difference of two values from one placing is as sure as a reading of that span itself.
 *
 * Left out: wear, temperature of the tool, a bent plate.
 */
import { combineIndependent, rectangularU, ruleLimitMm } from "./accuracy.ts";
import type { DoubtTerm, Kind } from "./value.ts";

export interface Tool {
  readonly name: string;
  readonly aliases: readonly string[];
  /** Kinds it reads. */
  readonly kinds: readonly Kind[];
  /** Standard uncertainty of a reading: base unit of the kind, or a part of the value when `relative`. */
  readonly u: number;
  readonly relative: boolean;
  readonly shape: DoubtTerm["shape"];
  /** 0 to 1: part of the variance that values of one placing have in common. */
  readonly placingShare: number;
  readonly goodFor: string;
  /** Minutes a reading; common practice, no source. */
  readonly minutes: number;
  /** How to lay it, in one sentence. */
  readonly how: string;
  readonly source: {
    readonly text: string;
    readonly mark: "published" | "derived" | "common practice" | "from memory";
  };
}

const PRACTICE = { text: "Common practice, no source", mark: "common practice" } as const;
const LENGTH = { kinds: ["length"], relative: false, shape: "normal" } as const;

/** A tape's hook is one of its ends, so the limit includes the addition for an end face; marks are read to ±0.5 mm. */
const TAPE_U_MM = combineIndependent([
  rectangularU(ruleLimitMm({ accuracyClass: "II", lengthMm: 1000, fromEndFace: true })),
  rectangularU(0.5),
]);

export const TOOLS: readonly Tool[] = [
  {
    ...LENGTH,
    name: "steel rule",
    aliases: ["rule", "ruler", "steel ruler"],
    u: 0.25,
    placingShare: 0.5,
    goodFor: "neck and body lengths over 150 mm",
    minutes: 2,
    how: "Lay the rule on edge so that its marks touch the work, start from a mark and not from the end, and read with one eye straight above",
    source: PRACTICE,
  },
  {
    ...LENGTH,
    name: "calliper",
    aliases: ["callipers", "caliper", "calipers", "vernier", "vernier calliper", "digital calliper", "depth gauge"],
    u: 0.05,
    placingShare: 0,
    goodFor: "parts, holes, depths and thicknesses up to 150 mm",
    minutes: 1,
    how: "Close the jaws and set zero, then close them lightly on the part, turn it a little, and take the reading that comes back",
    source: PRACTICE,
  },
  {
    ...LENGTH,
    name: "feeler",
    aliases: ["feeler gauge", "feelers", "feeler gauges"],
    u: 0.02,
    placingShare: 0,
    goodFor: "relief, nut clearance and heel gaps under 1 mm",
    minutes: 2,
    how: "Push in leaves until one just drags and the next thicker one lifts the string; the first is the gap",
    source: PRACTICE,
  },
  {
    ...LENGTH,
    name: "transfer",
    aliases: ["story stick", "stick"],
    u: 0.15,
    placingShare: 1,
    goodFor: "the scale line and the centre line on the body",
    minutes: 15,
    how: "With the neck bolted and the outer strings tight, mark nut and fret 12 on a straight stick, step the same length on from fret 12, and knife the line on tape on the body",
    source: PRACTICE,
  },
  {
    ...LENGTH,
    name: "plate laid on",
    aliases: ["plate", "part laid on"],
    u: 0.1,
    placingShare: 1,
    goodFor: "where the old holes of a plate stand",
    minutes: 5,
    how: "Lay the plate itself on the old holes, a snug drill shank through two of them, and knife a line along its front edge",
    source: PRACTICE,
  },
  {
    ...LENGTH,
    name: "heel pushed home",
    aliases: ["heel", "pushed home"],
    u: 0.3,
    placingShare: 1,
    goodFor: "taking the heel as standing against the end wall",
    minutes: 5,
    how: "Slacken the neck screws, push the heel against the end wall, tighten, and see that a strip of paper will not go in",
    source: PRACTICE,
  },
  {
    ...LENGTH,
    name: "tape",
    aliases: ["tape measure", "measuring tape"],
    u: TAPE_U_MM,
    placingShare: 0.5,
    goodFor: "a first idea of a length over 300 mm",
    minutes: 1,
    how: "Pull the tape straight, start from the 100 mm mark and not from the hook, and take the 100 off again",
    source: {
      text: "Class II limit at 1 m from the end (UK SI 2016/1153, schedule 1I) and ±0.5 mm of reading, both as limits",
      mark: "derived",
    },
  },
  {
    ...LENGTH,
    name: "straightedge",
    aliases: ["straight edge"],
    u: 0.05,
    placingShare: 0.5,
    goodFor: "the height of the fret plane over the top",
    minutes: 4,
    how: "Stand the straightedge on the frets beside the centre line, hold it down over the body, and read the gap to the top at two places far apart",
    source: PRACTICE,
  },
  {
    name: "trial reading",
    aliases: ["trial", "tuner", "trial cents"],
    kinds: ["cents"],
    u: 0.5,
    relative: false,
    shape: "normal",
    placingShare: 0,
    goodFor: "how sharp a fretted note is with the saddle where it stands",
    minutes: 4,
    how: "Tune the open string, press at the fret as when playing, read both notes late and equally loud, and repeat three times",
    source: PRACTICE,
  },
  {
    name: "radius gauge",
    aliases: ["radius gauges", "radius gage"],
    kinds: ["length"],
    u: 0.02,
    relative: true,
    shape: "normal",
    placingShare: 0,
    goodFor: "the radius of a fingerboard or a row of saddles",
    minutes: 2,
    how: "Hold gauges square across the board against the light, and take the one that shows light neither in the middle nor at the ends",
    source: {
      text: "0.025 mm of light over 50 mm of board at radius 250 mm, from sagitta = width² / (8 radius); the light seen is common practice",
      mark: "derived",
    },
  },
  {
    name: "drill shank",
    aliases: ["shank", "drill bit shank", "drill bit"],
    kinds: ["length"],
    u: rectangularU(0.1),
    relative: false,
    shape: "uniform",
    placingShare: 0,
    goodFor: "the diameter of a small hole",
    minutes: 2,
    how: "Try the smooth ends of drill bits by hand: the hole lies between the thickest that slides in and the next that does not",
    source: { text: "Bits 0.2 mm apart, true size anywhere between; the step is common practice", mark: "derived" },
  },
  {
    name: "meter",
    aliases: ["multimeter", "ohmmeter", "ohm meter"],
    kinds: ["resistance"],
    u: 0.005,
    relative: true,
    shape: "normal",
    placingShare: 0,
    goodFor: "ohms of coils, pots and joints",
    minutes: 2,
    how: "Touch the probes together and note that reading, then hold them on clean metal without your fingers, and take the first reading off",
    source: PRACTICE,
  },
  {
    name: "protractor",
    aliases: ["bevel", "angle gauge"],
    kinds: ["angle"],
    u: 0.5,
    relative: false,
    shape: "normal",
    placingShare: 0,
    goodFor: "the slant of a pickup or a screw's place round a post",
    minutes: 2,
    how: "Lay its edge along the centre line and swing the arm onto the part",
    source: PRACTICE,
  },
  {
    name: "scales",
    aliases: ["kitchen scales", "balance"],
    kinds: ["mass"],
    u: 0.5,
    relative: false,
    shape: "normal",
    placingShare: 0,
    goodFor: "parts up to 2 kg",
    minutes: 1,
    how: "Set zero with the bowl on, lay the part on alone, and read when the figure stands still",
    source: PRACTICE,
  },
];

const BY_NAME = new Map(TOOLS.flatMap((tool) => [tool.name, ...tool.aliases].map((name) => [name, tool] as const)));

/** The tool of that name or alias, small or capital letters alike. */
export function toolNamed(alias: string): Tool | undefined {
  return BY_NAME.get(alias.trim().toLowerCase().replace(/\s+/g, " "));
}

/** Standard uncertainty of one reading of `value`, in the value's unit. */
export function readingU(tool: Tool, value: number): number {
  return tool.relative ? tool.u * Math.abs(value) : tool.u;
}
