import { describe, expect, it } from "vitest";
import { circuitOf } from "../../../src/core/wiring/index.ts";
import { raised, stateOf, wiringOf } from "../../support/wiring.ts";

// Expected figures: the two invented jobs' own tables, worked out by a script apart from this program (derived). Ohms are
// printed to 10 Ω, hum to 0.1 dB, resonances to three digits.
const LOWTIDE = [
  { id: "1", kohms: 12.43, warm: 12.91, hum50: -34.2, hum150: -34.2, sound: "Reef A then Reef B" },
  { id: "2", kohms: 3.12, warm: 3.24, hum50: -29.6, hum150: -26.6, sound: "Eddy with Reef B" },
  {
    id: "3",
    kohms: 4.87,
    warm: 5.06,
    hum50: -37.1,
    hum150: -37.2,
    sound: "(Shoal A then Shoal B) with (Reef A then Reef B)",
  },
  { id: "4", kohms: 6.03, warm: 6.26, hum50: 0, hum150: 0, sound: "Eddy" },
  { id: "5", kohms: 2.42, warm: 2.52, hum50: -39.8, hum150: -37.7, sound: "Shoal B with Eddy" },
  { id: "6", kohms: 7.87, warm: 8.18, hum50: -40.1, hum150: -40.1, sound: "Shoal A then Shoal B" },
];
const HUM = { 50: 0, 60: 1, 150: 2, 180: 3 } as const;

describe("Lowtide as wired", () => {
  const report = wiringOf("lowtide");

  it.each(LOWTIDE)("position $id: $sound, $kohms kΩ, hum $hum50 / $hum150 dB", (row) => {
    const state = stateOf(report, row.id);
    expect(state.sound).toBe(row.sound);
    expect(state.ohms.ohms / 1000).toBeCloseTo(row.kohms, 1.7);
    expect(Math.abs(state.ohms.ohms / 1000 - row.kohms)).toBeLessThanOrEqual(0.005);
    expect(Math.abs(state.warmOhms / 1000 - row.warm)).toBeLessThanOrEqual(0.005);
    expect(Math.abs((state.humDb?.[HUM[50]] ?? 99) - row.hum50)).toBeLessThanOrEqual(0.06);
    expect(Math.abs((state.humDb?.[HUM[150]] ?? 99) - row.hum150)).toBeLessThanOrEqual(0.06);
  });

  it("raises nothing: it is the solution", () => {
    expect(report.findings).toEqual([]);
  });

  it("takes a data sheet's coils as ±5 %, and the pot's tolerance besides", () => {
    const { ohms } = stateOf(report, "4");
    // 6.10 k ±5 % beside 500 k ±20 %: 0.05 × 6.10 × (500/506.1)² + 0.2 × 500 × (6.1/506.1)² kΩ
    const half = 0.05 * 6.1 * (500 / 506.1) ** 2 + 0.2 * 500 * (6.1 / 506.1) ** 2;
    expect((ohms.high - ohms.low) / 2000).toBeCloseTo(half, 6);
  });

  it("takes coils that were read before on the same meter as ±0.5 %", () => {
    const { ohms } = stateOf(
      wiringOf("lowtide", (data) => {
        data.parts.eddy.coils.eddy.ohms = "6.10 k (meter)";
        data.parts["cog-volume"].ohms = "500 k (meter)";
      }),
      "4",
    );
    expect((ohms.high - ohms.low) / 2 / ohms.ohms).toBeCloseTo(0.005, 4);
  });

  // Resonances of the demo with 500 pF, knobs at full, no amplifier: 2.97, 2.13, 3.97 kHz.
  it.each([
    { id: "6", khz: 2.97 },
    { id: "1", khz: 2.13 },
    { id: "4", khz: 3.97 },
  ])("position $id peaks at $khz kHz with 500 pF and no amplifier", ({ id, khz }) => {
    const open = wiringOf("lowtide", (data) => {
      data.wiring.output = { cable: "500 pF", input: "100000 M" };
    });
    const peak = stateOf(open, id).strings[0]?.peak?.frequencyHz ?? 0;
    expect(Math.abs(peak / 1000 - khz)).toBeLessThanOrEqual(0.005);
  });
});

describe("Lowtide's traps", () => {
  const leaflet = (data: { wiring: { wires: Record<string, string> } }) => {
    const { wires } = data.wiring;
    wires["hot-1"] = "bridge.orange to lever.p1-1";
    wires["bridge-ground"] = "bridge.cream to volume.case";
    wires["bridge-middle-a"] = "bridge.brown to lever.p4-2";
    wires["bridge-middle-b"] = "bridge.blue to lever.p4-2";
  };

  it("[A-T11] by the leaflet the split keeps Reef A: in phase, but position 2 hums", () => {
    const report = wiringOf("lowtide", leaflet);
    const state = stateOf(report, "2");
    expect(state.sound).toBe("Eddy with Reef A");
    expect(state.strings[0]?.phase).toBe("in phase");
    expect(Math.abs((state.humDb?.[HUM[50]] ?? 99) - 0.5)).toBeLessThanOrEqual(0.06);
    expect(Math.abs((state.humDb?.[HUM[150]] ?? 99) - 0.6)).toBeLessThanOrEqual(0.06);
    expect(raised(report)).toEqual(["fault: hums"]);
    expect(report.findings[0]?.states).toEqual(["2"]);
    expect(report.findings[0]?.remedy).toMatch(/^Keep Reef B instead of Reef A/);
  });

  it("[A-T11] second best: the junction to the output in 2 is quiet, but Reef A hangs from hot", () => {
    const report = wiringOf("lowtide", (data) => {
      leaflet(data);
      const { wires } = data.wiring;
      // In 2 the junction goes to the output in place of orange, and nothing to ground.
      delete wires["hot-1-2"];
      delete wires["hot-2-3"];
      wires["hot-1-3"] = "lever.p1-1 to lever.p1-3, white";
      wires["bridge-middle-a"] = "bridge.brown to lever.p1-2";
      wires["bridge-middle-b"] = "bridge.blue to lever.p1-2";
    });
    const state = stateOf(report, "2");
    expect(state.sound).toBe("Eddy with Reef B");
    expect(Math.abs((state.humDb?.[HUM[50]] ?? 99) + 28.8)).toBeLessThanOrEqual(0.5);
    expect(Math.abs((state.humDb?.[HUM[150]] ?? 99) + 24.3)).toBeLessThanOrEqual(0.5);
    expect(report.findings.find(({ kind }) => kind === "coil hangs from hot")).toMatchObject({
      states: ["2"],
      lugs: ["bridge.brown"],
    });
  });

  it("[A-T12] hot = start of coil A on both: position 3 out of phase", () => {
    const report = wiringOf("lowtide", (data) => {
      const { wires } = data.wiring;
      leaflet(data);
      wires["neck-hot"] = "neck.grey to lever.p3-3";
      wires["neck-ground"] = "neck.violet to volume.case";
    });
    expect(stateOf(report, "3").strings[0]?.phase).toBe("out of phase");
    expect(report.findings.some(({ kind, states }) => kind === "out of phase" && states.includes("3"))).toBe(true);
  });

  it("[A-T13] colours misread: almost no sound, it hums by 6.7 dB, and ohms are normal", () => {
    const report = wiringOf("lowtide", (data) => {
      // S-F-S-F read for S-F-F-S: what is cream is taken for the finish, blue for the start.
      const { wires } = data.wiring;
      wires["hot-1"] = "bridge.cream to lever.p1-1";
      wires["bridge-middle-b"] = "bridge.blue to lever.p4-2";
    });
    const state = stateOf(report, "1");
    expect(state.sound).toBe("Reef A then Reef B flipped");
    expect(state.strings[0]?.phase).toBe("out of phase");
    expect(Math.abs(state.ohms.ohms / 1000 - 12.43)).toBeLessThanOrEqual(0.005);
    expect(Math.abs((state.humDb?.[HUM[50]] ?? 99) - 6.7)).toBeLessThanOrEqual(0.06);
    const normal = stateOf(wiringOf("lowtide"), "1").strings[0]?.levelDb ?? 0;
    expect(normal - (state.strings[0]?.levelDb ?? 0)).toBeGreaterThan(20);
  });

  it("[A-T13] the direction test is named for each coil whose leads ohms cannot tell", () => {
    const spots = wiringOf("lowtide").blindSpots.filter(({ kind }) => kind === "leads swapped");
    expect(spots.map(({ coil }) => coil)).toEqual(["neck.a", "neck.b", "middle", "bridge.a", "bridge.b"]);
    expect(spots.find(({ coil }) => coil === "bridge.b")?.test).toBe(
      "direction test: red on bridge.blue, black on bridge.cream, steel lowered to its poles: kicks up",
    );
  });

  it("[A-T14] reversing the middle: base plate live, out of phase with both", () => {
    const report = wiringOf("lowtide", (data) => {
      const { wires } = data.wiring;
      wires["middle-hot"] = "middle.grey to lever.p2-2";
      wires["middle-ground"] = "middle.yellow to volume.case";
    });
    expect(report.findings.find(({ kind }) => kind === "metal live")?.what).toMatch(/^base plate of Tern Eddy is live/);
    const phases = report.findings.filter(({ kind }) => kind === "out of phase").flatMap(({ states }) => states);
    expect(phases.sort()).toEqual(["2", "5"]);
  });

  it("[A-T18] bass cut half way: the reading rises by what the pot has there", () => {
    const half = stateOf(
      wiringOf("lowtide", (data) => {
        data.wiring.states["4"].knobs = { "bass-cut": 5 };
      }),
      "4",
    );
    // Reverse audio, 10 % of 1 M between wiper and clockwise lug at half turn.
    expect(Math.abs(half.ohms.ohms - 100e3 - 6026.47)).toBeLessThan(1);
  });

  it("[A-T20] the old middle is only partly quiet with its partners", () => {
    const report = wiringOf("lowtide", (data) => {
      data.wiring.humAgainst = "middle";
      Object.assign(data.parts.eddy.coils.eddy, { ohms: "5.8 k", inductance: "2.3 H", turnArea: 0.72 });
    });
    for (const [id, at50, at150] of [
      ["2", -13.5, -14.2],
      ["5", -16.7, -17.0],
    ] as const) {
      const state = stateOf(report, id);
      expect(state.hum).toBe("partly quiet");
      expect(Math.abs((state.humDb?.[HUM[50]] ?? 99) - at50)).toBeLessThanOrEqual(0.06);
      expect(Math.abs((state.humDb?.[HUM[150]] ?? 99) - at150)).toBeLessThanOrEqual(0.06);
    }
    expect(raised(report)).toEqual(["fault: hums", "fault: hums"]);
  });
});

describe("Ferry as wired", () => {
  const report = wiringOf("ferry");

  it.each([
    { id: "both", kohms: 2.666, hum50: -43.8, hum150: -43.7 },
    { id: "set-1", kohms: 5.13, hum50: -44.1, hum150: -44.0 },
    { id: "set-2", kohms: 5.314, hum50: -44.3, hum150: -44.2 },
  ])("$id: $kohms kΩ, hum $hum50 / $hum150 dB", ({ id, kohms, hum50, hum150 }) => {
    const state = stateOf(report, id);
    expect(Math.abs(state.ohms.ohms / 1000 - kohms)).toBeLessThanOrEqual(0.0005);
    expect(Math.abs((state.humDb?.[HUM[50]] ?? 99) - hum50)).toBeLessThanOrEqual(0.06);
    expect(Math.abs((state.humDb?.[HUM[150]] ?? 99) - hum150)).toBeLessThanOrEqual(0.06);
  });

  it("[B-T5] as delivered: quiet with both on, G and D out of phase, A and E full", () => {
    const both = stateOf(report, "both");
    expect(both.hum).toBe("quiet");
    expect(both.strings.map(({ strings, phase }) => ({ strings, phase }))).toEqual([
      { strings: [1, 2], phase: "out of phase" },
      { strings: [3, 4], phase: "in phase" },
    ]);
    const [thin, full] = both.strings;
    expect((full?.levelDb ?? 0) - (thin?.levelDb ?? 0)).toBeGreaterThan(20);
    expect(stateOf(report, "set-2").strings.every(({ phase }) => phase === "one coil")).toBe(true);
  });

  it("[B-T6] swapping its leads would make set 2 hum: the magnets are to be turned over", () => {
    const finding = report.findings.find(({ kind }) => kind === "out of phase");
    expect(finding?.remedy).toMatch(
      /^Turn the magnets of 2 D\/G over\. Do not swap set-2-high\.violet and set-2-high\.pink/,
    );
    const swapped = wiringOf("ferry", (data) => {
      const { wires } = data.wiring;
      wires["hot-2-high"] = "set-2-high.violet to two.upper-2";
      wires["ground-2-high"] = "set-2-high.pink to two.case";
    });
    expect(stateOf(swapped, "set-2").humDb?.[HUM[50]]).toBeCloseTo(0.9, 1);
    expect(stateOf(swapped, "set-2").humDb?.[HUM[150]]).toBeCloseTo(0.9, 1);
    expect(stateOf(swapped, "both").humDb?.[HUM[50]]).toBeCloseTo(-4.9, 1);
    expect(stateOf(swapped, "both").humDb?.[HUM[150]]).toBeCloseTo(-4.8, 1);
    expect(stateOf(swapped, "both").strings[0]?.phase).toBe("in phase");
  });

  it("[B-T5] cured by its magnets: nothing but the taper is left", () => {
    const cured = wiringOf("ferry", (data) => {
      data.parts["skiff-2"].coils.high.magnet = "south up";
    });
    expect(raised(cured)).toEqual(["caution: knob all at one end", "caution: knob all at one end"]);
    expect(stateOf(cured, "both").humDb?.[HUM[50]]).toBeCloseTo(-43.8, 1);
  });

  it("[B-T7] ohms cannot show it, the direction test can", () => {
    const spot = report.blindSpots.find(({ coil, kind }) => coil === "set-2-high" && kind === "leads swapped");
    expect(spot?.test).toMatch(/kicks down$/);
  });

  it("[B-T8] audio pots that rise anticlockwise: nearly all near zero", () => {
    expect(report.findings.filter(({ kind }) => kind === "knob all at one end").map(({ lugs }) => lugs[0])).toEqual([
      "one.upper-1",
      "two.upper-1",
    ]);
  });

  it("coupled by mistake, one at zero shorts all: 0 Ω", () => {
    const coupled = wiringOf("ferry", (data) => {
      const { wires } = data.wiring;
      for (const [set, pot] of [
        ["1", "one"],
        ["2", "two"],
      ]) {
        wires[`hot-${set}-low`] = `set-${set}-low.yellow to ${pot}.upper-1`;
        wires[`hot-${set}-high`] = `set-${set}-high.pink to ${pot}.upper-1`;
      }
      wires["out-1"] = "one.upper-2 to jack.tip";
      wires["out-2"] = "two.upper-2 to one.upper-2";
      wires["tone-1"] = "one.upper-2 to one.lower-3";
      wires["tone-2"] = "two.upper-2 to two.lower-3";
    });
    expect(stateOf(coupled, "set-1").ohms.ohms).toBe(0);
    expect(stateOf(coupled, "both").ohms.ohms / 1000).toBeCloseTo(2.666, 3);
    expect(raised(coupled)).toContain("fault: one knob silences all");
  });

  it.each([
    { part: "skiff-1", coil: "high", both: 3.561, alone: 9.941 },
    { part: "skiff-1", coil: "low", both: 3.539, alone: 9.771 },
  ])("with the $coil half of set 1 open: $both kΩ, alone $alone kΩ", ({ coil, both, alone }) => {
    const open = wiringOf("ferry", (data) => {
      delete data.wiring.wires[`hot-1-${coil}`];
    });
    expect(stateOf(open, "both").ohms.ohms / 1000).toBeCloseTo(both, 3);
    expect(stateOf(open, "set-1").ohms.ohms / 1000).toBeCloseTo(alone, 3);
  });

  it("with the D/G half of set 1 open, both full: only partly quiet", () => {
    const open = wiringOf("ferry", (data) => {
      delete data.wiring.wires["hot-1-high"];
    });
    const { humDb, hum } = stateOf(open, "both");
    expect(hum).toBe("partly quiet");
    expect(humDb?.[HUM[50]]).toBeCloseTo(-8.4, 1);
    expect(humDb?.[HUM[150]]).toBeCloseTo(-8.4, 1);
  });

  it("[B-T12] names halves by their strings, not by their place", () => {
    expect(
      stateOf(report, "set-2")
        .coils.map(({ name }) => name)
        .sort(),
    ).toEqual(["2 D/G", "2 E/A"]);
  });

  it("says which values are guesses: no capacitance is declared", () => {
    expect(report.guesses.map(({ kind, part }) => `${kind} ${part}`)).toEqual([
      "farads set-1-low",
      "farads set-1-high",
      "farads set-2-low",
      "farads set-2-high",
    ]);
  });
});

it("is nothing where no coils are described", () => {
  expect(circuitOf(undefined)).toBeUndefined();
});
