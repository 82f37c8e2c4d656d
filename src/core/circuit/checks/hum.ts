/** Checks of hum, and of signs that nobody knows. */
import { factsOf } from "../facts.ts";
import type { Check, Finding } from "./finding.ts";
import { splitSwapped } from "./split.ts";

const ORDER = ["quiet", "partly quiet", "hums"] as const;

export const hums: Check = ({ facts, wanted, titleOf }) =>
  facts.states.flatMap(({ inside, hum, humDb, heard }): Finding[] => {
    const { id } = inside.state;
    const wish = wanted.get(id)?.hum;
    if (!wish || !hum || !humDb || ORDER.indexOf(hum) <= ORDER.indexOf(wish)) return [];
    const worst = Math.max(...humDb);
    return [
      {
        kind: "hums",
        grade: "fault",
        states: [id],
        lugs: heard.flatMap(({ coil }) => [coil.start, coil.finish]),
        what: `${titleOf(id)} is ${hum === "hums" ? "not quiet: it hums" : "only partly quiet"}, ${worst < 0 ? "−" : "+"}${Math.abs(worst).toFixed(1)} dB against ${facts.reference?.name ?? "one coil"} alone`,
        why: `${heard.map(({ coil, humSign }) => `${coil.name} ${humSign === 1 ? "+" : "−"}`).join(", ")}: ${hum === "hums" ? "signs that do not cancel" : "signs cancel, levels do not"}`,
        remedy: humRemedy(facts, id, hum),
      },
    ];
  });

/** Whether the other coil of a split pickup would make the state quiet. */
function humRemedy(facts: Parameters<Check>[0]["facts"], state: string, hum: string): string {
  const one = facts.states.find(({ inside }) => inside.state.id === state);
  for (const { coil } of one?.heard ?? []) {
    const other = one && splitSwapped(one.inside.circuit, one.inside.state, coil);
    if (!other) continue;
    const after = factsOf(other.circuit, [one.inside.state], facts.reference?.id).states[0];
    if (after?.hum === "quiet" && after.phases.every(({ inPhase }) => inPhase !== false))
      return `Keep ${other.kept} instead of ${coil.name}: join that pickup the other way round inside (${other.how})`;
  }
  return hum === "partly quiet"
    ? "Take coils with turns and areas that are nearer to each other"
    : "Keep the other coil, or turn one coil and its magnets round";
}

/** Signs that decide a state and that nobody has read. */
export const signsNotKnown: Check = ({ facts, wanted }) =>
  facts.circuit.coils.flatMap((coil): Finding[] => {
    const shared = facts.states.filter(({ heard }) => heard.length > 1 && heard.some((one) => one.coil.id === coil.id));
    if (shared.length === 0) return [];
    const kick = coil.kick === undefined;
    const winding =
      coil.winding === undefined && shared.some(({ inside }) => wanted.get(inside.state.id)?.hum !== undefined);
    if (!kick && !winding) return [];
    return [
      {
        kind: "signs not known",
        grade: "caution",
        states: shared.map(({ inside }) => inside.state.id),
        lugs: [coil.start, coil.finish],
        what: `${coil.name}: ${kick ? "which way it kicks" : "its winding"} is not known`,
        why: kick
          ? "Whether it is in phase with the others cannot be said; ohms do not tell"
          : "Whether it cancels hum with the others cannot be said",
        remedy: kick
          ? `Meter on DC millivolts, red on ${coil.finish}, black on ${coil.start}: lower steel to its poles and see which way it kicks`
          : "Find which pole of its magnet is up with a compass: with the kick that gives the winding",
      },
    ];
  });
