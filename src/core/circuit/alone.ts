/** One coil heard without the others: those beside it are cut off, those in series with it are bridged. */
import { LEVEL_HZ, transfersAt } from "./hearing.ts";
import { type Circuit, OPEN_JACK } from "./physical.ts";
import { type InState, inState } from "./state.ts";

/** Below this part of its emf nothing of a coil reaches the jack: its way is cut or shorted. */
const CUT_OFF = 1e-4;
/** So many others are tried in every way, cut off or bridged. */
const MOST_TRIED = 6;

/**
 * The circuit in which one coil is heard alone. The fewest changes that let it through are taken: all others cut off, if
 * that will do.
 *
 * @returns undefined if the coil does not reach the jack in this state
 */
export function aloneIn({ circuit, state }: InState, id: string): InState | undefined {
  const others = circuit.coils.filter((coil) => coil.id !== id).slice(0, MOST_TRIED);
  const alone: Circuit = {
    ...circuit,
    coils: circuit.coils.filter((coil) => coil.id === id),
    pairings: [],
    fixed: circuit.fixed.filter((one) => !one.id.endsWith(":stray")),
  };
  for (let bridged = 0; bridged < 2 ** others.length; bridged += 1) {
    const bridges = others
      .filter((_, place) => Math.floor(bridged / 2 ** place) % 2 === 1)
      .map((coil) => ({ id: `${coil.id}-bridge`, from: coil.start, to: coil.finish }));
    const inside = inState({ ...alone, wires: [...circuit.wires, ...bridges] }, state);
    const [transfer] = transfersAt(inside, OPEN_JACK, LEVEL_HZ);
    if (transfer && Math.hypot(...transfer) > CUT_OFF) return inside;
  }
  return undefined;
}
