/** A beginning about two pickups that are thin together: phase first, then what sums can say of level and peak. */
import { figure, say } from "../quantity/index.ts";
import type { Draft, Grower } from "./draft.ts";
import { A_COIL, type OhmsFigure, plainOhms, readTwoOhms, writtenAt20, writtenOhms } from "./ohm-words.ts";
import { NOT_ASKED } from "./scale-entries.ts";
import {
  readCompass,
  readControls,
  readJoined,
  readKicks,
  readMetal,
  type ThinControls,
  type Two,
} from "./thin-entries.ts";
import type { Entry } from "./types.ts";
import { createHarness, type Ends, type Harness } from "./wiring-harness.ts";

const KICKS: Entry = {
  id: "kicks",
  prompt: "Which way does the meter kick for each pickup, the first and then the second?",
  lay: "With each pickup by itself, one lead off: meter on direct millivolts, red on the lead toward the tip, black on the one toward ground, steel lowered quickly to the poles.",
  kind: "words",
  example: "up down",
  more: "Only the first movement counts; lifting the steel kicks the other way. A meter without millivolts: range 20 kΩ, and see whether the ohms jump up or down. One of them not known: up ?.",
  tool: "",
  unknown: "phase stays open: ohms cannot show it, and the answer will be: measure",
};

const COMPASS: Entry = {
  id: "compass",
  prompt: "Which end of a compass needle do the poles of each draw?",
  lay: "With the compass held over the poles of the first pickup and then of the second, strings slack or off.",
  kind: "words",
  example: "draws north, draws south",
  more: "The drawn end names the opposite pole. If you know the pole itself: north up, south up.",
  tool: "",
  unknown: "whether the two are quiet together stays open; phase does not hang on it",
};

const OHMS: Entry = {
  id: "ohms",
  prompt: "How many ohms has each?",
  lay: "From their sheets, or with the meter across each pickup's two leads, one of them off.",
  kind: "words",
  example: "6.2 k, 6.5 k",
  more: "One of them not known: 6.2 k, ?. Read by yourself: write (meter) behind the last.",
  tool: "",
  unknown: "usual coils are taken, of 7 kΩ, and the peaks are rough",
};

const METAL: Entry = {
  id: "metal",
  prompt: "Is a base plate or a cover joined to one end of a coil?",
  lay: "With the meter from the metal to either lead of its pickup: next to nothing means that it is joined to that one.",
  kind: "words",
  example: "base plate of second",
  more: "none; cover of first; base plate of both; on hot behind it, if it is joined to the lead toward the tip.",
  tool: "",
  unknown: "no metal is taken as joined: look before you swap any leads",
};

const JOINED: Entry = {
  id: "joined",
  prompt: "How are the two joined: in parallel or in series?",
  lay: "By eye at the switch: two wires toward the tip and two toward ground are parallel, one after the other is series.",
  kind: "words",
  example: "parallel",
  more: "In series the first is the one on the side of the tip. The ohms at the jack tell: less than either, or both together.",
  tool: "",
  unknown: "parallel is taken, as most are",
};

const CONTROLS: Entry = {
  id: "controls",
  prompt: "Which pots and capacitors lie on that sound, and where do the knobs stand?",
  lay: "From the print on pots and capacitors.",
  kind: "words",
  example: "volume 250 k, tone 250 k 22 n",
  more: "At full unless you say so: volume 250 k at 8. A capacitor straight across the output: capacitor 470 p. None at all: none.",
  tool: "",
  unknown: "one volume pot is taken, of about 250 kΩ, at full",
};

const STATE = "pair";
const NAMES = ["first", "second"] as const;

export const THIN_STARTER: Grower = {
  id: "thin",
  title: "Why is this sound of two pickups thin?",
  entries: [KICKS, COMPASS, OHMS, METAL, JOINED, CONTROLS],
  questions: [`wiring.state.${STATE}`, `wiring.thin.${STATE}`, "wiring.ground"],
  grow: growThin,
};

function growThin(draft: Draft): ReturnType<Grower["grow"]> {
  const text = draft.text("controls");
  const controls = text === undefined ? undefined : readControls(text);
  const hasVolume = controls === undefined || controls.volume !== undefined;
  const harness = createHarness(hasVolume ? "volume.case" : controls.tone ? "tone.case" : "jack.sleeve");
  addPickups(draft, harness);
  addMetal(draft, harness);
  const joined = joinedOf(draft);
  const ends = joinPair(harness, joined);
  addControls(draft, harness, ends, controls);
  draft.note(
    say`Two coils stand in the file, one a pickup. A pickup with two coils counts as one coil here, as long as both of its own are in phase.`,
  );
  draft.note(
    say`Inductances are usual ones for these ohms; cable ${figure(500, "pF", 0)}, amplifier ${figure(1, "MΩ", 0)}; a wire from ground to the strings is taken as there.`,
  );
  const knobs = knobsOf(controls);
  return draft.finish({
    job: {
      title: "Guitar, two pickups thin together",
      notes: `Begun with: Why is this sound of two pickups thin? ${NOT_ASKED}`,
    },
    instrument: { kind: "guitar", strings: 6 },
    ...harness.sections({
      [STATE]: {
        title: "the pair",
        complaint: "thin",
        sound: `first ${joined} second`,
        ...(Object.keys(knobs).length > 0 ? { knobs } : {}),
      },
    }),
  });
}

const KICK_WORDS = { "+": "up", "-": "down", none: "not at all" } as const;

function addPickups(draft: Draft, harness: Harness): void {
  const kicks = twoOf(draft, "kicks", readKicks);
  const magnets = twoOf(draft, "compass", readCompass);
  const ohms = twoOf(draft, "ohms", (text): Two<OhmsFigure> => readTwoOhms(text, { entry: "ohms", ...A_COIL }));
  if (draft.text("kicks") !== undefined)
    draft.read("kicks", say`${sentenceOf(kicks, (kick) => `kicks ${KICK_WORDS[kick]}`)}.`);
  if (draft.text("compass") !== undefined)
    draft.read("compass", say`${sentenceOf(magnets, (magnet) => `has its ${magnet.replace(" up", " pole")} up`)}.`);
  if (draft.text("ohms") !== undefined)
    draft.read("ohms", say`${sentenceOf(ohms, (one) => `has ${plainOhms(one.ohms)}`)}.`);
  if (kicks.includes(undefined) || magnets.includes(undefined))
    draft.note(say`Whether the pair is quiet takes both: the kick and the compass of each pickup. It is left open.`);
  NAMES.forEach((name, index) => {
    const [kick, magnet, one] = [kicks[index], magnets[index], ohms[index]];
    harness.pickup(name, `${name} pickup`, {
      a: {
        ...(one === undefined ? {} : { ohms: writtenAt20(one, 20) }),
        ...(kick === undefined ? {} : { kick }),
        ...(magnet === undefined ? {} : { magnet }),
      },
    });
  });
}

function twoOf<T>(draft: Draft, entry: string, read: (text: string) => Two<T>): Two<T> {
  const text = draft.text(entry);
  return text === undefined ? [undefined, undefined] : read(text);
}

function sentenceOf<T>(two: Two<T>, words: (one: T) => string): string {
  const said = two.map((one, index) => `${NAMES[index]} ${one === undefined ? "not known" : words(one)}`);
  return `${said[0]?.replace("first", "First")}, ${said[1]}`;
}

function addMetal(draft: Draft, harness: Harness): void {
  const text = draft.text("metal");
  if (text === undefined) {
    draft.note(
      say`Before any leads are swapped: read from base plate and cover to both leads. Joined to one of them, that metal would be live afterwards, and a wire of its own to ground comes first.`,
    );
    return;
  }
  const metal = readMetal(text);
  if (!metal) {
    draft.read("metal", say`No metal is joined to a coil.`);
    return;
  }
  const { pickups, what, end } = metal;
  for (const index of pickups) harness.metal(NAMES[index] ?? "first", what, end);
  const whose = pickups.map((index) => NAMES[index]).join(" and ");
  draft.read(
    "metal",
    say`The ${what} of ${whose} is joined to the lead toward ${end === "start" ? "ground" : "the tip"}.`,
  );
}

function joinedOf(draft: Draft): "with" | "then" {
  const text = draft.text("joined");
  if (text === undefined) {
    draft.note(say`Joined in parallel, as most are: nobody said.`);
    return "with";
  }
  const joined = readJoined(text);
  draft.read("joined", say`${joined === "with" ? "In parallel" : "In series, the first on the side of the tip"}.`);
  return joined;
}

/** Each pickup has its own way to ground, so that no joint is said to carry both. */
function joinPair(harness: Harness, joined: "with" | "then"): Ends {
  const [first, second] = [harness.coil("first", "a"), harness.coil("second", "a")];
  if (joined === "then") {
    const ends = harness.join("then", [first, second]);
    harness.wire(ends.ground, harness.ground);
    return ends;
  }
  harness.wire(first.hot, second.hot);
  for (const { ground } of [first, second]) harness.wire(ground, harness.ground);
  return first;
}

function addControls(draft: Draft, harness: Harness, ends: Ends, controls: ThinControls | undefined): void {
  if (controls === undefined) {
    draft.note(
      say`One volume pot at full is taken, its ohms open: write them at parts.volume-pot.ohms. No tone control is taken.`,
    );
    addVolume(harness, ends, undefined);
    return;
  }
  const { volume, tone, across } = controls;
  if (volume) addVolume(harness, ends, writtenOhms(volume.pot.ohms, volume.pot.tail));
  else harness.wire(ends.hot, "jack.tip");
  if (tone) {
    harness.pot("tone", "tone", writtenOhms(tone.pot.ohms, tone.pot.tail));
    harness.wire(ends.hot, "tone.1");
    harness.component("tone-cap", tone.capacitance, ["tone.2", "tone.case"]);
  }
  if (across !== undefined) harness.component("cap-across", across, ["jack.tip", harness.ground]);
  const at = (value: number) => (value === 10 ? "at full" : `at ${value}`);
  const words = [
    ...(volume ? [`volume ${plainOhms(volume.pot.ohms)} ${at(volume.at)}`] : []),
    ...(tone ? [`tone ${plainOhms(tone.pot.ohms)} with ${tone.capacitance} ${at(tone.at)}`] : []),
    ...(across === undefined ? [] : [`a capacitor of ${across} across the output`]),
  ];
  const said = words.length === 0 ? "no pot and no capacitor" : words.join(", ");
  draft.read("controls", say`${said.charAt(0).toUpperCase()}${said.slice(1)}.`);
}

function addVolume(harness: Harness, ends: Ends, ohms: string | undefined): void {
  harness.pot("volume", "volume", ohms);
  harness.wire(ends.hot, "volume.3");
  harness.wire("volume.1", "volume.case");
  harness.wire("volume.2", "jack.tip");
}

function knobsOf(controls: ThinControls | undefined): Record<string, number> {
  const { volume, tone } = controls ?? {};
  return {
    ...(volume && volume.at < 10 ? { volume: volume.at } : {}),
    ...(tone && tone.at < 10 ? { tone: tone.at } : {}),
  };
}
