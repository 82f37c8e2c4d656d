/** Entries about a bridge: how far its saddles travel, its own holes, the old holes; and the part made of them. */
import { InputError } from "../errors.ts";
import type { JobFile } from "../job/index.ts";
import { mm, type Phrase, say, toolNamed } from "../quantity/index.ts";
import type { Draft } from "./draft.ts";
import { type HoleRow, readHoleRows } from "./hole-rows.ts";
import type { Described } from "./instrument-words.ts";
import { plainMm, type Reading, readLengths, withUnit, writtenScaled } from "./reading.ts";
import type { Scale } from "./scale-entries.ts";
import type { Entry } from "./types.ts";

type Part = Extract<NonNullable<JobFile["parts"]>[string], { kind: "bridge" }>;
type FileSaddles = NonNullable<Part["saddles"]>;
type FileHoles = NonNullable<NonNullable<JobFile["instrument"]["body"]>["holes"]>;

export const TRAVEL: Entry = {
  id: "travel",
  prompt: "How far can the saddles travel: where does the string touch at the front stop, and at the rear stop?",
  lay: "On the bench, with the rule or a calliper: saddle screwed right forward, then right back, each time from the bridge's front edge (the one toward the neck) to where the string touches.",
  kind: "lengths",
  example: "11.5 16",
  more: "Two figures hold for every saddle. If they differ: 1-3: 11.5 16; 4-6: 13 18, or two figures for each string, string 1 (the thinnest) first.",
  tool: "steel rule",
  unknown: "the answer will be: measure",
};

export const BRIDGE_HOLES: Entry = {
  id: "bridge-holes",
  prompt: "Where are the new bridge's own screw holes (or its posts)?",
  lay: "With a calliper or the rule, from the bridge's front edge to the middle of the holes, then from one hole to the next; middles by edge to edge of two holes of one size.",
  kind: "holes",
  example: "34: 5 at 10.5",
  more: "34: 5 at 10.5 means 34 from the front edge, five holes 10.5 apart, the middle one in the bridge's middle. Or places across from the middle, minus to the left: 34: -21 -10.5 0 10.5 21. More rows: a semicolon between. Behind a row, if you know: dia 3 (of the thread, with a calliper), pilot 2.5, deep 24. For single units, the holes of one unit. For two posts: 12: 2 at 74 dia 11.",
  tool: "steel rule",
  unknown: "the place is worked out without them, and nothing is said about old holes",
};

export const OLD_HOLES: Entry = {
  id: "old-holes",
  prompt: "Where are the old holes in the body?",
  lay: "Lay the rule along the centre line with fret 12's middle on a mark, and read at the middle of the holes; then across from the centre line.",
  kind: "holes",
  example: "395.5: 5 at 10",
  more: "395.5: 5 at 10 means 395.5 from fret 12, five holes 10 apart about the centre line. With fret 12 at the rule's 100 mark: 100 495.5: 5 at 10. Places across, minus to the left: 395.5: -20 -10 0 10 20; or running from the first hole: 395.5: 0 10 20 30 40. More rows: a semicolon between. Behind a row: dia 3.2 (the thickest drill shank that goes in), deep 22, through. Write none if there are none.",
  tool: "steel rule",
  unknown: "no old hole is entered, and none is checked",
};

/** Screws of a bridge and the holes they leave. Common practice, no source. */
const USUAL_SCREW = { diameterMm: 3.2, limitMm: 0.4, depthMm: 22, depthLimitMm: 4 } as const;
/** Bushing of a post. Common practice, no source. */
const USUAL_POST = { diameterMm: 11, limitMm: 2, depthMm: 20, depthLimitMm: 4 } as const;
/** Lead hole of a bridge screw as a part of its thread, as sold bridges state it. Common practice, no source. */
const PILOT_SHARE = 0.8;
const FRONT_FROM_FRET12_MM = { min: 100, max: 700 } as const;

/** Foremost and rearmost contact: one pair for all, pairs by groups of strings, or a pair for each. */
export function readTravel(draft: Draft, what: Described): FileSaddles | undefined {
  const text = draft.text("travel");
  if (text === undefined) {
    draft.note(say`How far the saddles travel is not known: the answer waits for it.`);
    return undefined;
  }
  const note = /\([^()]*\)\s*$/.exec(text)?.[0] ?? "";
  const groups = /[:;]/.test(text) ? groupsOf(text, note, draft, what) : pairs(text, draft, what);
  const missing = Array.from({ length: what.strings }, (_, index) => index + 1).filter(
    (string) => !groups.some((group) => group.strings.includes(string)),
  );
  if (missing.length > 0)
    throw new InputError(
      "travel",
      `says nothing of string ${missing.join(", ")}`,
      "Name every string, e.g. 1-3: 11.5 16; 4-6: 13 18",
    );
  if (what.bridge === "single units" && groups.length > 1)
    throw new InputError("travel", "gives different travels for single units", "Give one: units of one kind are alike");
  draft.read("travel", travelWords(groups));
  return groups.map(({ strings, from, to }) => ({ strings: [...strings], from: from.written, to: to.written }));
}

interface Group {
  readonly strings: readonly number[];
  readonly from: Reading;
  readonly to: Reading;
}

/** Groups are parted before they are read: a unit behind the last figure is that of all of them. */
function groupsOf(text: string, note: string, draft: Draft, what: Described): Group[] {
  const groups = text.split(";").map((group) => {
    const match = /^\s*(?:strings?\s*)?(\d)(?:\s*(?:-|to)\s*(\d))?\s*:(.*)$/i.exec(group);
    if (!match)
      throw new InputError(
        "travel",
        `cannot read "${group.trim()}"`,
        "Write the strings, a colon and two figures, e.g. 1-3: 11.5 16; 4-6: 13 18",
      );
    const tool = /\([^()]*\)/.exec(group)?.[0] ?? note;
    const figures = (match[3] ?? "").replace(/\([^()]*\)/g, " ");
    return { first: Number(match[1]), last: Number(match[2] ?? match[1]), figures, tool };
  });
  const inUnit = withUnit(
    groups.map(({ figures }) => figures),
    "travel",
  );
  return groups.map(({ first, last, tool }, index) => {
    if (first < 1 || last > what.strings || last < first)
      throw new InputError(
        "travel",
        `names strings ${first} to ${last} of ${what.strings}`,
        "String 1 is the thinnest",
      );
    return pairOf(
      Array.from({ length: last - first + 1 }, (_, offset) => first + offset),
      travels(`${inUnit[index]} ${tool}`, draft, [2]),
    );
  });
}

function pairs(text: string, draft: Draft, what: Described): Group[] {
  const list = travels(text, draft, [2, 2 * what.strings]);
  if (list.length === 2)
    return [
      pairOf(
        Array.from({ length: what.strings }, (_, index) => index + 1),
        list,
      ),
    ];
  return Array.from({ length: what.strings }, (_, index) => pairOf([index + 1], list.slice(2 * index, 2 * index + 2)));
}

function travels(text: string, draft: Draft, counts: readonly number[]): readonly Reading[] {
  const list = readLengths(text, {
    entry: "travel",
    tool: draft.tool("travel"),
    what: "the distance from a bridge's front edge to the string",
    minMm: -30,
    maxMm: 150,
  });
  if (counts.includes(list.length)) return list;
  throw new InputError(
    "travel",
    `gives ${list.length} ${list.length === 1 ? "figure" : "figures"}`,
    `Give ${counts.join(" or ")}: at the front stop, then at the rear stop, e.g. 11.5 16`,
  );
}

function pairOf(strings: readonly number[], [from, to]: readonly Reading[]): Group {
  if (!from || !to || to.valueMm <= from.valueMm) {
    throw new InputError(
      "travel",
      `has the rear stop (${plainMm(to?.valueMm ?? 0)} mm) no further back than the front stop (${plainMm(from?.valueMm ?? 0)} mm)`,
      "Write the front stop first, both from the bridge's front edge",
    );
  }
  return { strings, from, to };
}

function travelWords(groups: readonly Group[]): Phrase {
  const parts = groups.map(({ strings, from, to }) => {
    const which = strings.length > 1 ? `strings ${strings[0]} to ${strings.at(-1)}` : `string ${strings[0]}`;
    return say`${which}: ${mm(from.valueMm, 1)} to ${mm(to.valueMm, 1)}`;
  });
  return say`Contact behind the front edge, ${parts.flatMap((part, index) => (index === 0 ? part : ["; ", ...part]))}.`;
}

/** The new bridge as a part. Whatever nobody measured is left out, or assumed where an answer needs a figure. */
export function bridgePart(
  draft: Draft,
  what: Described,
  given: { readonly pitch: string; readonly pitchMm: number; readonly saddles: FileSaddles | undefined },
): Part {
  const screws = readBridgeHoles(draft, what);
  const { pitch, pitchMm, saddles } = given;
  return {
    kind: "bridge",
    name: "the new bridge",
    type: what.bridge,
    ...(what.bridge === "single units" ? unitSize(draft, pitchMm) : {}),
    pitch,
    ...(saddles === undefined ? {} : { saddles }),
    ...(screws.length === 0 ? {} : { screws }),
  };
}

/** Needed to see whether neighbours touch; the window along the string does not depend on it. */
function unitSize(draft: Draft, pitchMm: number): { length: string; width: string } {
  const widthMm = Number((pitchMm * 0.9).toFixed(1));
  draft.note(
    say`How long and wide one unit is was not asked: taken as ${mm(40, 0)} by ${mm(widthMm, 1)} to see that neighbours do not touch. It does not move them along the strings.`,
  );
  return { length: "40 ±10 mm (assumed)", width: `${plainMm(widthMm)} ±1 mm (assumed)` };
}

function readBridgeHoles(draft: Draft, what: Described): NonNullable<Part["screws"]> {
  const text = draft.text("bridge-holes");
  if (text === undefined) return [];
  const rows = readHoleRows(text, {
    entry: "bridge-holes",
    tool: draft.tool("bridge-holes"),
    sizeTool: "calliper",
    minAlongMm: -50,
    maxAlongMm: 150,
    from: "from the front edge",
  });
  draft.read("bridge-holes", rowsWords(rows, "behind the front edge"));
  const posts = what.bridge === "two posts";
  if (posts && rows.reduce((sum, row) => sum + row.across.length, 0) !== 2)
    throw new InputError("bridge-holes", "does not give two posts", "Write e.g. 12: 2 at 74 dia 11");
  const usual = posts ? USUAL_POST : USUAL_SCREW;
  const thread = rows.every((row) => row.diameter)
    ? undefined
    : draft.assume(usual.diameterMm, usual.limitMm, posts ? "Bushing of a post" : "Thread of the new screws");
  const depth = rows.every((row) => row.depth)
    ? undefined
    : draft.assume(usual.depthMm, usual.depthLimitMm, "Depth of the new holes");
  return rows.map((row) => {
    const across = row.diameter?.valueMm ?? usual.diameterMm;
    return {
      p: row.along.written,
      q: row.across.map((one) => one.written),
      thread: row.diameter?.written ?? thread,
      pilot:
        row.pilot?.written ??
        (posts
          ? (row.diameter?.written ?? thread)
          : `${plainMm(Number((across * PILOT_SHARE).toFixed(1)))} ±0.2 mm (assumed)`),
      depth: row.depth?.written ?? depth,
    };
  });
}

/** The old holes as found, counted from the nut by way of fret 12. */
export function readOldHoles(draft: Draft, scale: Scale): FileHoles {
  const text = draft.text("old-holes");
  if (text === undefined) {
    draft.note(say`Old holes: none entered, so none is checked.`);
    return {};
  }
  if (/^(?:none|no|no holes?|there are none)$/i.test(text)) {
    draft.read("old-holes", say`No old holes.`);
    return {};
  }
  const { min, max } = FRONT_FROM_FRET12_MM;
  const rows = readHoleRows(text, {
    entry: "old-holes",
    tool: draft.tool("old-holes"),
    sizeTool: "drill shank",
    minAlongMm: min,
    maxAlongMm: max,
    from: "from fret 12",
  });
  draft.read("old-holes", rowsWords(rows, "from fret 12"));
  const diameter = rows.every((row) => row.diameter)
    ? undefined
    : draft.assume(USUAL_SCREW.diameterMm, USUAL_SCREW.limitMm, "Diameter of the old holes");
  const depth = rows.every((row) => row.depth || row.through)
    ? undefined
    : draft.assume(USUAL_SCREW.depthMm, USUAL_SCREW.depthLimitMm, "Depth of the old holes");
  return Object.fromEntries(
    rows.map((row, index) =>
      oldRow(row, rows.length === 1 ? "old-holes" : `old-holes-${index + 1}`, { draft, scale, diameter, depth }),
    ),
  );
}

function oldRow(
  row: HoleRow,
  id: string,
  given: {
    readonly draft: Draft;
    readonly scale: Scale;
    readonly diameter: string | undefined;
    readonly depth: string | undefined;
  },
): [string, FileHoles[string]] {
  const said = `${plainMm(row.along.valueMm)} mm from fret 12`;
  const { fret12Mm } = given.scale;
  // Marked and read from the same fret: the doubt of fret 12's own place does not come between old and new holes.
  if (fret12Mm !== undefined)
    given.draft.reading(id, `body.holes.${id}.x`, writtenScaled(row.along, { shiftMm: fret12Mm }), {
      note: `${said}, which is ${plainMm(fret12Mm)} mm from the nut`,
    });
  return [
    id,
    {
      purpose: row.through ? "string-through" : "screw",
      ...acrossOf(row.across),
      diameter: row.diameter?.written ?? given.diameter,
      depth: row.through ? "through" : (row.depth?.written ?? given.depth),
      ...(fret12Mm === undefined ? { note: said } : {}),
    },
  ];
}

/** Bare figures with the tool said once where one tool read them all. */
function acrossOf(across: readonly Reading[]): Pick<FileHoles[string], "y" | "tool"> {
  const by = across[0]?.by ?? "";
  const usual =
    toolNamed(by) !== undefined &&
    across.every((one) => one.by === by && one.written.endsWith(`mm (${by})`) && !one.written.includes("±"));
  return usual
    ? { y: across.map((one) => Number(plainMm(one.valueMm))), tool: by }
    : { y: across.map((one) => one.written) };
}

function rowsWords(rows: readonly HoleRow[], from: string): Phrase {
  const parts = rows.map((row) => {
    const places = row.across.flatMap((one, index) => [...(index === 0 ? [] : [", "]), mm(one.valueMm, 1)]);
    return say`${row.across.length === 1 ? "1 hole" : `${row.across.length} holes`} ${mm(row.along.valueMm, 1)} ${from}, across at ${places}${row.centred ? " (about the middle)" : ""}${row.diameter ? say`, ${mm(row.diameter.valueMm, 1)} wide` : ""}${row.through ? ", right through" : ""}`;
  });
  return say`${parts.flatMap((part, index) => (index === 0 ? part : ["; ", ...part]))}.`;
}
