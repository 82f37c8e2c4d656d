/** Beginnings about a part in its hole: a pot, a jack. */
import { InputError } from "../errors.ts";
import type { JobFile } from "../job/index.ts";
import { mm, say } from "../quantity/index.ts";
import type { Draft, Grower } from "./draft.ts";
import { type Reading, readLengths } from "./reading.ts";
import { NOT_ASKED } from "./scale-entries.ts";
import type { Entry } from "./types.ts";

type Part = NonNullable<JobFile["parts"]>[string];
type Pot = Extract<Part, { kind: "pot" }>;
type Knob = Extract<Part, { kind: "knob" }>;

const threadEntry = (part: string): Entry => ({
  id: "thread",
  prompt: `How long is the ${part}'s thread, and how thick?`,
  lay: "With a calliper on the part: from the flat that meets the wood to the end of the thread, then across the thread.",
  kind: "lengths",
  example: "9.5 x 9.5",
  more: "Length first, then diameter. Inches will do: 3/8 3/8 in.",
  tool: "calliper",
  unknown: "the answer will be: measure",
});

const woodEntry: Entry = {
  id: "wood",
  prompt: "How thick is the wood at the hole?",
  lay: "With the calliper's depth rod through the hole from the front, against a flat piece held to the inside.",
  kind: "length",
  example: "7",
  more: "Where the hole is, not at the body's edge: tops are often thinned from inside just there.",
  tool: "calliper",
  unknown: "whether the thread reaches through will be: measure",
};

const holeEntry: Entry = {
  id: "hole",
  prompt: "How wide is the hole that is there?",
  lay: "With the calliper's inside jaws, two ways across; take the smaller figure.",
  kind: "length",
  example: "8",
  more: "The largest drill shank that goes in without force will do: write (drill shank) behind the figure.",
  tool: "calliper",
  unknown: "whether it goes through the hole will be: measure",
};

const depthEntry = (part: string): Entry => ({
  id: "depth",
  prompt: `How far does the ${part} reach into the cavity?`,
  lay: "With a calliper on the part: from the flat that meets the wood to its lowest point, lugs left out.",
  kind: "length",
  example: "12.5",
  more: "2 mm are added for lugs and wires bent over (common practice).",
  tool: "calliper",
  unknown: "whether there is room below will be: measure",
});

const roomEntry: Entry = {
  id: "room",
  prompt: "How deep is the cavity at that place?",
  lay: "With the calliper's depth rod from the inner face of the top to the level of the cover's inside: lay a straight edge over the cover's ledge and take the cover's thickness off if it sinks in.",
  kind: "length",
  example: "33",
  more: "The free depth for the part, with the cover on.",
  tool: "calliper",
  unknown: "whether there is room below will be: measure",
};

const KNOB: Entry = {
  id: "knob",
  prompt: "And the shaft and its knob: how thick is the shaft, solid or split, and how wide is the knob's hole?",
  lay: "With the calliper across the shaft and with its inside jaws in the knob.",
  kind: "words",
  example: "shaft 6 solid, knob 6.35 set screw",
  more: "Split shafts have marks all round: shaft 6 split 18, knob 6 push-on 18. Leave out what you do not know.",
  tool: "calliper",
  unknown: "the knob is not looked at",
};

const SMALL = { minMm: 1, maxMm: 80 } as const;

export const CONTROL_STARTERS: readonly Grower[] = [
  {
    id: "pot",
    title: "Does this pot fit?",
    entries: [threadEntry("pot"), woodEntry, holeEntry, depthEntry("pot"), roomEntry, KNOB],
    questions: ["control.pot.bushing", "control.pot.hole", "control.pot.depth", "control.pot.knob"],
    grow(draft) {
      const { shaft, knob } = readKnob(draft);
      const part: Pot = {
        kind: "pot",
        name: "new pot",
        ...bushed(draft),
        ...(shaft === undefined ? {} : { shafts: [shaft] }),
      };
      const place = readPlace(draft);
      return draft.finish({
        job: { title: "Guitar, new pot", notes: `Begun with: Does this pot fit? ${NOT_ASKED}` },
        instrument: { kind: "guitar", strings: 6, controls: { pot: place } },
        parts: { "new-pot": part, ...(knob === undefined ? {} : { "new-knob": knob }) },
        fit: { controls: { pot: { part: "new-pot", ...(knob === undefined ? {} : { knob: "new-knob" }) } } },
      });
    },
  },
  {
    id: "jack",
    title: "Does this jack fit?",
    entries: [threadEntry("jack"), woodEntry, holeEntry, depthEntry("jack"), roomEntry],
    questions: ["control.jack.hole", "control.jack.bushing", "control.jack.depth"],
    grow(draft) {
      const part = { kind: "jack" as const, name: "new jack", ...bushed(draft) };
      const place = readPlace(draft);
      draft.note(
        say`The jack is taken to sit in wood. In a plate of its own, measure the plate where the wood is asked for.`,
      );
      return draft.finish({
        job: { title: "Guitar, new jack", notes: `Begun with: Does this jack fit? ${NOT_ASKED}` },
        instrument: { kind: "guitar", strings: 6, controls: { jack: place } },
        parts: { "new-jack": part },
        fit: { controls: { jack: { part: "new-jack" } } },
      });
    },
  },
];

/** Thread and depth of a part that stands in a round hole. */
function bushed(draft: Draft): { threadLength?: string; threadDiameter?: string; depth?: string } {
  const thread = draft.lengths("thread", {
    what: "a size of a thread",
    minMm: 2,
    maxMm: 60,
    counts: [2],
    form: "length, then diameter",
  });
  const [length, diameter] = thread ?? [];
  if (length && diameter)
    draft.read("thread", say`Thread ${mm(length.valueMm, 2)} long, ${mm(diameter.valueMm, 2)} across.`);
  const depth = one(
    draft,
    "depth",
    "the reach of a part",
    SMALL,
    (value) => say`Reaches ${mm(value, 1)} into the cavity.`,
  );
  draft.note(
    say`Nut, washers, lock washer and foil together: ${mm(4.2, 1)} (from memory; measure your own). Hole wanted: thread and ${mm(0.1, 1)}.`,
  );
  return {
    ...(length ? { threadLength: length.written } : {}),
    ...(diameter ? { threadDiameter: diameter.written } : {}),
    ...(depth ? { depth: depth.written } : {}),
  };
}

function readPlace(draft: Draft): { wood?: string; hole?: string; freeDepth?: string } {
  const wood = one(
    draft,
    "wood",
    "the thickness of a top",
    { minMm: 0.3, maxMm: 60 },
    (value) => say`Wood ${mm(value, 1)} thick.`,
  );
  const hole = one(
    draft,
    "hole",
    "a hole's diameter",
    { minMm: 2, maxMm: 40 },
    (value) => say`Hole ${mm(value, 1)} wide.`,
  );
  const room = one(
    draft,
    "room",
    "the depth of a cavity",
    { minMm: 3, maxMm: 100 },
    (value) => say`Free depth ${mm(value, 1)}.`,
  );
  return {
    ...(wood ? { wood: wood.written } : {}),
    ...(hole ? { hole: hole.written } : {}),
    ...(room ? { freeDepth: room.written } : {}),
  };
}

function one(
  draft: Draft,
  entry: string,
  what: string,
  range: { readonly minMm: number; readonly maxMm: number },
  words: (value: number) => ReturnType<typeof say>,
): Reading | undefined {
  const reading = draft.length(entry, { what, ...range });
  if (reading) draft.read(entry, words(reading.valueMm));
  return reading;
}

type Shaft = NonNullable<Pot["shafts"]>[number];

/** `shaft 6 split 18, knob 6 push-on 18`: what stands before the word knob is the shaft's. */
function readKnob(draft: Draft): { readonly shaft?: Shaft; readonly knob?: Knob } {
  const text = draft.text("knob");
  if (text === undefined) return {};
  const note = /\([^()]*\)\s*$/.exec(text)?.[0] ?? "";
  const [ofShaft = "", ofKnob] = text.slice(0, text.length - note.length).split(/\bknobs?\b/i);
  if (ofKnob === undefined)
    throw new InputError("knob", "does not say the knob's hole", "Write e.g. shaft 6 solid, knob 6.35 set screw");
  const shaft = halfOf(ofShaft, note, draft);
  const knob = halfOf(ofKnob, note, draft);
  const fixing = /push/i.test(ofKnob) ? "push-on" : /set ?screw|grub/i.test(ofKnob) ? "set screw" : undefined;
  const kind = /split/i.test(ofShaft) ? "split" : /solid/i.test(ofShaft) ? "solid" : undefined;
  draft.read(
    "knob",
    say`Shaft ${mm(shaft.size.valueMm, 2)}${kind === undefined ? "" : `, ${kind}`}; knob ${mm(knob.size.valueMm, 2)}${fixing === undefined ? "" : `, ${fixing}`}.`,
  );
  return {
    shaft: {
      diameter: shaft.size.written,
      ...(kind === undefined ? {} : { kind }),
      ...(shaft.splines === undefined ? {} : { splines: shaft.splines }),
    },
    knob: {
      kind: "knob",
      name: "new knob",
      bores: [knob.size.written],
      ...(fixing === undefined ? {} : { fixing }),
      ...(knob.splines === undefined ? {} : { splines: [knob.splines] }),
    },
  };
}

const KNOB_WORDS =
  /\b(?:shaft|split|solid|set ?screw|grub ?screw|push(?:-?on)?|splines?|marks?|teeth|bore|hole|with|and|is|fine|coarse|round|dia)\b|[,;:]/gi;

const SPLINES = /\b(?:split|push-?on|splines?|marks?)\s+(\d{1,2})(?![\d.])|\b(\d{1,2})\s*(?:splines?|marks?|teeth)\b/i;

function halfOf(text: string, note: string, draft: Draft): { readonly size: Reading; readonly splines?: number } {
  const splines = SPLINES.exec(text);
  const rest = text.replace(SPLINES, " ").replace(KNOB_WORDS, " ");
  const [size, extra] = readLengths(`${rest} ${note}`, {
    entry: "knob",
    tool: draft.tool("knob"),
    what: "the diameter of a shaft",
    minMm: 2,
    maxMm: 20,
  });
  if (!size || extra)
    throw new InputError(
      "knob",
      "gives more than one diameter for one of them",
      "Write e.g. shaft 6 split 18, knob 6 push-on 18",
    );
  return { size, ...(splines ? { splines: Number(splines[1] ?? splines[2]) } : {}) };
}
