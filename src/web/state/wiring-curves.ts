/**
 * Response curves of a wiring's states while somebody plays with shafts, cable and input: nothing here is written to a
 * job. Only what is shown is worked out, and only what a move has changed.
 */
import { type Curve, type InState, inState, LEVEL_HZ, type Load } from "../../core/circuit/index.ts";
import type { WiringReport } from "../../core/index.ts";
import { stateCurve } from "../../core/wiring/index.ts";

/** Dashes and gaps that are told apart at a glance: continuous, dashed, dotted, long-dashed dotted. */
export const CURVE_LINES = ["none", "12 5", "2.5 4", "22 4 2.5 4"] as const;
const FULL_TURN = 10;

export const CABLE_PF = { least: 100, most: 1500, step: 10 } as const;
export const INPUT_OHMS = { least: 25e3, most: 10e6 } as const;
/** Steps of the slider of the input, which goes by ratios. */
export const INPUT_STEPS = 100;

/** What stands on the sliders; what does not stand as the job says. */
export interface Played {
  /** 0 to 10, by track. */
  readonly turns: Readonly<Record<string, number>>;
  readonly cablePf?: number;
  readonly inputOhms?: number;
}

export interface StateLine {
  readonly curve: Curve;
  /** At LEVEL_HZ, where levels are told. */
  readonly levelDb: number;
}

/** A state's line on the drawing; its slot is its line type. */
export interface ShownLine {
  readonly id: string;
  readonly title: string;
  readonly slot: number;
  readonly line: StateLine;
}

/** Draws the curves of one report; keeps what a move leaves as it was. */
export function curveMaker(report: WiringReport) {
  const kept = new Map<string, { readonly key: string; readonly line: StateLine }>();
  const nodes = new Map<string, { readonly key: string; readonly inside: InState }>();
  const insideOf = (id: string, played: Played): InState | undefined => {
    const facts = report.facts.states.find(({ inside }) => inside.state.id === id);
    if (!facts) return undefined;
    const travel = { ...facts.inside.state.travel };
    for (const [track, turn] of Object.entries(played.turns)) travel[track] = turn / FULL_TURN;
    const key = JSON.stringify(travel);
    const before = nodes.get(id);
    if (before?.key === key) return before.inside;
    const inside = inState(report.facts.circuit, { ...facts.inside.state, travel });
    nodes.set(id, { key, inside });
    return inside;
  };
  return (id: string, played: Played, string: number): StateLine | undefined => {
    const inside = insideOf(id, played);
    if (!inside) return undefined;
    const load = loadPlayed(report, played);
    const key = JSON.stringify([inside.state.travel, load.cableFarads, load.inputOhms, string]);
    const before = kept.get(id);
    if (before?.key === key) return before.line;
    const curve = stateCurve({ inside }, load, string);
    const line = { curve, levelDb: levelOf(curve) };
    kept.set(id, { key, line });
    return line;
  };
}

export function loadPlayed({ load }: Pick<WiringReport, "load">, { cablePf, inputOhms }: Played): Load {
  return {
    cableFarads: cablePf === undefined ? load.cableFarads : cablePf * 1e-12,
    inputOhms: inputOhms ?? load.inputOhms,
  };
}

function levelOf({ frequenciesHz, dB }: Curve): number {
  const at = frequenciesHz.findIndex((frequencyHz) => frequencyHz >= LEVEL_HZ);
  return dB[at] ?? 0;
}

/** Where a knob stands in the states shown: as it was moved, else as each of them says; each place once. */
export function turnsShown(
  report: WiringReport,
  played: Played,
  track: string,
  states: readonly string[],
): readonly number[] {
  const moved = played.turns[track];
  if (moved !== undefined) return [moved];
  const said = states.map((id) => {
    const facts = report.facts.states.find(({ inside }) => inside.state.id === id);
    return FULL_TURN * (facts?.inside.state.travel[track] ?? 1);
  });
  return said.length === 0 ? [FULL_TURN] : [...new Set(said)];
}

/** @example inputAtStep(0) // 25000 */
export function inputAtStep(step: number): number {
  const { least, most } = INPUT_OHMS;
  return least * (most / least) ** (step / INPUT_STEPS);
}

/** The step that lies nearest; an open end is the last. */
export function stepOfInput(ohms: number): number {
  const { least, most } = INPUT_OHMS;
  const held = Math.min(most, Math.max(least, ohms));
  return Math.round((INPUT_STEPS * Math.log(held / least)) / Math.log(most / least));
}

/** The place of a drawing of curves in its own units, which are CSS pixels. */
export interface Plot {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export const WIDE_PLOT: Plot = { width: 1040, height: 400, left: 44, right: 110, top: 12, bottom: 34 };
export const NARROW_PLOT: Plot = { width: 358, height: 330, left: 34, right: 74, top: 12, bottom: 34 };

const LOWEST_HZ = 20;
const DECADES = 3;
export const [TOP_DB, FLOOR_DB] = [20, -60];

export function xOf({ width, left, right }: Plot, frequencyHz: number): number {
  return left + ((width - left - right) * Math.log10(frequencyHz / LOWEST_HZ)) / DECADES;
}

export function yOf({ height, top, bottom }: Plot, dB: number): number {
  return top + ((height - top - bottom) * (TOP_DB - dB)) / (TOP_DB - FLOOR_DB);
}

/** The curve as an SVG path, and where it leaves the drawing; "" where it lies wholly below. */
export function curvePath(
  plot: Plot,
  { frequenciesHz, dB }: Curve,
): { readonly path: string; readonly end?: { readonly x: number; readonly y: number } } {
  let path = "";
  let end: { x: number; y: number } | undefined;
  let drawing = false;
  for (const [index, frequencyHz] of frequenciesHz.entries()) {
    const level = dB[index] ?? FLOOR_DB;
    if (level < FLOOR_DB) {
      drawing = false;
      continue;
    }
    const [x, y] = [xOf(plot, frequencyHz), yOf(plot, Math.min(TOP_DB, level))];
    path += `${drawing ? "L" : "M"}${x.toFixed(1)} ${y.toFixed(1)}`;
    drawing = true;
    end = { x, y };
  }
  return end ? { path, end } : { path };
}

/** Heights of labels beside the ends of curves: as near as they may be without lying on one another. */
export function labelHeights(wanted: readonly number[], apart: number, lowest: number): number[] {
  const order = wanted.map((y, index) => ({ y, index })).sort((first, second) => first.y - second.y);
  const placed: number[] = new Array(wanted.length).fill(0);
  let above = Number.NEGATIVE_INFINITY;
  for (const { y, index } of order) {
    above = Math.max(y, above + apart);
    placed[index] = above;
  }
  // What was pushed out at the foot comes up again.
  let below = lowest + apart;
  for (const { index } of order.reverse()) {
    below = Math.min(placed[index] ?? 0, below - apart);
    placed[index] = below;
  }
  return placed;
}
