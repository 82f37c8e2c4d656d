/** Beginnings about a part in its hole: a pot, a jack, a lever switch. */
import { InputError } from "../errors.ts";
import type { JobFile } from "../job/index.ts";
import { mm, say } from "../quantity/index.ts";
import type { Grower } from "./bridge-starters.ts";
import type { Draft } from "./draft.ts";
import { type Reading, readLengths, writtenScaled } from "./reading.ts";
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

const OLD_SLOT: Entry = {
  id: "old-slot",
  prompt: "How long is the slot that is there, and how far apart are its two screw holes?",
  lay: "With the calliper's inside jaws end to end of the slot, then middle to middle of the screw holes.",
  kind: "lengths",
  example: "26 41.3",
  more: "Two figures: slot, then screws.",
  tool: "calliper",
  unknown: "whether the slot suits will be: measure",
};

const NEW_SLOT: Entry = {
  id: "new-slot",
  prompt: "What does the new switch want: slot length, and distance of its screws?",
  lay: "From its sheet, or with a calliper on the switch: travel of the lever at the level of the wood, and middle to middle of its screw holes.",
  kind: "lengths",
  example: "30.5 46",
  more: "Two figures: slot, then screws. From a sheet: write (data sheet) behind them.",
  tool: "calliper",
  unknown: "whether the slot suits will be: measure",
};

const SCREW_HOLES: Entry = {
  id: "screw-holes",
  prompt: "How wide are the screw holes, the old ones and the new ones?",
  lay: "With the largest drill shank that goes in without force, or a calliper on the screw.",
  kind: "lengths",
  example: "3.2 3.2",
  more: "Two figures, old then new; one figure if they are alike.",
  tool: "drill shank",
  unknown: "3.2 mm for both is assumed, with its doubt",
};

const SWITCH_SIZE: Entry = {
  id: "size",
  prompt: "How far does the switch reach below the wood, and how wide is it?",
  lay: "With the calliper on the switch: from its mounting face to its lowest point, lugs left out, then across its body.",
  kind: "lengths",
  example: "27.5 21",
  more: "Two figures: depth, then width. 2 mm are added for lugs and wires (common practice).",
  tool: "calliper",
  unknown: "room below and at the sides will be: measure",
};

const SWITCH_ROOM: Entry = {
  id: "room",
  prompt: "How deep and how wide is the cavity there?",
  lay: "With the calliper: from the inner face of the top to the inside of the cover, then wall to wall across the switch.",
  kind: "lengths",
  example: "33 24",
  more: "Two figures: free depth, then free width.",
  tool: "calliper",
  unknown: "room below and at the sides will be: measure",
};

const SMALL = { minMm: 1, maxMm: 80 } as const;
/** Screws of lever switches are M3 or near it. Common practice, no source. */
const USUAL_SCREW_HOLE_MM = 3.2;

export const CONTROL_STARTERS: readonly Grower[] = [
  {
    id: "pot",
    title: "Does this pot fit?",
    entries: [threadEntry("pot"), woodEntry, holeEntry, depthEntry("pot"), roomEntry, KNOB],
    questions: ["control.pot.bushing", "control.pot.hole", "control.pot.depth", "control.pot.knob"],
    grow(draft) {
      const { shaft, knob } = readKnob(draft);
      const part: Pot = { kind: "pot", name: "new pot", ...bushed(draft), ...(shaft === undefined ? {} : { shafts: [shaft] }) };
      const place = readPlace(draft);
      return draft.finish({
        job: { title: "Does this pot fit?" },
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
      draft.note(say`The jack is taken to sit in wood. In a plate of its own, measure the plate where the wood is asked for.`);
      return draft.finish({
        job: { title: "Does this jack fit?" },
        instrument: { kind: "guitar", strings: 6, controls: { jack: place } },
        parts: { "new-jack": part },
        fit: { controls: { jack: { part: "new-jack" } } },
      });
    },
  },
  {
    id: "switch",
    title: "Does this lever switch fit? (A round toggle: take the pot's beginning)",
    entries: [OLD_SLOT, NEW_SLOT, SCREW_HOLES, SWITCH_SIZE, SWITCH_ROOM],
    questions: ["lever.slot", "lever.depth", "lever.width"],
    grow: growSwitch,
  },
];

/** Thread and depth of a part that stands in a round hole. */
function bushed(draft: Draft): { threadLength?: string; threadDiameter?: string; depth?: string } {
  const thread = draft.lengths("thread", { what: "a size of a thread", minMm: 2, maxMm: 60, counts: [2], form: "length, then diameter" });
  const [length, diameter] = thread ?? [];
  if (length && diameter) draft.read("thread", say`Thread ${mm(length.valueMm, 2)} long, ${mm(diameter.valueMm, 2)} across.`);
  const depth = one(draft, "depth", "how far it reaches", SMALL, (value) => say`Reaches ${mm(value, 1)} into the cavity.`);
  draft.note(say`Nut, washers, lock washer and foil together: ${mm(4.2, 1)} (from memory; measure your own). Hole wanted: thread and ${mm(0.1, 1)}.`);
  return {
    ...(length ? { threadLength: length.written } : {}),
    ...(diameter ? { threadDiameter: diameter.written } : {}),
    ...(depth ? { depth: depth.written } : {}),
  };
}

function readPlace(draft: Draft): { wood?: string; hole?: string; freeDepth?: string } {
  const wood = one(draft, "wood", "the thickness of a top", { minMm: 0.3, maxMm: 60 }, (value) => say`Wood ${mm(value, 1)} thick.`);
  const hole = one(draft, "hole", "a hole's diameter", { minMm: 2, maxMm: 40 }, (value) => say`Hole ${mm(value, 1)} wide.`);
  const room = one(draft, "room", "the depth of a cavity", { minMm: 3, maxMm: 100 }, (value) => say`Free depth ${mm(value, 1)}.`);
  draft.note(say`Figures without a tool are taken as read with a calliper. If it was a rule, write (rule) behind them.`);
  return {
    ...(wood ? { wood: wood.written } : {}),
    ...(hole ? { hole: hole.written } : {}),
    ...(room ? { freeDepth: room.written } : {}),
  };
}

function one(draft: Draft, entry: string, what: string, range: { readonly minMm: number; readonly maxMm: number }, words: (value: number) => ReturnType<typeof say>): Reading | undefined {
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
  if (ofKnob === undefined) throw new InputError("knob", "does not say the knob's hole", "Write e.g. shaft 6 solid, knob 6.35 set screw");
  const shaft = halfOf(ofShaft, note, draft);
  const knob = halfOf(ofKnob, note, draft);
  const fixing = /push/i.test(ofKnob) ? "push-on" : /set ?screw|grub/i.test(ofKnob) ? "set screw" : undefined;
  const kind = /split/i.test(ofShaft) ? "split" : /solid/i.test(ofShaft) ? "solid" : undefined;
  draft.read("knob", say`Shaft ${mm(shaft.size.valueMm, 2)}${kind === undefined ? "" : `, ${kind}`}; knob ${mm(knob.size.valueMm, 2)}${fixing === undefined ? "" : `, ${fixing}`}.`);
  return {
    shaft: { diameter: shaft.size.written, ...(kind === undefined ? {} : { kind }), ...(shaft.splines === undefined ? {} : { splines: shaft.splines }) },
    knob: { kind: "knob", name: "new knob", bores: [knob.size.written], ...(fixing === undefined ? {} : { fixing }), ...(knob.splines === undefined ? {} : { splines: [knob.splines] }) },
  };
}

const KNOB_WORDS = /\b(?:shaft|split|solid|set ?screw|grub ?screw|push(?:-?on)?|splines?|marks?|teeth|bore|hole|with|and|is|fine|coarse|round|dia)\b|[,;:]/gi;

const SPLINES = /\b(?:split|push-?on|splines?|marks?)\s+(\d{1,2})(?![\d.])|\b(\d{1,2})\s*(?:splines?|marks?|teeth)\b/i;

function halfOf(text: string, note: string, draft: Draft): { readonly size: Reading; readonly splines?: number } {
  const splines = SPLINES.exec(text);
  const rest = text.replace(SPLINES, " ").replace(KNOB_WORDS, " ");
  const [size, extra] = readLengths(`${rest} ${note}`, { entry: "knob", tool: draft.tool("knob"), what: "the diameter of a shaft", minMm: 2, maxMm: 20 });
  if (!size || extra) throw new InputError("knob", "gives more than one diameter for one of them", "Write e.g. shaft 6 split 18, knob 6 push-on 18");
  return { size, ...(splines ? { splines: Number(splines[1] ?? splines[2]) } : {}) };
}

function growSwitch(draft: Draft): ReturnType<Grower["grow"]> {
  const range = { what: "a size of a slot", minMm: 5, maxMm: 120 };
  const old = draft.lengths("old-slot", { ...range, counts: [2], form: "slot, then screw to screw" });
  const wanted = draft.lengths("new-slot", { ...range, counts: [2], form: "slot, then screw to screw" });
  const size = draft.lengths("size", { ...SMALL, what: "a size of a switch", counts: [2], form: "depth, then width" });
  const room = draft.lengths("room", { what: "a size of a cavity", minMm: 5, maxMm: 150, counts: [2], form: "free depth, then free width" });
  const slotWords = (list: readonly Reading[]) => say`Slot ${mm(list[0]?.valueMm ?? 0, 1)} long, screws ${mm(list[1]?.valueMm ?? 0, 1)} apart.`;
  if (old) draft.read("old-slot", slotWords(old));
  if (wanted) draft.read("new-slot", slotWords(wanted));
  if (size) draft.read("size", say`Reaches ${mm(size[0]?.valueMm ?? 0, 1)} below, ${mm(size[1]?.valueMm ?? 0, 1)} wide.`);
  if (room) draft.read("room", say`Cavity ${mm(room[0]?.valueMm ?? 0, 1)} deep, ${mm(room[1]?.valueMm ?? 0, 1)} wide there.`);
  const holes = readScrewHoles(draft);
  draft.note(say`Figures without a tool are taken as read with a calliper. If it was a rule, write (rule) behind them.`);
  return draft.finish({
    job: { title: "Does this lever switch fit?" },
    instrument: {
      kind: "guitar",
      strings: 6,
      controls: {
        lever: {
          ...(old ? slotOf(old) : {}),
          screwHole: holes.old,
          ...(room ? { freeDepth: room[0]?.written, freeWidth: room[1]?.written } : {}),
        },
      },
    },
    parts: {
      "new-switch": {
        kind: "lever",
        name: "new lever switch",
        ...(wanted ? slotOf(wanted) : {}),
        screwHole: holes.new,
        ...(size ? { depth: size[0]?.written, width: size[1]?.written } : {}),
      },
    },
    fit: { controls: { lever: { part: "new-switch" } } },
  });
}

/** A job counts screws from the slot's middle. */
function slotOf(list: readonly Reading[]): { slot?: string; screws?: string } {
  const [slot, apart] = list;
  return { ...(slot ? { slot: slot.written } : {}), ...(apart ? { screws: writtenScaled(apart, { factor: 0.5 }) } : {}) };
}

function readScrewHoles(draft: Draft): { readonly old: string; readonly new: string } {
  const list = draft.lengths("screw-holes", { what: "a screw hole", minMm: 1, maxMm: 8, counts: [1, 2], form: "the old one, then the new one" });
  const [old, fresh = old] = list ?? [];
  if (!old || !fresh) {
    const usual = draft.assume(USUAL_SCREW_HOLE_MM, 0.4, "Screw holes of the switch, old and new");
    return { old: usual, new: usual };
  }
  draft.read("screw-holes", say`Screw holes ${mm(old.valueMm, 1)} and ${mm(fresh.valueMm, 1)}.`);
  return { old: old.written, new: fresh.written };
}
