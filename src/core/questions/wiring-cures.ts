/**
 * Cures for two coils that work against one another: swapped leads turn a coil's string signal and its hum, magnets turned
 * over its string signal alone. Each is tried on the circuit; what is quiet and leaves no metal live comes first.
 */
import { type Circuit, type Coil, factsOf, type InState, type StateFacts } from "../circuit/index.ts";
import { type Phrase, say } from "../quantity/index.ts";
import type { Remedy } from "../verdict/index.ts";

interface Cure {
  readonly id: string;
  readonly text: Phrase;
  /** Lower comes first. */
  readonly rank: number;
}

/** @returns the cures that bring this state in phase, best first; none if no single coil's turn does */
export function phaseCures(inside: InState, heard: readonly string[], reference: string | undefined): Remedy[] {
  const coils = inside.circuit.coils.filter(({ id }) => heard.includes(id));
  const cures = coils.flatMap((coil) => [
    ...cureBy(inside, coil, "swap", reference),
    ...cureBy(inside, coil, "magnets", reference),
  ]);
  return cures
    .sort((first, second) => first.rank - second.rank)
    .map(({ id, text }) => ({ id, text, permanence: "reversible" }));
}

function cureBy(inside: InState, coil: Coil, by: "swap" | "magnets", reference: string | undefined): Cure[] {
  const after = stateAfter(inside, coil, by, reference);
  if (!after?.phases.every(({ inPhase }) => inPhase === true)) return [];
  const live = by === "swap" ? metalOn(inside.circuit, coil) : undefined;
  const hum = { quiet: 0, "partly quiet": 1, hums: 2, "not known": 1 }[after.hum ?? "not known"];
  const act =
    by === "swap"
      ? `Swap ${coil.start} and ${coil.finish}`
      : `Turn the magnets of ${coil.name} over and leave its leads`;
  const warning = live
    ? `; but first cut the jumper from ${live.name} to ${live.lug} and give the metal a wire of its own to ground, or it would be live`
    : "";
  return [
    {
      id: `${by}-${coil.id}`,
      text: say`${act}: in phase, ${humWords(after.hum)}${warning}.`,
      rank: 10 * hum + (live ? 2 : 0) + (by === "magnets" ? 1 : 0),
    },
  ];
}

function humWords(hum: StateFacts["hum"]): string {
  if (hum === undefined) return "hum not known without a compass";
  return hum === "hums" ? "but it hums" : hum;
}

function stateAfter(
  { circuit, state }: InState,
  coil: Coil,
  by: "swap" | "magnets",
  reference: string | undefined,
): StateFacts | undefined {
  const turned: Coil =
    by === "swap"
      ? { ...coil, start: coil.finish, finish: coil.start }
      : { ...coil, ...(coil.kick === undefined ? {} : { kick: coil.kick > 0 ? -1 : coil.kick < 0 ? 1 : 0 }) };
  const coils = circuit.coils.map((one) => (one.id === coil.id ? turned : one));
  return factsOf({ ...circuit, coils }, [state], reference).states[0];
}

/** Metal of the pickup that is joined to the lead at ground: it goes where that lead goes. */
function metalOn({ metal }: Circuit, { start }: Coil): Circuit["metal"][number] | undefined {
  return metal.find(({ lug, what }) => what !== "case" && lug === start);
}
