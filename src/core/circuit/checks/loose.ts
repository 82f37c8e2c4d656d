/** Checks of what is not soldered: conductors left over, poles that nothing uses. */
import type { Check, Finding } from "./finding.ts";

export const looseEnds: Check = ({ facts }) => {
  const { circuit } = facts;
  const soldered = new Set(circuit.wires.flatMap(({ from, to }) => [from, to]));
  return circuit.coils.flatMap(({ name, start, finish }): Finding[] =>
    [start, finish]
      .filter((lug) => !soldered.has(lug))
      .map((lug) => ({
        kind: "loose end",
        grade: "caution",
        states: [],
        lugs: [lug],
        what: `${lug}, of ${name}, goes nowhere`,
        why: "A bare end in the cavity finds the foil sooner or later",
        remedy: "Solder it to its lug; or cap it with tubing, if it is to stay unused",
      })),
  );
};

export const poleNotUsed: Check = ({ facts }) => {
  const { circuit } = facts;
  const soldered = new Set(circuit.wires.flatMap(({ from, to }) => [from, to]));
  return circuit.switches.flatMap(({ id, map }): Finding[] => {
    const poles = new Map<string, string[]>();
    for (const lug of map.lugs) {
      const pole = /^(p\d+)-/.exec(lug)?.[1];
      if (pole) poles.set(pole, [...(poles.get(pole) ?? []), `${id}.${lug}`]);
    }
    return [...poles].flatMap(([pole, lugs]): Finding[] => {
      if (lugs.some((lug) => soldered.has(lug))) return halfUsed(id, pole, lugs, soldered);
      return [
        {
          kind: "pole not used",
          grade: "caution",
          states: [],
          lugs,
          what: `Pole ${pole} of ${id} is not used`,
          why: "It may be what a state still lacks: a split, a reversal, a ground",
          remedy: "Leave it, if every state sounds as wanted",
        },
      ];
    });
  });
};

/** A common without a wire, while its throws have some: the pole does nothing. */
function halfUsed(id: string, pole: string, lugs: readonly string[], soldered: ReadonlySet<string>): Finding[] {
  const common = `${id}.${pole}-c`;
  if (!lugs.includes(common) || soldered.has(common)) return [];
  return [
    {
      kind: "pole not used",
      grade: "fault",
      states: [],
      lugs: [common],
      what: `Pole ${pole} of ${id} has wires on its throws and none on its common, ${common}`,
      why: "Its throws lead nowhere",
      remedy: `Bring ${common} to the output, to ground or to hot, as the pole is meant`,
    },
  ];
}
