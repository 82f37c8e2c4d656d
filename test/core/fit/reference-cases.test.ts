import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  findThread,
  lateralLead,
  leadFractionByBotany,
  leadHole,
  numberedSizeMm,
  pullOut,
  rootMm,
  screwSpacing,
  taperRatio,
  threadGeometry,
  woodScrew,
} from "../../../src/core/fit/index.ts";
import { SET_UP_FIGURES } from "../../../src/data/set-up-figures.ts";
import { COMPONENT_HOLES, PANEL_SHAFTS, SPLIT_SHAFTS } from "../../../src/data/shafts.ts";
import { findWood, WOODS } from "../../../src/data/woods.ts";

interface Case {
  readonly id: string;
  readonly topic: string;
  readonly inputs: Readonly<Record<string, number | string | readonly number[]>>;
  readonly expected: Readonly<Record<string, number | string | boolean | null | readonly (number | string)[]>>;
  readonly tolerance: number | Readonly<Record<string, number>>;
  readonly read: "read" | "derived" | "from memory" | "common practice";
}

const CASES: readonly Case[] = JSON.parse(
  readFileSync(new URL("../../reference/fit/cases.json", import.meta.url), "utf8"),
);

const MM_PER_INCH = 25.4;
const N_PER_LBF = 4.4482216152605;

function num(value: unknown): number {
  if (typeof value !== "number") throw new Error(`expected a number in the case, got ${String(value)}`);
  return value;
}

/** The program's answer under the names of the case. */
const ANSWERS: Readonly<Record<string, (inputs: Case["inputs"]) => Record<string, unknown>>> = {
  thread: (inputs) => {
    if (inputs.gauge !== undefined) return { major_in: numberedSizeMm(num(inputs.gauge)) / MM_PER_INCH };
    const thread = findThread(String(inputs.thread));
    if (!thread) throw new Error(`no thread ${inputs.thread}`);
    const geometry = threadGeometry(thread);
    return {
      pitch_mm: thread.pitchMm,
      major_mm: thread.majorMm,
      major_in: thread.majorMm / MM_PER_INCH,
      pitch_diameter_mm: geometry.pitchDiameterMm,
      pitch_diameter_in: geometry.pitchDiameterMm / MM_PER_INCH,
      minor_internal_mm: geometry.minorInternalMm,
      minor_internal_in: geometry.minorInternalMm / MM_PER_INCH,
    };
  },
  "wood screw": (inputs) => {
    const screw = woodScrew(num(inputs.gauge));
    const shankMm = screw.shankMm;
    const root = inputs.rule === "root = 2/3 shank" ? rootMm({ shankMm, rule: "two thirds" }) : undefined;
    return {
      shank_mm: shankMm,
      shank_in: shankMm / MM_PER_INCH,
      tpi: MM_PER_INCH / screw.pitchMm,
      major_range_in: screw.majorRangeMm?.map((mm) => mm / MM_PER_INCH),
      root_mm: root ?? rootMm({ shankMm, rule: "chart" }),
      root_in: rootMm({ shankMm, rule: "chart" }) / MM_PER_INCH,
    };
  },
  "lead hole": (inputs) => {
    const shankMm = woodScrew(num(inputs.gauge)).shankMm;
    if (inputs.root_mm !== undefined) {
      // The case gives the fraction of dense wood: the density rule must come to the same.
      expect(leadHole({ rootMm: 1, gravity: 0.65 }).ruleFraction).toBe(inputs.fraction);
      return { lead_mm: leadHole({ rootMm: num(inputs.root_mm), gravity: 0.65 }).leadMm };
    }
    const root = rootMm({ shankMm, rule: "two thirds" });
    return { lead_mm: root * leadFractionByBotany(inputs.wood === "softwood" ? "softwood" : "hardwood") };
  },
  "lead hole rule": (inputs) => {
    const gravity = num(inputs.specific_gravity);
    if (inputs.load === "lateral") {
      const shankMm = woodScrew(num(inputs.gauge)).shankMm;
      const lead = lateralLead({ shankMm, rootMm: 1, gravity });
      return { shank_hole_mm: lead.shankHoleMm, thread_hole_fraction_of_root: lead.threadHoleMm };
    }
    const lead = leadHole({ rootMm: 1, gravity });
    return { fraction_of_root: lead.ruleFraction ?? null, lead_hole_required: lead.required };
  },
  "specific gravity": (inputs) => ({ G: findWood(String(inputs.wood))?.gravity }),
  withdrawal: (inputs) => {
    if (inputs.ultimate_constant !== undefined) {
      const load = pullOut({ gravity: 0.5, shankMm: 3, heldMm: 10 });
      return { ratio: load.ultimateN / load.workingN };
    }
    const shankMm = inputs.D_mm !== undefined ? num(inputs.D_mm) : num(inputs.D_in) * MM_PER_INCH;
    const heldMm = inputs.L_mm !== undefined ? num(inputs.L_mm) : num(inputs.L_in ?? 1) * MM_PER_INCH;
    const load = pullOut({ gravity: num(inputs.G), shankMm, heldMm });
    return {
      p_N: load.ultimateN,
      p_lbf: load.ultimateN / N_PER_LBF,
      F_lbf_per_in: (load.workingN / N_PER_LBF / heldMm) * MM_PER_INCH,
    };
  },
  "edge distance": (inputs) => {
    const spacing = screwSpacing(num(inputs.D_mm));
    return {
      edge_mm: spacing.edgeMm,
      end_mm: spacing.endMm,
      spacing_along_grain_mm: spacing.alongGrainMm,
      spacing_across_grain_mm: spacing.acrossGrainMm,
    };
  },
  "component bore": (inputs) => {
    if (inputs.shaft_mm !== undefined) {
      return { bushings: PANEL_SHAFTS.find((row) => row.shaftMm === inputs.shaft_mm)?.bushings };
    }
    if (inputs.bushing !== undefined) {
      const thread = findThread(String(inputs.bushing));
      return { major_mm: thread?.majorMm, pitch_mm: thread?.pitchMm };
    }
    if (inputs.in !== undefined) return { mm: num(inputs.in) * MM_PER_INCH };
    if (inputs.shaft !== undefined) {
      const split = SPLIT_SHAFTS.find((row) => (row.name === "fine") === String(inputs.shaft).startsWith("0.235"));
      return { shaft_mm: split?.shaftMm, teeth_on_shaft: split?.teethOnShaft, knob_splines: split?.knobSplines };
    }
    return { hole_mm: COMPONENT_HOLES.find((row) => row.part === inputs.part)?.holeMm };
  },
  "set-up": (inputs) => setUp(inputs),
  taper: (inputs) => {
    const ohms = num(inputs.R_ohm);
    const positions = inputs.positions_0to10 as readonly number[];
    return {
      R_low_ohm: positions.map(
        (at) => ohms * taperRatio({ taper: "audio", atHalf: num(inputs.mid), clockwise: at / 10 }),
      ),
    };
  },
};

const SET_UP_BY_CASE: Readonly<Record<string, keyof typeof SET_UP_FIGURES>> = {
  relief: "relief",
  "relief, upper limit": "reliefLimit",
  "relief-typical": "reliefUsual",
  "clearance over first fret, plain strings": "overFret1Plain",
  "clearance over first fret, wound strings": "overFret1Wound",
  "action-12-treble": "action12Treble",
  "action-12-bass": "action12Bass",
  "pickup-bridge-gap": "pickupGapBridge",
  "pickup-neck-gap": "pickupGapNeck",
};

function setUp(inputs: Case["inputs"]): Record<string, unknown> {
  if (inputs.in_64ths !== undefined) return { mm: (num(inputs.in_64ths) * MM_PER_INCH) / 64 };
  const name = SET_UP_BY_CASE[String(inputs.item)];
  if (!name) throw new Error(`no set-up figure for ${inputs.item}`);
  const { lowMm, highMm } = SET_UP_FIGURES[name];
  const one = lowMm === highMm || name === "reliefLimit";
  return { mm: one ? highMm : [lowMm, highMm], in: highMm / MM_PER_INCH };
}

/** An inch root from a chart with three digits is compared to half its last digit. */
function toleranceFor(test: Case, field: string): number {
  if (typeof test.tolerance === "number") return field === "root_in" ? 0.0005 : Math.max(test.tolerance, 1e-9);
  const relative = test.tolerance.rel;
  if (relative !== undefined) return 1e-6;
  return test.tolerance[field] ?? 1e-9;
}

function compare(test: Case): void {
  const answer = ANSWERS[test.topic];
  if (!answer) throw new Error(`no answer for topic ${test.topic}`);
  const actual = answer(test.inputs);
  for (const [field, expected] of Object.entries(test.expected)) {
    const got = actual[field];
    const wanted = Array.isArray(expected) ? expected : [expected];
    const seen = Array.isArray(got) ? got : [got];
    wanted.forEach((value, index) => {
      const mine = seen.length === 1 ? seen[0] : seen[index];
      if (typeof value !== "number") expect(mine, field).toBe(value);
      else expect(Math.abs(num(mine) - value), `${field}: ${num(mine)}`).toBeLessThanOrEqual(toleranceFor(test, field));
    });
    if (Array.isArray(expected)) expect(seen.length === 1 ? wanted.length : seen.length, field).toBe(wanted.length);
  }
}

const HARD = CASES.filter((test) => test.read === "read" || test.read === "derived");
const SOFT = CASES.filter((test) => test.read === "from memory" || test.read === "common practice");

describe("figures read in a source or derived from one", () => {
  it.each(HARD.map((test) => [test.id, test] as const))("%s", (_id, test) => compare(test));
});

describe("figures from memory or common practice (soft)", () => {
  const nds = SOFT.filter((test) => test.id.endsWith("-root-nds"));
  const others = SOFT.filter((test) => !test.id.endsWith("-root-nds"));
  it.each(others.map((test) => [test.id, test] as const))("%s", (_id, test) => compare(test));
  it.each(nds.map((test) => [test.id, test] as const))("%s", (_id, test) => {
    const root = rootMm({ shankMm: woodScrew(num(test.inputs.gauge)).shankMm, rule: "nds" });
    expect(Math.abs(root / MM_PER_INCH - num(test.expected.root_in))).toBeLessThan(0.0005);
  });
});

it("every case is asked", () => {
  expect(HARD.length + SOFT.length).toBe(CASES.length);
  expect(CASES.length).toBe(100);
});

it("every wood lies inside its own span", () => {
  for (const wood of WOODS) {
    expect(wood.low).toBeLessThanOrEqual(wood.gravity);
    expect(wood.high).toBeGreaterThanOrEqual(wood.gravity);
  }
});
