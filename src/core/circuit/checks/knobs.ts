/** Checks of knobs: one that silences all, one that does nothing, one whose whole effect sits at one end. */
import type { StateFacts } from "../facts.ts";
import { transferReader } from "../hearing.ts";
import type { Circuit, Load, State, Track } from "../physical.ts";
import { inState } from "../state.ts";
import type { Check, Finding } from "./finding.ts";

/** A knob is judged with a cable and an amplifier on the jack: a bass cut does nothing into nothing. */
const LOAD: Load = { cableFarads: 500e-12, inputOhms: 1e6 };
/** Where a knob is listened to. */
export const KNOB_HZ = [200, 1000, 4000] as const;
/** A volume half way up that is nearer to full than this has its whole effect below. */
const HALF_WAY_DB = -3;
/** A change below this is none. */
const NOTHING_DB = 0.2;

export interface KnobReading {
  readonly travel: number;
  /** Against the knob full, at KNOB_HZ. */
  readonly dB: readonly number[];
}

/** What a knob does along its travel in a state, the others as the state has them. */
export function knobAlong(circuit: Circuit, state: State, track: Track, travels: readonly number[]): KnobReading[] {
  const at = (travel: number) => powersAt(circuit, { ...state, travel: { ...state.travel, [track.id]: travel } });
  const full = at(1);
  return travels.map((travel) => ({
    travel,
    dB: at(travel).map((power, index) => toDb(power, full[index] ?? 0)),
  }));
}

/** Sum of the powers of all coils: a level that no cancelling hides. */
function powersAt(circuit: Circuit, state: State): number[] {
  const read = transferReader(inState(circuit, state), LOAD);
  return KNOB_HZ.map((frequencyHz) => read(frequencyHz).reduce((sum, [re, im]) => sum + re * re + im * im, 0));
}

function toDb(power: number, full: number): number {
  if (full <= 0) return 0;
  return power <= 0 ? -200 : Math.max(-200, 10 * Math.log10(power / full));
}

/** Whether a knob at zero shorts the output or every coil that is heard: told from the joins alone. */
function silences({ inside, heard }: StateFacts, track: Track): boolean {
  const { circuit, state } = inside;
  const zero = inState(circuit, { ...state, travel: { ...state.travel, [track.id]: 0 } });
  return zero.output === zero.ground || heard.every(({ coil }) => zero.nodeOf(coil.start) === zero.nodeOf(coil.finish));
}

export const oneKnobSilencesAll: Check = ({ facts }) => {
  const { circuit, states } = facts;
  const base = states.find(({ heard, inside }) => heard.length > 1 && isFull(inside.state));
  if (!base) return [];
  const killers = circuit.tracks.filter((track) => silences(base, track));
  // One knob that silences all is a master volume; two are coupled by mistake.
  if (killers.length < 2) return [];
  return killers.map(
    (track): Finding => ({
      kind: "one knob silences all",
      grade: "fault",
      states: [base.inside.state.id],
      lugs: [track.low, track.wiper, track.high],
      what: `${track.id} at zero silences everything, and so does ${killers
        .filter(({ id }) => id !== track.id)
        .map(({ id }) => id)
        .join(" and ")}`,
      why: "Its wiper lies on the output: turned down, it shorts the output to ground, the other pickup with it",
      remedy: `Swap at ${track.control}: the pickup to the wiper ${track.wiper}, the output to the outer lug. Each knob then shorts its own pickup`,
    }),
  );
};

function isFull(state: State): boolean {
  return Object.values(state.travel).every((travel) => travel === 1);
}

export const knobDoesNothing: Check = ({ facts }) => {
  const { circuit, states } = facts;
  return circuit.tracks.flatMap((track): Finding[] => {
    const effect = states.some(({ inside, heard }) =>
      heard.length === 0
        ? false
        : knobAlong(circuit, { ...inside.state, travel: {} }, track, [0]).some(({ dB }) =>
            dB.some((change) => Math.abs(change) > NOTHING_DB),
          ),
    );
    if (effect || states.every(({ heard }) => heard.length === 0)) return [];
    return [
      {
        kind: "knob does nothing",
        grade: "fault",
        states: [],
        lugs: [track.low, track.wiper, track.high],
        what: `${track.id} changes nothing that can be heard in any state`,
        why: "One of its lugs is not where it belongs, or its capacitor is missing",
        remedy: `Check the wires at ${track.low}, ${track.wiper} and ${track.high}`,
      },
    ];
  });
};

/** Asked of volumes: knobs that silence some state. */
export const knobAllAtOneEnd: Check = ({ facts }) =>
  facts.circuit.tracks.flatMap((track): Finding[] => {
    for (const one of facts.states) {
      if (one.heard.length === 0 || !silences(one, track)) continue;
      const [half] = knobAlong(facts.circuit, one.inside.state, track, [0.5]);
      if (!half) continue;
      const most = Math.max(...half.dB);
      if (most < HALF_WAY_DB) return [];
      return [
        {
          kind: "knob all at one end",
          grade: "caution",
          states: [],
          lugs: [track.low, track.wiper, track.high],
          what: `${track.id} half way up is already within ${Math.abs(most).toFixed(1)} dB of full`,
          why: `Its taper (${track.taper.kind}) runs against the way it rises (${track.rises}): nearly all happens near zero`,
          remedy: "Take a pot made for the other direction (reverse audio), a linear one, or let it rise the other way",
        },
      ];
    }
    return [];
  });
