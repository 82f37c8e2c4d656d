/** What ohms cannot tell apart: states with readings alike, and mistakes that read right; and the test that can. */
import { type Circuit, type Coil, type Facts, factsOf, type StateFacts } from "../circuit/index.ts";
import type { WiredCircuit } from "./circuit-of.ts";
import { bandOf, type OhmsBand } from "./ohms.ts";

export interface BlindSpot {
  readonly kind: "states alike" | "leads swapped" | "other coil kept";
  readonly states: readonly string[];
  /** The coil that would be wrong; none where two states are alike. */
  readonly coil?: string;
  /** What one would take for the other. */
  readonly what: string;
  readonly test: string;
}

/** @returns at most one entry a coil and kind, and one for each pair of states */
export function blindSpots(wired: WiredCircuit, facts: Facts, celsius: number): BlindSpot[] {
  const bands = facts.states.map(({ inside }) => bandOf(wired, inside, celsius, [inside.output, inside.ground]));
  return [
    ...statesAlike(facts, bands),
    ...facts.circuit.coils.flatMap((coil) => leadsSwapped(facts, coil)),
    ...facts.circuit.coils.flatMap((coil) => otherKept(wired, facts, coil, bands, celsius)),
  ];
}

function statesAlike({ states }: Facts, bands: readonly OhmsBand[]): BlindSpot[] {
  return states.flatMap((first, at) =>
    states.slice(at + 1).flatMap((second, after): BlindSpot[] => {
      const [mine, theirs] = [bands[at], bands[at + 1 + after]];
      if (!mine || !theirs || !Number.isFinite(mine.ohms) || !Number.isFinite(theirs.ohms)) return [];
      if (mine.low > theirs.high || theirs.low > mine.high) return [];
      const ids = [first.inside.state.id, second.inside.state.id];
      return [
        {
          kind: "states alike",
          states: ids,
          what: `the readings of ${ids.join(" and ")} may be the same`,
          test: "tap the poles of each row with steel, cable into an amplifier at low volume, and note which are loud",
        },
      ];
    }),
  );
}

/** Swapped leads leave every ohm alone; they matter where another coil is heard with it. */
function leadsSwapped({ states }: Facts, coil: Coil): BlindSpot[] {
  const shared = states.filter(({ heard }) => heard.length > 1 && heard.some((one) => one.coil.id === coil.id));
  if (shared.length === 0) return [];
  return [
    {
      kind: "leads swapped",
      states: shared.map(({ inside }) => inside.state.id),
      coil: coil.id,
      what: `${coil.name} with start and finish swapped reads the same`,
      test: `direction test: red on ${coil.finish}, black on ${coil.start}, steel lowered to its poles${coil.kick === undefined || coil.kick === 0 ? "" : `: kicks ${coil.kick > 0 ? "up" : "down"}`}`,
    },
  ];
}

/** A split that keeps the other coil, where the two bands overlap. */
function otherKept(
  wired: WiredCircuit,
  facts: Facts,
  coil: Coil,
  bands: readonly OhmsBand[],
  celsius: number,
): BlindSpot[] {
  const others = facts.circuit.coils.filter(({ pickup, id }) => pickup === coil.pickup && id !== coil.id);
  const [other] = others;
  if (!other || others.length !== 1) return [];
  const split = facts.states.filter((state) => hears(state, coil) && !hears(state, other));
  const alike = split.filter(({ inside }) => {
    const swapped: Circuit = {
      ...facts.circuit,
      coils: facts.circuit.coils.map((one) => (one.id === coil.id ? { ...one, ohms: other.ohms } : one)),
    };
    const [after] = factsOf(swapped, [inside.state]).states;
    const mine = bands[facts.states.findIndex((one) => one.inside === inside)];
    if (!after || !mine) return false;
    const theirs = bandOf({ ...wired, circuit: swapped }, after.inside, celsius, [
      after.inside.output,
      after.inside.ground,
    ]);
    return mine.low <= theirs.high && theirs.low <= mine.high;
  });
  if (alike.length === 0) return [];
  return [
    {
      kind: "other coil kept",
      states: alike.map(({ inside }) => inside.state.id),
      coil: coil.id,
      what: `${other.name} kept instead of ${coil.name} may read the same`,
      test: `tap both rows of that pickup with steel: only the poles of ${coil.name} are loud`,
    },
  ];
}

function hears({ heard }: StateFacts, coil: Coil): boolean {
  return heard.some((one) => one.coil.id === coil.id);
}
