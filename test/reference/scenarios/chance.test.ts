import { describe, expect, it } from "vitest";
import { example, figureOf, verdictsOf } from "../../core/questions/jobs.ts";
import { type DrawnPlate, sharesThatHold } from "./draws.ts";

/**
 * The chance of a place, drawn a million times on plain arrays (draws.ts) from the demo jobs' printed dimensions and
 * doubts: rule 0.25 a reading, so 0.46 for the line by nut, fret 12 and heel (0.25, 0.25 and 0.30); transfer 0.15; plate
 * laid on 0.10; calliper 0.05; trial 0.5 cent, so 0.20 and 0.25 a setback; hand drill 0.45, press 0.15, self-centring
 * bit 0.10. The program promises 0.3 %; asked for here is 1 %, and the draws themselves stray by 0.05 %.
 */
const DRAWS = 1_000_000;
const CENT = Math.LN2 / 1200;

const lowtide: DrawnPlate = {
  line: 182,
  place: 170.9,
  setbacks: [5.3, 9.4, 5.3, 7.5, 8.2, 10.7].map((cents) => cents * 690 * CENT),
  setbackU: 0.5 * 690 * CENT,
  from: [11.5, 11.5, 11.5, 13, 13, 13],
  to: [16, 16, 16, 18, 18, 18],
  reserve: 0.5,
  newHoles: [],
  newRadius: 0,
  newLimit: 0.05,
  // Plugged first: no wall to them is left to hold.
  oldHoles: [],
  oldRadius: 0,
  wall: 0,
  oldAcrossU: 0,
  oldRadiusU: 0,
  travelLimit: 0.05,
};

const ferry: DrawnPlate = {
  line: 864,
  place: 848.5,
  setbacks: [4.0, 5.4, 6.4, 9.3].map((cents) => cents * 864 * CENT),
  setbackU: 0.5 * 864 * CENT,
  from: Array<number>(4).fill(8),
  to: Array<number>(4).fill(24),
  reserve: 0.5,
  newHoles: [
    [895.5, -20],
    [895.5, 0],
    [895.5, 20],
    [906.5, -10],
    [906.5, 10],
  ],
  newRadius: 1.75,
  newLimit: 0.05,
  oldHoles: [
    [901, -22],
    [901, -11],
    [901, 0],
    [901, 11],
    [901, 22],
  ],
  oldRadius: 1.7,
  wall: 1.5,
  oldAcrossU: 0.05,
  oldRadiusU: 0.025,
  travelLimit: 0.05,
};

const CHAIN_U = Math.hypot(0.25, 0.25, 0.3);
const MEASURING = [
  { key: "Rule", lineU: CHAIN_U, oldRowU: 0.25 },
  { key: "Transfer", lineU: 0.15, oldRowU: 0.1 },
];
const DRILLING = [
  { key: "HandDrill", drillU: 0.45 },
  { key: "DrillPress", drillU: 0.15 },
  { key: "SelfCentring", drillU: 0.1 },
];
const WAYS = MEASURING.flatMap(({ key: measured, ...how }) =>
  DRILLING.map(({ key: drilled, drillU }) => ({ name: `p${measured}${drilled}`, ...how, drillU })),
);

describe.each([
  ["lowtide", lowtide],
  ["ferry", ferry],
] as const)("%s", (name, plate) => {
  const place = verdictsOf(example(name)).get("bridge.place");
  const drawn = sharesThatHold(plate, WAYS, DRAWS, 20_261_125);

  it.each(WAYS.map((way, index) => ({ ...way, index })))("$name agrees with a million plain draws", (way) => {
    expect(Math.abs(figureOf(place, way.name) - (drawn[way.index] ?? Number.NaN))).toBeLessThan(0.01);
  });

  it("gives the chance of the way that the job has chosen: transfer and hand drill", () => {
    const chosen = drawn[WAYS.findIndex((way) => way.name === "pTransferHandDrill")];
    expect(Math.abs((place?.probability ?? Number.NaN) - (chosen ?? Number.NaN))).toBeLessThan(0.01);
  });
});
