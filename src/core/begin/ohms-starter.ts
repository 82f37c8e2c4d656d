/** A beginning about the meter at the jack: what should it read, and does it? */
import { type Sound, soundInWords } from "../circuit/index.ts";
import { InputError } from "../errors.ts";
import { figure, type Phrase, parseQuantity, say } from "../quantity/index.ts";
import type { Draft, Grower } from "./draft.ts";
import {
  A_POT,
  AT_THE_JACK,
  type OhmsFigure,
  plainOhms,
  readCelsius,
  readCoils,
  readOhmsList,
  writtenAt20,
  writtenOhms,
} from "./ohm-words.ts";
import { shown } from "./reading.ts";
import { NOT_ASKED } from "./scale-entries.ts";
import type { Entry } from "./types.ts";
import { coilsIn, createHarness, type Ends, endsOf, type Harness } from "./wiring-harness.ts";

const COILS: Entry = {
  id: "coils",
  prompt: "How many ohms have the coils that sound together, and how are they joined?",
  lay: "From the pickup's sheet, or with the meter across the pickup's two leads before they are soldered.",
  kind: "words",
  example: "6.2 k with 6.5 k",
  more: "with: in parallel; then: in series; brackets where both occur: (3.95 k then 4.05 k) with 6.1 k. Read by yourself: write (meter) behind it, and at 25 °C if the room was another one then.",
  tool: "",
  unknown: "the answer will be: measure",
};

const VOLUME: Entry = {
  id: "volume",
  prompt: "How many ohms has the volume pot, and how many of them lie on the output?",
  lay: "From the print on its case, or with the meter across its outer lugs before it is soldered.",
  kind: "words",
  example: "500 k",
  more: "None: write none. Two, both with a say in this sound: 2 x 500 k. Read by yourself: write (meter) behind it.",
  tool: "",
  unknown: "one pot is taken, of 125 to 500 kΩ, and the limits are wider",
};

const SERIES_CAP: Entry = {
  id: "series-cap",
  prompt: "Does a capacitor stand in series with the output, as a bass cut has?",
  lay: "Follow the wire from the volume's middle lug to the tip of the jack with your eyes.",
  kind: "words",
  example: "no",
  more: "Its value, and a pot across it: 2.2 n with 1 M pot. Before the volume pot: 2.2 n before the volume. A capacitor from a tone pot to ground does not count.",
  tool: "",
  unknown: "none is taken; a meter that shows open will say so",
};

const TEMPERATURE: Entry = {
  id: "temperature",
  prompt: "How warm is the room in which the guitar has been lying?",
  lay: "With a thermometer near the guitar, an hour after it came in.",
  kind: "words",
  example: "22 °C",
  more: "Fahrenheit will do: 72 °F. Copper changes by 0.4 % a degree Celsius.",
  tool: "",
  unknown: "20 °C is taken; 3 degrees more or less are 1.2 %",
};

const READING: Entry = {
  id: "reading",
  prompt: "And what does the meter read, if you have read it?",
  lay: "With a cable in the jack and the probes on tip and sleeve of its free plug, every knob at full, the fingers off the metal.",
  kind: "words",
  example: "8.05 k",
  more: "No reading at all, OL or a 1 at the left: write open.",
  tool: "",
  unknown: "you get what it should read",
};

const STATE = "full";
const TITLE = "everything at full";

export const OHMS_STARTER: Grower = {
  id: "ohms",
  title: "What should the meter read at the jack?",
  entries: [COILS, VOLUME, SERIES_CAP, TEMPERATURE, READING],
  questions: ["wiring.ohms"],
  grow: growOhms,
};

function growOhms(draft: Draft): ReturnType<Grower["grow"]> {
  const room = readRoom(draft);
  const pots = readPots(draft);
  const cap = readSeriesCap(draft);
  const harness = createHarness(pots.length > 0 ? `${potId(0, pots.length)}.case` : "jack.sleeve");
  const pickups = addPickups(draft, harness, room ?? 20);
  addOutput(harness, pickups, pots, cap);
  const read = readAtJack(draft);
  if (read !== undefined) draft.reading("ohms-full", `ohms.${STATE}`, read);
  draft.note(
    say`Limits: a sheet's coil ±5 %, a coil read with the same meter ±0.5 %, a pot ±20 % unless it was read (common practice). A tone pot has no say: its capacitor blocks direct current.`,
  );
  draft.note(say`A wire from ground to the strings is taken as there: the meter does not show it.`);
  return draft.finish({
    job: {
      title: "Guitar, ohms at the jack",
      notes: `Begun with: What should the meter read at the jack? ${NOT_ASKED}`,
    },
    instrument: { kind: "guitar", strings: 6 },
    ...harness.sections(
      { [STATE]: { title: TITLE } },
      room === undefined ? {} : { temperature: `${Number(room.toFixed(1))} °C (measured)` },
    ),
  });
}

function readRoom(draft: Draft): number | undefined {
  const text = draft.text("temperature");
  if (text === undefined) {
    draft.note(say`The room is taken as ${figure(20, "°C", 0)}, and so are coils that you read yourself.`);
    return undefined;
  }
  const celsius = readCelsius(text, "temperature");
  draft.read("temperature", say`${figure(celsius, "°C", 1)}.`);
  return celsius;
}

interface Pot {
  /** As it goes into the job file; undefined: nobody knows it. */
  readonly ohms: string | undefined;
}

const COUNT_WORDS = ["one", "two", "three", "four"];
const MOST_POTS = 4;

function readPots(draft: Draft): readonly Pot[] {
  const text = draft.text("volume");
  if (text === undefined) {
    draft.note(say`One volume pot is taken, its ohms open: write them at parts.volume-pot.ohms.`);
    return [{ ohms: undefined }];
  }
  if (/^(?:none|no|0|no (?:volume )?pot)[.!]?$/i.test(text)) {
    draft.read("volume", say`No volume pot.`);
    return [];
  }
  const counted =
    /^([1-9]|one|two|three|four)\s*(?:x|times)\s+|[, ]\s*([1-9]|one|two|three|four)\s*(?:volume )?pots?$/i.exec(text);
  const list = readOhmsList(counted ? text.replace(counted[0], " ").trim() : text, { entry: "volume", ...A_POT });
  const word = (counted?.[1] ?? counted?.[2] ?? "1").toLowerCase();
  const times = /^\d$/.test(word) ? Number(word) : COUNT_WORDS.indexOf(word) + 1;
  const pots = times > 1 && list[0] ? Array.from({ length: times }, () => list[0] as OhmsFigure) : list;
  if (pots.length > MOST_POTS || (times > 1 && list.length > 1))
    throw new InputError("volume", "gives more pots than can be told apart", "Write e.g. 500 k, or 2 x 500 k");
  draft.read("volume", say`${pots.map(({ ohms }) => plainOhms(ohms)).join(" beside ")} on the output.`);
  return pots.map(({ ohms, tail }) => ({ ohms: writtenOhms(ohms, tail) }));
}

function potId(index: number, count: number): string {
  return count === 1 ? "volume" : `volume-${index + 1}`;
}

interface SeriesCap {
  readonly capacitance: string;
  readonly pot: string | undefined;
  readonly before: boolean;
}

const CAP = /(\d+[pnu]\d+|\d+(?:[.,]\d+)?\s*(?:[pnuμµ]F?)(?![a-z])|\.\d+\s*[uμµ]F?)/i;

function readSeriesCap(draft: Draft): SeriesCap | undefined {
  const text = draft.text("series-cap");
  if (text === undefined) {
    draft.note(
      say`No capacitor is taken to stand in series with the output: one there, or a buffer, makes the meter show open.`,
    );
    return undefined;
  }
  if (/^(?:no|none|no capacitor)[.!]?$/i.test(text)) {
    draft.read("series-cap", say`No capacitor in series.`);
    return undefined;
  }
  const value = CAP.exec(text)?.[1];
  let rest = value === undefined ? text : text.replace(value, " ");
  const before = /\bbefore\b/i.test(rest);
  rest = rest.replace(/\bbefore(?: the)?(?: volume)?(?: pot)?|\bafter(?: the)? volume(?: pot)?/gi, " ");
  const potWords = /(?:with|and)?\s*(?:an?\s)?([\d.,]+\s*[kM]\w*)\s*pot\b(?: across(?: it)?)?/i.exec(rest);
  const pot = potWords?.[1] ? readOhmsList(potWords[1], { entry: "series-cap", ...A_POT })[0] : undefined;
  if (potWords) rest = rest.replace(potWords[0], " ");
  if (rest.replace(/\byes\b|\bcapacitor\b|[,;.]/gi, " ").trim() !== "")
    throw new InputError("series-cap", `cannot read "${shown(text)}"`, "Write no, yes, 2.2 n, or 2.2 n with 1 M pot");
  if (value === undefined)
    draft.note(say`The capacitor in series is taken as 2.2 nF: the meter does not see its value.`);
  else parseQuantity(value.replace(/µ/g, "u"), { path: "series-cap", kind: "capacitance" });
  const words: Phrase = say`A capacitor${value === undefined ? "" : ` of ${value}`} in series, ${before ? "before the volume" : "behind the volume"}${pot ? `, with a pot of ${plainOhms(pot.ohms)} across it` : ""}.`;
  draft.read("series-cap", words);
  return {
    capacitance: value === undefined ? "2.2 n (assumed)" : value.replace(/µ/g, "u"),
    pot: pot && writtenOhms(pot.ohms, pot.tail),
    before,
  };
}

const ORDER = ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"] as const;

/** Coils joined side by side are pickups of their own; all others belong to one. */
function addPickups(draft: Draft, harness: Harness, roomCelsius: number): readonly Ends[] {
  const text = draft.text("coils");
  if (text === undefined) {
    harness.pickup("pickup", "pickup", { a: {} });
    return [harness.coil("pickup", "a")];
  }
  const { sound, coils } = readCoils(text, "coils");
  const figureOf = (id: string) => coils[Number(id.slice("coil-".length)) - 1] as OhmsFigure;
  const sheet = coils.some(({ measured }) => !measured);
  const words = soundInWords(sound, (id) => plainOhms(figureOf(id).ohms));
  draft.read("coils", say`${words}${sheet ? "" : ", read with the meter"}.`);
  if (sheet)
    draft.note(say`Coils without (meter) behind them count as a data sheet's, at ${figure(20, "°C", 0)}: ±5 %.`);
  const groups: readonly Sound[] = sound.kind === "with" ? sound.parts : [sound];
  return groups.map((group, index) => {
    const id = groups.length === 1 ? "pickup" : (ORDER[index] ?? "last");
    const ids = coilsIn(group);
    const keyOf = (coil: string) => "abcdefgh"[ids.indexOf(coil)] ?? "a";
    harness.pickup(
      id,
      groups.length === 1 ? "pickup" : `${id} pickup`,
      Object.fromEntries(ids.map((coil) => [keyOf(coil), { ohms: writtenAt20(figureOf(coil), roomCelsius) }])),
    );
    return endsOf(group, (coil) => harness.coil(id, keyOf(coil)), harness);
  });
}

/** As many pots as pickups: each its own, turned down without the others; else all at the one point. */
function addOutput(harness: Harness, pickups: readonly Ends[], pots: readonly Pot[], cap: SeriesCap | undefined): void {
  const [first] = pickups;
  if (!first) return;
  for (const { ground } of pickups) harness.wire(ground, harness.ground);
  const ids = pots.map((_, index) => potId(index, pots.length));
  pots.forEach(({ ohms }, index) => {
    const id = ids[index] ?? "volume";
    harness.pot(id, id.replace("-", " "), ohms);
    harness.wire(`${id}.1`, `${id}.case`);
  });
  const own = pots.length > 1 && pots.length === pickups.length && !cap?.before;
  const last = own ? onePotEach(harness, pickups, ids) : allAtOnePoint(harness, pickups, ids, cap);
  if (cap && !cap.before) addCap(harness, cap, last, "jack.tip");
  else harness.wire(last, "jack.tip");
}

/** @returns the lug that the output is taken from */
function onePotEach(harness: Harness, pickups: readonly Ends[], pots: readonly string[]): string {
  pickups.forEach(({ hot }, index) => {
    harness.wire(hot, `${pots[index]}.2`);
    if (index > 0) harness.wire(`${pots[0]}.3`, `${pots[index]}.3`);
  });
  return `${pots[0]}.3`;
}

function allAtOnePoint(
  harness: Harness,
  pickups: readonly Ends[],
  pots: readonly string[],
  cap: SeriesCap | undefined,
): string {
  const hot = pickups[0]?.hot ?? harness.ground;
  for (const other of pickups.slice(1)) harness.wire(hot, other.hot);
  const [pot, ...others] = pots;
  if (cap?.before) addCap(harness, cap, hot, pot === undefined ? "jack.tip" : `${pot}.3`);
  if (pot === undefined) return cap?.before ? "jack.tip" : hot;
  if (!cap?.before) harness.wire(hot, `${pot}.3`);
  for (const other of others) {
    harness.wire(`${pot}.3`, `${other}.3`);
    harness.wire(`${pot}.2`, `${other}.2`);
  }
  return `${pot}.2`;
}

function addCap(harness: Harness, { capacitance, pot }: SeriesCap, from: string, to: string): void {
  harness.component("series-cap", capacitance, [from, to]);
  if (pot === undefined) return;
  // Full turns it right out, as a bass cut has it.
  harness.pot("bass-cut", "bass cut", pot);
  harness.wire(from, "bass-cut.2");
  harness.wire("bass-cut.3", to);
}

/** A meter that shows open reads more than anything that it can show. */
const OPEN_WRITTEN = "100 M (meter)";

function readAtJack(draft: Draft): string | undefined {
  const text = draft.text("reading");
  if (text === undefined) return undefined;
  if (/^(?:open|o\.?l\.?|over(?:load)?|infinite|infinity|∞|no reading)[.!]?$/i.test(text)) {
    draft.read("reading", say`The meter shows open.`);
    draft.note(say`Open stands in the file as a reading of ${figure(100, "MΩ", 0)}: more than the meter can show.`);
    return OPEN_WRITTEN;
  }
  const [one, extra] = readOhmsList(text, { entry: "reading", ...AT_THE_JACK });
  if (!one || extra) throw new InputError("reading", "gives more than one figure", "Give one, or open");
  draft.read("reading", say`${plainOhms(one.ohms)} read.`);
  return writtenOhms(one.ohms, /\(/.test(one.tail) ? one.tail : `${one.tail} (meter)`);
}
