/** Beginnings about a pickup: does it drop in, do its poles stand under the strings. */
import { InputError } from "../errors.ts";
import { mm, type Phrase, say } from "../quantity/index.ts";
import type { Draft, Grower } from "./draft.ts";
import { type Reading, writtenScaled } from "./reading.ts";
import {
  FROM_THE_NUT,
  INSTRUMENT_ONLY,
  instrumentOf,
  inWords,
  NOT_ASKED,
  NUT_12,
  readScale,
  readSpread,
  readWhat,
  SPREAD,
  WHAT,
} from "./scale-entries.ts";
import type { Entry } from "./types.ts";

const PICKUP_WHAT: Entry = {
  ...WHAT,
  lay: "No tool: count the strings, and say whether it is a guitar or a bass.",
  example: "6 strings, guitar",
  more: "Any words, in any order: guitar or bass; 4 to 9 strings; multi-scale, and which fret stands square if you know (square fret 8); left-handed; a printed scale length (648 or 25 1/2 in).",
  unknown: "a right-handed guitar with six strings and one scale length",
};

const BODY: Entry = {
  id: "pickup",
  prompt: "How long, wide and deep is the pickup's body?",
  lay: "With a calliper: the body without its ears, the long way, then the short way, then from the top of the cover (or coil) to the lowest point of the body.",
  kind: "lengths",
  example: "69 x 38.2 x 15",
  more: "Two figures will do if you cannot get at the depth. A rule instead of a calliper: write (rule) behind the figures.",
  tool: "calliper",
  unknown: "the answer will be: measure",
};

const EARS: Entry = {
  id: "ears",
  prompt: "And its mounting ears: length from tip to tip, width, and how deep they reach?",
  lay: "With a calliper: tip to tip the long way, the width of one ear, and from the level of the body's top face down to the ear's lowest point, legs and screws included.",
  kind: "lengths",
  example: "84 x 13 x 19.5",
  more: "Two figures will do if the depth is not known. A pickup without ears: write none.",
  tool: "calliper",
  unknown: "only the body is compared; try the ears in by hand",
};

const ROUT: Entry = {
  id: "rout",
  prompt: "How long, wide and deep is the rout it is to go into?",
  lay: "With the calliper's inside jaws, wall to wall the long way and the short way, then with its depth rod from the top of the wood to the floor.",
  kind: "lengths",
  example: "72 x 41 x 19",
  more: "The part of the rout that takes the body, without the pockets for the ears.",
  tool: "calliper",
  unknown: "the answer will be: measure",
};

const EAR_ROUT: Entry = {
  id: "ear-rout",
  prompt: "And the pockets for the ears: length from end to end, width, depth?",
  lay: "With the calliper: wall to wall through both pockets the long way, the width of one pocket, and its depth.",
  kind: "lengths",
  example: "92 x 15 x 24",
  more: "Write none if the rout is a plain rectangle.",
  tool: "calliper",
  unknown: "ears longer than the rout wait for it; the answer will be: measure",
};

const THICKNESS: Entry = {
  id: "thickness",
  prompt: "How thick is the body at that place?",
  lay: "With the calliper at the body's edge, finish included; a hollow or carved body: through the rout and back cavity.",
  kind: "length",
  example: "44.5",
  more: "Only needed if the rout has to go deeper, to see how much wood stays.",
  tool: "calliper",
  unknown: "a deeper rout is not checked for the wood that stays under it",
};

const POLE_SPREAD: Entry = {
  id: "poles",
  prompt: "How far apart are the pickup's two outer poles?",
  lay: "With the calliper or the rule along the row of poles, middle to middle of the outer two.",
  kind: "length",
  example: "50",
  more: "A pickup with a blade has no poles: write none.",
  tool: "calliper",
  unknown: "the answer will be: measure",
};

const POLE_PLACE: Entry = {
  id: "row",
  prompt: "How far is the row of poles from the middle of fret 12?",
  lay: "Lay the steel rule along the centre line, from the middle of fret 12 to the middle of the row of poles (or to where it is to be).",
  kind: "length",
  example: "287",
  more: "Of a pickup with two rows, take the row with the screws or the middle between both.",
  tool: "steel rule",
  unknown: "the answer will be: measure",
};

const SLANT: Entry = {
  id: "slant",
  prompt: "Does the row of poles stand square to the strings, or at a slant?",
  lay: "With a protractor or by eye, between the row and a line square across the strings: degrees, positive where the right-hand end (head up) lies nearer the tail.",
  kind: "words",
  example: "square",
  more: "Write square, or the angle: 10°. On a right-handed instrument the right-hand end is the treble side.",
  tool: "",
  unknown: "square to the strings",
};

const SIZE = { minMm: 2, maxMm: 200 } as const;
const STEEPEST_DEGREES = 45;

export const PICKUP_STARTERS: readonly Grower[] = [
  {
    id: "pickup-drop-in",
    title: "Does this pickup drop in?",
    entries: [BODY, EARS, ROUT, EAR_ROUT, THICKNESS],
    questions: ["pickup.pickup.drop-in"],
    grow(draft) {
      const body = box(draft, "pickup", "Body");
      const ears = box(draft, "ears", "Ears");
      const rout = box(draft, "rout", "Rout");
      const earRout = box(draft, "ear-rout", "Ear pockets");
      const thickness = draft.length("thickness", { what: "the thickness of a body", minMm: 10, maxMm: 120 });
      if (thickness) draft.read("thickness", say`Body ${mm(thickness.valueMm, 1)} thick.`);
      if (body === undefined || rout === undefined)
        draft.note(say`Without both the pickup's body and its rout there is no answer yet.`);
      if (ears === undefined) draft.note(say`Ears: not known, so only the body is compared. Try the ears in by hand.`);
      draft.note(say`Clearance wanted: ${mm(0.5, 1)} at every side and below (common practice).`);
      const [length, width, depth] = texts(rout);
      const [earLength, earWidth, bottom] = texts(ears);
      const [pocketLength, pocketWidth, pocketDepth] = texts(earRout);
      const [bodyLength, bodyWidth, bodyDepth] = texts(body);
      return draft.finish({
        job: { title: "Guitar, new pickup", notes: `Begun with: Does this pickup drop in? ${NOT_ASKED}` },
        instrument: {
          kind: "guitar",
          strings: 6,
          body: {
            ...(thickness ? { thickness: thickness.written } : {}),
            cavities: {
              pickup: {
                ...given({ length, width, depth }),
                ...(pocketLength === undefined
                  ? {}
                  : { ears: given({ length: pocketLength, width: pocketWidth, depth: pocketDepth }) }),
              },
            },
          },
        },
        parts: {
          "new-pickup": {
            kind: "pickup",
            name: "new pickup",
            ...given({ length: bodyLength, width: bodyWidth, depth: bodyDepth }),
            ...(earLength === undefined ? {} : { ears: given({ length: earLength, width: earWidth, bottom }) }),
          },
        },
        fit: { pickups: { pickup: { part: "new-pickup", cavity: "pickup" } } },
      });
    },
  },
  {
    id: "poles",
    title: "Do the pickup's poles stand under the strings?",
    entries: [PICKUP_WHAT, NUT_12, SPREAD, POLE_SPREAD, POLE_PLACE, SLANT],
    questions: ["pickup.pickup.poles"],
    grow(draft) {
      const uses = INSTRUMENT_ONLY;
      const what = readWhat(draft, uses);
      const scale = readScale(draft, what, false);
      const spread = readSpread(draft, what);
      const poles = readPoles(draft);
      const row = draft.length("row", { what: "the distance from fret 12 to a row of poles", minMm: 20, maxMm: 480 });
      if (row) draft.read("row", say`Row of poles ${mm(row.valueMm, 1)} from fret 12.`);
      if (row && scale.fret12Mm === undefined)
        draft.note(say`The row's place is counted from fret 12 and waits for the reading from nut to fret 12.`);
      const slant = readSlant(draft);
      if (poles !== "none")
        draft.note(
          say`A pole is taken to be ${mm(4.8, 1)} across, give or take ${mm(0.6, 1)} (common practice), and the pickup to stand on the centre line.`,
        );
      const x = row && scale.fret12Mm !== undefined ? { x: writtenScaled(row, { shiftMm: scale.fret12Mm }) } : {};
      return draft.finish({
        job: {
          title: inWords(what, uses),
          notes: `Begun with: Do the pickup's poles stand under the strings? ${FROM_THE_NUT} The bridge stands here for the spacing of its strings only.`,
        },
        instrument: instrumentOf(what, { ...scale.neck, ...spread.neck }),
        parts: {
          bridge: { kind: "bridge", name: "the bridge", type: what.bridge, pitch: spread.pitch },
          "new-pickup": {
            kind: "pickup",
            name: "new pickup",
            ...(poles === "none"
              ? { poles }
              : { poles: "one a string", ...(poles === undefined ? {} : { poleSpread: poles.written }) }),
          },
        },
        fit: {
          bridge: { part: "bridge" },
          pickups: { pickup: { part: "new-pickup", ...x, ...(slant === undefined ? {} : { slant }) } },
        },
      });
    },
  },
];

type Box = readonly Reading[] | "none" | undefined;

/** Length, width and perhaps depth. */
function box(draft: Draft, entry: string, name: string): Box {
  if (isNone(draft.text(entry))) {
    if (entry === "pickup" || entry === "rout")
      throw new InputError(entry, "cannot be none", "Give its length and width, or leave it empty");
    draft.read(entry, say`${name}: none.`);
    return "none";
  }
  const list = draft.lengths(entry, {
    ...SIZE,
    what: `a size of the ${name.toLowerCase()}`,
    counts: [2, 3],
    form: "length, width and, if you have it, depth",
  });
  if (!list) return undefined;
  draft.read(
    entry,
    say`${name} ${list.flatMap((one, index): Phrase => (index === 0 ? [mm(one.valueMm, 1)] : [" × ", mm(one.valueMm, 1)]))}${list.length === 2 ? ", depth not known" : ""} (${list[0]?.by ?? ""}).`,
  );
  return list;
}

function isNone(text: string | undefined): boolean {
  return text !== undefined && /^(?:none|no|no ears|without)$/i.test(text);
}

function texts(found: Box): readonly (string | undefined)[] {
  return found === undefined || found === "none" ? [] : found.map((one) => one.written);
}

/** Keys that have a value. */
function given<Key extends string>(values: Readonly<Record<Key, string | undefined>>): { [K in Key]?: string } {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as {
    [K in Key]?: string;
  };
}

function readPoles(draft: Draft): Reading | "none" | undefined {
  if (isNone(draft.text("poles")) || /^blades?$/i.test(draft.text("poles") ?? "")) {
    draft.read("poles", say`No poles.`);
    return "none";
  }
  const reading = draft.length("poles", {
    what: "the distance from one outer pole to the other",
    minMm: 15,
    maxMm: 130,
  });
  if (reading) draft.read("poles", say`Outer poles ${mm(reading.valueMm, 1)} apart.`);
  return reading;
}

function readSlant(draft: Draft): string | undefined {
  const text = draft.text("slant");
  if (text === undefined) {
    draft.note(say`The row of poles is taken to stand square to the strings.`);
    return undefined;
  }
  if (/^(?:square|straight|none|no)$/i.test(text)) {
    draft.read("slant", say`Square to the strings.`);
    return undefined;
  }
  const degrees = Number(/^([+-]?\d{1,2}(?:\.\d+)?) ?(?:°|deg(?:rees?)?)?$/i.exec(text)?.[1]);
  if (!(Math.abs(degrees) <= STEEPEST_DEGREES))
    throw new InputError(
      "slant",
      `cannot be "${text.slice(0, 40)}"`,
      `Write square, or an angle up to ${STEEPEST_DEGREES} degrees, e.g. 10`,
    );
  draft.read("slant", say`Slanted by ${String(degrees)}°.`);
  return `${degrees}°`;
}
