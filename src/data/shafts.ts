/**
 * Shafts, knobs, panel bushings and the holes they want.
 *
 * Panel bushings by shaft: data sheet of a panel potentiometer family (2010 and 2015 issues), published.
 * Split shafts: a trade article on knob splines, published (it prints 5.95 mm beside 0.235 in, which is 5.969).
 * Holes for whole parts: common practice, no source.
 */
export interface PanelShaft {
  readonly shaftMm: number;
  /** Names as in data/threads.ts. */
  readonly bushings: readonly string[];
}

export const PANEL_SHAFTS: readonly PanelShaft[] = [
  { shaftMm: 3.2, bushings: ["M7x0.75", "1/4-32 UNEF"] },
  { shaftMm: 4, bushings: ["M7x0.75", "1/4-32 UNEF"] },
  { shaftMm: 4.7, bushings: ["M7x0.75", "3/8-32 UNEF"] },
  { shaftMm: 6, bushings: ["M8x0.75", "3/8-32 UNEF"] },
  { shaftMm: 6.35, bushings: ["M9x0.75", "3/8-32 UNEF"] },
];

export interface SplitShaft {
  readonly name: "coarse" | "fine";
  readonly shaftMm: number;
  /** Teeth left on the shaft, both halves; the slits take the rest of the circle. */
  readonly teethOnShaft: number;
  /** Marks inside the knob, and the number it is sold by. */
  readonly knobSplines: number;
}

export const SPLIT_SHAFTS: readonly SplitShaft[] = [
  { name: "coarse", shaftMm: 6, teethOnShaft: 16, knobSplines: 18 },
  { name: "fine", shaftMm: 5.969, teethOnShaft: 20, knobSplines: 24 },
];

export interface ComponentHole {
  readonly part: string;
  readonly holeMm: readonly [number, number];
}

export const COMPONENT_HOLES: readonly ComponentHole[] = [
  { part: "6.35 mm jack with 3/8 in bushing", holeMm: [9.5, 10] },
  { part: "jack with 12 mm body or cup", holeMm: [12.7, 12.7] },
  { part: "tuner with threaded bushing", holeMm: [10, 10] },
  { part: "tuner with press-in bushing", holeMm: [8, 8.8] },
  { part: "pot with M7 bushing", holeMm: [7.2, 7.5] },
  { part: "pot with M8 bushing", holeMm: [8.2, 8.5] },
  { part: "pot with 3/8 in bushing", holeMm: [9.6, 10] },
];
