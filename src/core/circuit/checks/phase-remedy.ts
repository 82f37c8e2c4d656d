/**
 * How a coil that is out of phase is cured. Swapping its leads turns its string signal and its hum alike, turning its
 * magnets over turns the string signal alone: which of the two is tried on the circuit itself.
 */
import { factsOf } from "../facts.ts";
import type { Circuit, Coil } from "../physical.ts";
import type { Checked } from "./finding.ts";

const ORDER = ["quiet", "partly quiet", "hums"] as const;

/** @param others the coils that they work against: turned round instead where that is free of trouble */
export function phaseRemedy(
  { facts, wanted, titleOf }: Checked,
  coils: readonly Coil[],
  others: readonly Coil[] = [],
): string {
  const names = coils.map(({ name }) => name).join(" and ");
  const turn = `turn the magnets of ${names} over`;
  const trouble = troubleOfSwapping({ facts, wanted, titleOf }, coils);
  const swap = swapWords(coils);
  if (trouble === "") return `${capital(swap)}; or ${turn}`;
  const instead = others.length > 0 && curedBySwapping({ facts, wanted, titleOf }, others);
  return `${capital(instead ? `${swapWords(others)}; or ${turn}` : turn)}. Do not ${swap}: ${trouble}`;
}

function swapWords(coils: readonly Coil[]): string {
  return coils.map(({ start, finish }) => `swap ${start} and ${finish}`).join("; ");
}

/** Whether every state is in phase afterwards, with no metal live and no hum where none was wanted. */
function curedBySwapping(checked: Checked, coils: readonly Coil[]): boolean {
  if (troubleOfSwapping(checked, coils) !== "") return false;
  return swapped(checked, coils).states.every(({ phases }) => phases.every(({ inPhase }) => inPhase !== false));
}

function swapped({ facts }: Checked, coils: readonly Coil[]): Checked["facts"] {
  const turned: Circuit = {
    ...facts.circuit,
    coils: facts.circuit.coils.map((coil) =>
      coils.some(({ id }) => id === coil.id) ? { ...coil, start: coil.finish, finish: coil.start } : coil,
    ),
  };
  const states = facts.states.map(({ inside }) => inside.state);
  return factsOf(turned, states, facts.reference?.id);
}

function troubleOfSwapping({ facts, wanted, titleOf }: Checked, coils: readonly Coil[]): string {
  const live = facts.circuit.metal.find(({ lug, what }) => what !== "case" && coils.some(({ start }) => start === lug));
  if (live) return `${live.name} would be live, for it is joined to ${live.lug}`;
  const after = swapped({ facts, wanted, titleOf }, coils);
  for (const { inside, hum, humDb } of after.states) {
    const wish = wanted.get(inside.state.id)?.hum ?? "hums";
    if (hum && humDb && ORDER.indexOf(hum) > ORDER.indexOf(wish))
      return `${titleOf(inside.state.id)} would hum, ${signed(Math.max(...humDb))} dB against ${facts.reference?.name} alone`;
  }
  return "";
}

function signed(dB: number): string {
  return `${dB < 0 ? "−" : "+"}${Math.abs(dB).toFixed(1)}`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
