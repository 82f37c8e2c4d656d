/** A split pickup turned round inside: the coil that is left is then the other one, and everything else stays. */
import type { Circuit, Coil, State } from "../physical.ts";

/**
 * The pickup's two coils take each other's places, each turned round so that the pickup as a whole keeps its phase.
 *
 * @returns undefined where the pickup has no second coil
 */
export function splitSwapped(
  circuit: Circuit,
  _state: State,
  kept: Coil,
): { readonly circuit: Circuit; readonly kept: string; readonly how: string } | undefined {
  const others = circuit.coils.filter(({ pickup, id }) => pickup === kept.pickup && id !== kept.id);
  const [other] = others;
  if (!other || others.length !== 1) return undefined;
  // Same kicks: first and second change places end for end. Unlike kicks: each is turned as it changes.
  const turned = kept.kick !== undefined && other.kick !== undefined && kept.kick !== other.kick;
  const place = (coil: Coil, at: Coil): Coil => ({
    ...coil,
    start: turned ? at.finish : at.start,
    finish: turned ? at.start : at.finish,
  });
  return {
    circuit: {
      ...circuit,
      coils: circuit.coils.map((coil) =>
        coil.id === kept.id ? place(kept, other) : coil.id === other.id ? place(other, kept) : coil,
      ),
    },
    kept: other.name,
    how: turned
      ? `${other.finish} where ${kept.start} is and ${other.start} where ${kept.finish} is, and the other way about`
      : `${other.start} where ${kept.start} is and ${other.finish} where ${kept.finish} is, and the other way about`,
  };
}
