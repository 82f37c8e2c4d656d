/** The drawing of a job's wiring, put together from its layout, its names and the ways of the signal. */
import { wayBetween } from "../circuit/index.ts";
import type { Page } from "../drawing/index.ts";
import type { Wiring } from "../job/index.ts";
import { valueOr } from "../quantity/index.ts";
import { type WiringCheck, wiringCheck } from "./check.ts";
import { plateLayout } from "./plate-layout.ts";
import { type PlatePicture, platePicture } from "./plate-picture.ts";
import { type SignalPicture, signalPicture } from "./signal-picture.ts";
import { signalPlan } from "./signal-plan.ts";
import { shownOhms, solderGroups } from "./soldering.ts";
import { wireNames } from "./wire-names.ts";

/** @param state whose signal is to stand out; left out: none */
export function drawWiring(wiring: Wiring, state?: string): PlatePicture {
  const names = wireNames(solderGroups(wiring));
  const check = state === undefined ? undefined : wiringCheck(wiring);
  return platePicture(plateLayout(wiring), {
    names,
    about: aboutDevices(wiring),
    ...(check && state !== undefined ? { strong: wiresOfSignal(check, state) } : {}),
  });
}

/** As a page of its own, as large as the plate. */
export function wiringPage(wiring: Wiring, title: string, state?: string): Page {
  const { widthMm, heightMm, groups } = drawWiring(wiring, state);
  const stands = wiring.states.find(({ id }) => id === state)?.title;
  return {
    id: "wiring",
    title: `Wiring of ${title}, seen from behind`,
    description: `Control plate from behind, as it lies on the bench, 1:1. Lines that cross are not joined.${stands === undefined ? "" : ` Wide lines carry the signal of ${stands}.`}`,
    widthMm,
    heightMm,
    factors: { across: 1, down: 1 },
    groups,
  };
}

/** The signal of a state as a page of its own; undefined where series and parallel do not make it. */
export function signalPage(wiring: Wiring, check: WiringCheck, state: string): Page | undefined {
  const picture = signalOf(wiring, check, state);
  if (!picture) return undefined;
  const title = wiring.states.find(({ id }) => id === state)?.title ?? state;
  return {
    id: `signal-${state}`,
    title: `Signal of ${title}`,
    description: "Coils that are heard, the way to the tip, and what hangs on it; symbols of IEC 60617.",
    widthMm: picture.widthMm,
    heightMm: picture.heightMm,
    factors: { across: 1, down: 1 },
    groups: picture.groups,
  };
}

export function signalOf(wiring: Wiring, { facts, states }: WiringCheck, state: string): SignalPicture | undefined {
  const at = states.findIndex(({ id }) => id === state);
  const [one, check] = [facts.states[at], states[at]];
  const plan = one && signalPlan(one);
  return plan && check && signalPicture(plan, `${check.title}: ${check.sound}`, valuesOf(wiring));
}

function valuesOf({ tracks, components }: Wiring): Map<string, string> {
  return new Map([
    ...tracks.map(
      ({ id, ohms, taper }) => [id, `${ohms.known ? shownOhms(ohms.value) : "? Ω"} ${taper.kind}`] as const,
    ),
    ...components.map(
      ({ id, kind, value }) =>
        [id, value.known ? (kind === "capacitor" ? shownFarads(value.value) : shownOhms(value.value)) : "?"] as const,
    ),
  ]);
}

/** Wires on the way from each coil that is heard to the tip, and from its other end to the sleeve. */
export function wiresOfSignal({ facts, states }: WiringCheck, id: string): ReadonlySet<string> {
  const one = facts.states[states.findIndex((state) => state.id === id)];
  const found = new Set<string>();
  if (!one) return found;
  const { circuit, state } = one.inside;
  const { tip, sleeve } = circuit.jack;
  for (const { coil } of one.heard)
    for (const lug of [coil.start, coil.finish])
      for (const end of [tip, sleeve]) {
        const way = wayBetween(circuit, state, lug, end);
        for (const { id: wire, from, to } of circuit.wires)
          if (way.some((step, index) => isStep(step, way[index + 1], from, to))) found.add(wire);
        // Coil to coil: the joint between them lies on no way to the jack.
        for (const { id: wire, from, to } of circuit.wires) if (from === lug || to === lug) found.add(wire);
      }
  return found;
}

function isStep(step: string, next: string | undefined, from: string, to: string): boolean {
  return (step === from && next === to) || (step === to && next === from);
}

function aboutDevices({ tracks, components, coils, devices }: Wiring): Map<string, string> {
  const about = new Map<string, string>();
  for (const { control, ohms, taper } of tracks) {
    const words = `${ohms.known ? shownOhms(ohms.value) : "? Ω"}\n${taper.kind}`;
    if (!about.has(control)) about.set(control, words);
  }
  for (const { id, kind, value } of components)
    about.set(id, value.known ? (kind === "capacitor" ? shownFarads(valueOr(value, 0)) : shownOhms(value.value)) : "?");
  for (const { id, name } of devices.filter(({ kind }) => kind === "pickup")) {
    const mine = coils.filter(({ pickup }) => pickup === id);
    const lines = mine.map(
      ({ name: coil, start, finish }) => `${coil}: ${start.split(".")[1]} → ${finish.split(".")[1]}`,
    );
    about.set(id, lines.length === 0 ? name : lines.join("\n"));
  }
  return about;
}

function shownFarads(farads: number): string {
  return farads >= 1e-9
    ? `${Number((farads * 1e9).toPrecision(3))} nF`
    : `${Number((farads * 1e12).toPrecision(3))} pF`;
}
