/**
 * Why is a sound thin? What the circuit says of level and peak: together, each coil alone, and with one thing after the
 * other taken away that could be the reason. Phase and hum are told by the state's own question.
 *
 * Level: dB re 1 V in one coil at 500 Hz, cable and input as stated. Equal coils: a pickup's own loudness is not in it.
 */
import {
  aloneIn,
  audiblePoints,
  type Curve,
  curveOf,
  type InState,
  inState,
  LEVEL_HZ,
  type Load,
  levelDb,
  stringEmf,
  transfersAt,
} from "../circuit/index.ts";
import type { Instrument } from "../job/index.ts";
import type { Asking } from "../ledger/index.ts";
import { figure, type Phrase, say, showPhrase } from "../quantity/index.ts";
import type { Verdict } from "../verdict/index.ts";
import { loadOf, type StateCheck } from "../wiring/index.ts";
import { type InstrumentQuestion, makeVerdict, measureVerdict } from "./make-verdict.ts";
import { type Checked, checkOf } from "./wiring-check.ts";
import { phaseCures } from "./wiring-cures.ts";
import { unreadSigns } from "./wiring-signs.ts";

type Asked = { readonly id: string; readonly question: string };

/** A string that every coil hears on most instruments. */
const STRING = 1;
const POINTS = audiblePoints();
/** Below this nothing is heard. */
const CUT_OFF_DB = -80;
/** Changes smaller than this nobody hears. Common practice, no source. */
const HEARD_DB = 1;

export function thinQuestion(state: { readonly id: string; readonly title: string }): InstrumentQuestion {
  const asked = { id: `wiring.thin.${state.id}`, question: `Why is ${state.title} thin?` };
  return { ...asked, answer: (asking) => thinAnswer(asking, asked, state.id) };
}

interface Sounding {
  readonly name: string;
  readonly levelDb: number;
  readonly peak?: Curve["peak"];
}

function thinAnswer(asking: Asking<Instrument>, asked: Asked, id: string): Verdict {
  const all = checkOf(asking);
  const index = all?.check.states.findIndex((one) => one.id === id) ?? -1;
  const state = all?.check.states[index];
  const inside = all?.check.facts.states[index]?.inside;
  if (!all || !state || !inside) return measureVerdict({ ...asked, stake: 1 }, [], "why it is thin");
  const load = loadOf(all.wiring);
  const alike = soundingOf("in phase", withKicksAlike(inside), load);
  const order = inside.circuit.coils.map((coil) => coil.id);
  const inOrder = [...state.coils].sort((first, second) => order.indexOf(first.id) - order.indexOf(second.id));
  const alone = inOrder.flatMap((coil) => {
    const only = aloneIn(inside, coil.id);
    return only ? [soundingOf(coil.name, only, load)] : [];
  });
  const out = state.phases.includes("out of phase");
  const missing = state.phases.includes("not known") ? unreadSigns(all, state) : [];
  const [next] = missing;
  return makeVerdict({
    ...asked,
    status: out ? "no-go" : missing.length > 0 ? "measure" : "go",
    headline: headlineOf({ state, out, asked: missing.length > 0, alike, alone, inside, load }),
    detail: [
      humWords(state),
      ...alone.map((one) => say`${capital(one.name)} alone: ${soundingWords(one)}.`),
      say`Together and in phase: ${soundingWords(alike)}.`,
      ...(out ? [say`Together as it is: ${soundingWords(soundingOf("", inside, load))}.`] : []),
      ...takenAway(all, inside, alike, load),
      ...guessWords(all),
      say`Sums do not decide a coil that is not the one meant: tap the poles with steel and hear which are loud. Nor do they know how near the pickups stand to the strings.`,
    ],
    remedies: out
      ? phaseCures(
          inside,
          inOrder.map((coil) => coil.id),
          all.check.facts.reference?.id,
        )
      : [],
    missing,
    ...(next === undefined ? {} : { next }),
    figures: {
      togetherDb: alike.levelDb,
      ...(alike.peak ? { peakHz: alike.peak.frequencyHz } : {}),
    },
  });
}

function humWords({ hum }: StateCheck): Phrase {
  if (hum === undefined) return say`Whether it is quiet is not known: that takes kick and compass of each coil.`;
  return say`As it is, ${hum === "hums" ? "it hums: hum adds up" : `it is ${hum}: hum is taken away`}.`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

interface Told {
  readonly state: StateCheck;
  readonly out: boolean;
  readonly asked: boolean;
  readonly alike: Sounding;
  readonly alone: readonly Sounding[];
  readonly inside: InState;
  readonly load: Load;
}

function headlineOf({ out, asked, alike, alone, inside, load }: Told): Phrase {
  const [first] = alone;
  const against = first
    ? say`${signedDb(alike.levelDb - first.levelDb)} against ${first.name} alone${peakAgainst(alike, first)}`
    : soundingWords(alike);
  if (out) {
    const lost = alike.levelDb - soundingOf("", inside, load).levelDb;
    return lost > MOST_SAID_DB
      ? say`Phase is the reason: alike coils take each other's string signal away, and only what differs is left.`
      : say`Phase is the reason: ${figure(lost, "dB", 1)} are lost to it at 500 Hz with coils of one loudness.`;
  }
  if (asked) return say`Phase first: nobody knows it, and ohms cannot show it. In phase it would be ${against}.`;
  return say`Phase is not the reason. By the circuit it is ${against}.`;
}

/** Beyond this, coils are so alike that the figure means nothing on strings. */
const MOST_SAID_DB = 40;

function peakAgainst(one: Sounding, other: Sounding): Phrase {
  return one.peak && other.peak
    ? say`, with its peak at ${khz(one.peak.frequencyHz)} against ${khz(other.peak.frequencyHz)}`
    : say``;
}

function soundingWords({ levelDb: dB, peak }: Sounding): Phrase {
  return peak
    ? say`${signedDb(dB)} at 500 Hz, peak at ${khz(peak.frequencyHz)}, ${signedDb(peak.dB)}`
    : say`${signedDb(dB)} at 500 Hz, no peak`;
}

function signedDb(dB: number): Phrase {
  return say`${dB > -0.05 ? "+" : ""}${figure(Math.abs(dB) < 0.05 ? 0 : dB, "dB", 1)}`;
}

function khz(frequencyHz: number): Phrase {
  return say`${figure(frequencyHz / 1000, "kHz", 1)}`;
}

function soundingOf(name: string, inside: InState, load: Load): Sounding {
  const emf = stringEmf(inside.circuit.coils, STRING);
  const { peak } = curveOf(inside, load, POINTS, STRING);
  return {
    name,
    levelDb: levelDb(transfersAt(inside, load, LEVEL_HZ), emf),
    ...(peak ? { peak } : {}),
  };
}

/** Each kick such that all coils help one another here. */
function withKicksAlike(inside: InState): InState {
  const transfers = transfersAt(inside, { cableFarads: 0, inputOhms: Number.POSITIVE_INFINITY }, LEVEL_HZ);
  const coils = inside.circuit.coils.map((coil, index) => ({
    ...coil,
    kick: (transfers[index]?.[0] ?? 0) < 0 ? (-1 as const) : (1 as const),
  }));
  return inState({ ...inside.circuit, coils }, inside.state);
}

/** What pots and capacitors have to say: the circuit without each. */
function takenAway({ check }: Checked, inside: InState, now: Sounding, load: Load): Phrase[] {
  const { circuit } = withKicksAlike(inside);
  const { state } = inside;
  const tracks = circuit.tracks.map(({ id, low, ohms }) => ({
    words: say`${id} (${figure(ohms / 1000, "kΩ", 0)})`,
    without: { ...circuit, wires: circuit.wires.filter(({ from, to }) => from !== low && to !== low) },
  }));
  const capacitors = circuit.fixed
    .filter(({ id, kind }) => kind === "capacitor" && !id.endsWith(":stray"))
    .map(({ id, a, b, value }) => ({
      words: say`${id} (${figure(value * 1e9, "nF", 1)})`,
      without: { ...circuit, fixed: circuit.fixed.filter((one) => one.id !== id), lugs: [...circuit.lugs, a, b] },
    }));
  const turned = check.states.length > 0 ? Object.entries(state.travel).filter(([, travel]) => travel < 1) : [];
  const changes = new Map<string, { readonly names: Phrase[]; readonly change: Phrase }>();
  for (const { words, without } of [...tracks, ...capacitors]) {
    const change = changeWords(now, soundingOf("", inState(without, state), load));
    const key = showPhrase(change);
    changes.set(key, { names: [...(changes.get(key)?.names ?? []), words], change });
  }
  return [
    ...[...changes.values()].map(({ names, change }) => {
      const list = names.flatMap((name, index) => (index === 0 ? name : [" or ", ...name]));
      return say`Without ${list}: ${change}.`;
    }),
    ...turned.map(([id, travel]) => {
      const then = soundingOf("", inState(circuit, { ...state, travel: { ...state.travel, [id]: 1 } }), load);
      return say`With ${id} at full and not at ${figure(travel * 10, "", 1)}: ${changeWords(now, then)}.`;
    }),
  ];
}

function changeWords(now: Sounding, then: Sounding): Phrase {
  if (then.levelDb < CUT_OFF_DB) return say`nothing reaches the jack`;
  const level = then.levelDb - now.levelDb;
  const peak = now.peak && then.peak ? then.peak.dB - now.peak.dB : undefined;
  const moved = now.peak && then.peak ? then.peak.frequencyHz / now.peak.frequencyHz : 1;
  if (Math.abs(level) < HEARD_DB && Math.abs(peak ?? 0) < HEARD_DB && Math.abs(moved - 1) < 0.05)
    return say`no change that is heard`;
  const atPeak =
    peak === undefined || !then.peak ? say`` : say`, peak ${signedDb(peak)} and at ${khz(then.peak.frequencyHz)}`;
  return say`${signedDb(level)} at 500 Hz${atPeak}`;
}

function guessWords({ check }: Checked): Phrase[] {
  const kinds = new Set(check.wired.guesses.map(({ kind }) => kind));
  if (!kinds.has("henries") && !kinds.has("pot") && !kinds.has("ohms")) return [];
  return [
    say`Inductance and other values that nobody has read are usual ones: the peaks may lie a third higher or lower, the differences stay.`,
  ];
}
