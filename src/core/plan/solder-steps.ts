/** Steps of the soldering: one a group of joints, each closed by the reading that proves it. Rules: docs/spec/wiring.md. */
import { type Phrase, say } from "../quantity/index.ts";
import { CONTACT_OHMS, type Joint, type Proof, type SolderGroup, shownOhms } from "../wiring/index.ts";
import { type Draft, draft, slug, tool, value } from "./draft.ts";
import type { AskedReading, PlanCoil, PlanInput } from "./types.ts";

/** One way or the other: no reading lies between. */
const KICK_TOLERANCE = 0.5;
/** A reading of "open" is entered as this: the meter shows OL. */
const OPEN_OHMS = 20e6;

/** Ohms and direction of one coil, before anything is joined to it. */
export function coilReadings(coil: PlanCoil): readonly AskedReading[] {
  const { id, name, start, finish, ohms, kick } = coil;
  return [
    value(slug("map", id, "ohms"), `coils.${slug(id)}.ohms`, {
      what: say`${name}: ohms between ${start} and ${finish}`,
      tool: "ohmmeter",
      how: say`Nothing joined to it; fingers off the metal; wait until the figure stands.`,
      unit: "Ω",
      ...(ohms === undefined ? {} : { expected: ohms }),
    }),
    value(slug("map", id, "kick"), `coils.${slug(id)}.kick`, {
      what: say`${name}: which way it kicks, 1 for up, -1 for down`,
      tool: "eye",
      how: say`Meter on DC millivolts, red on ${finish}, black on ${start}: lower a steel screwdriver to its poles.`,
      unit: "",
      ...(kick === undefined || kick === 0 ? {} : { expected: { value: kick, tolerance: KICK_TOLERANCE } }),
    }),
  ];
}

/** All groups but the last, which is the step that makes the wiring one. */
export function solderSteps(input: PlanInput): readonly Draft[] {
  const groups = input.solder ?? [];
  return groups.slice(0, -1).map((group, index) =>
    draft(input, {
      id: slug("wire", group.id),
      kind: "wire",
      target: `wiring ${index + 1}`,
      title: say`Solder: ${group.title}`,
      tools: [tool(say`iron, solder, cutter`), tool(say`ohmmeter`), tool(say`a well-ventilated place`)],
      instructions: instructionsOf(group),
      readings: readingsOf(group),
    }),
  );
}

const GENERAL: readonly Phrase[] = [
  say`Tin both ends, hold still, short heat.`,
  say`Tick each wire on the sheet as you do it.`,
  say`Pull at each joint once it is cold.`,
];

export function lastSolderReadings(input: PlanInput): Pick<Draft, "instructions" | "readings"> {
  const last = input.solder?.at(-1);
  return last
    ? { instructions: instructionsOf(last), readings: readingsOf(last) }
    : { instructions: GENERAL, readings: [] };
}

function instructionsOf(group: SolderGroup): Phrase[] {
  const cases = group.joints.some(({ lug }) => lug.endsWith(".case"));
  return [
    ...group.wires.map(({ id, from, to, colour }) => say`${id}: ${from} to ${to}${colour ? `, ${colour}` : ""}.`),
    ...group.joints.filter(({ act }) => act === "hook").map(hooked),
    ...(cases
      ? [say`Cases: scratch them bright, tin a patch with a hot iron in three seconds, then set the wires in it.`]
      : []),
    ...(group.kind === "pickup" ? [say`Leave 40 mm of slack; tubing over the leads before they are soldered.`] : []),
    say`Tin both ends, hold still, short heat; pull at each joint once it is cold.`,
  ];
}

function hooked({ lug, until }: Joint): Phrase {
  return say`${lug}: hook and squeeze, do not solder yet: more comes with "${until ?? ""}".`;
}

function readingsOf(group: SolderGroup): AskedReading[] {
  return group.proofs.map((proof, index) =>
    value(slug("proof", group.id, String(index + 1)), `bench.proof.${slug(group.id)}-${index + 1}.ohms`, {
      what: say`${proof.points[0]} to ${proof.points[1]}`,
      tool: "ohmmeter",
      how: howOf(proof),
      unit: "Ω",
      expected: expectedOf(proof),
    }),
  );
}

function howOf({ stateTitle, expected, wrong }: Proof): Phrase {
  const stand = stateTitle === "" ? "" : `${stateTitle.charAt(0).toUpperCase()}${stateTitle.slice(1)}. `;
  const open = Number.isFinite(expected.ohms) ? "" : `"OL" is entered as ${shownOhms(OPEN_OHMS)}. `;
  return say`${stand}${open}If it is wrong: ${wrong.join("; ")}.`;
}

function expectedOf({ expected }: Proof): { readonly value: number; readonly tolerance: number } {
  if (!Number.isFinite(expected.ohms)) return { value: OPEN_OHMS, tolerance: OPEN_OHMS / 2 };
  if (expected.high <= CONTACT_OHMS) return { value: CONTACT_OHMS / 2, tolerance: CONTACT_OHMS / 2 };
  return { value: expected.ohms, tolerance: (expected.high - expected.low) / 2 };
}
