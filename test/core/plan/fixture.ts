/** Verdicts and jobs for tests of the plan, after demo A (its invented figures). */
import type { PlanInput, ToFit } from "../../../src/core/plan/index.ts";
import { mm, say } from "../../../src/core/quantity/index.ts";
import type { Verdict, Work } from "../../../src/core/verdict/index.ts";
import { makeInstrument } from "../job/fixture.ts";

export function makeVerdict(id: string, change: Partial<Verdict> = {}): Verdict {
  return {
    id,
    question: `Does ${id} hold?`,
    status: "go",
    headline: say`spare ${mm(0.5)}`,
    detail: [],
    probability: 0.98,
    margin: { value: 0.5, unit: "mm", u: 0.2 },
    stake: 3,
    remedies: [],
    work: [],
    sums: [],
    shares: [],
    missing: [],
    figures: {},
    ...change,
  };
}

const NEW_Y = [-21, -10.5, 0, 10.5, 21];

export const WORKS = {
  plug: {
    act: "plug",
    diameter: 6,
    cause: "bridge.holes",
    holes: [-20, -10, 0, 10, 20].map((y, index) => ({
      id: `old-screws#${index + 1}`,
      u: 201.5,
      y,
      diameter: 3.2,
      depth: 22,
    })),
  },
  drill: {
    act: "drill",
    group: "bridge-screws",
    intoPlugs: true,
    holes: NEW_Y.map((y, index) => ({
      id: `bridge-screws#${index + 1}`,
      u: 204.9,
      y,
      diameter: 2.5,
      thread: 3,
      depth: 24,
    })),
  },
  ears: { act: "rout", cavity: "bridge", what: "ears", lengthBy: 2, widthBy: 2.5, depthBy: 0 },
  spotFace: { act: "spot-face", where: "control.volume", depth: 2, leaves: 5 },
  ream: { act: "ream", where: "volume", count: 1, from: 8, to: 9.6 },
  reamTuners: { act: "ream", where: "tuners", count: 6, from: 8.8, to: 10 },
  slot: { act: "slot", where: "lever", from: 26, to: 30.5, screwOffset: 23, cover: "escutcheon" },
  shim: { act: "shim", thickness: 0.9, length: 76, angleDegrees: 0.54 },
  nut: {
    act: "nut slots",
    widths: [0.38, 0.51, 0.66, 0.96, 1.27, 1.63].map((to, index) => ({ string: index + 1, from: to - 0.1, to })),
  },
  insulate: { act: "insulate", where: "lever" },
  bare: { act: "bare contact", where: "under the plate" },
  choose: { act: "choose", what: "wound or plain third" },
  buy: { act: "buy", what: "escutcheon", spec: "62 x 18" },
} as const satisfies Record<string, Work>;

export const EVERYTHING: ToFit = {
  neck: true,
  bridge: true,
  pickups: ["neck", "middle", "bridge"],
  controls: ["volume", "treble-cut", "bass-cut"],
  lever: true,
  tuners: true,
  foil: ["neck", "middle", "bridge", "controls"],
  strings: "Deep Six",
  template: "bridge-sheet",
};

/** Demo A's verdicts with their work, as the questions give them. */
export function demoVerdicts(): readonly Verdict[] {
  const rework = (id: string, ...work: Work[]): Verdict => makeVerdict(id, { status: "rework", work });
  return [
    rework("bridge.holes", WORKS.plug, WORKS.drill),
    makeVerdict("bridge.window"),
    rework("bridge.ground", WORKS.bare),
    rework("pickup.bridge.ears", WORKS.ears),
    rework("control.volume.bushing", WORKS.spotFace),
    rework("control.volume.hole", WORKS.ream),
    rework("lever.slot", WORKS.slot, WORKS.buy),
    rework("lever.width", WORKS.insulate),
    rework("tuners.hole", WORKS.reamTuners),
    rework("nut.slots", WORKS.nut),
    rework("strings.third", WORKS.choose),
  ];
}

export function makeInput(change: Partial<PlanInput> = {}): PlanInput {
  return { instrument: makeInstrument(), verdicts: demoVerdicts(), toFit: EVERYTHING, ...change };
}
