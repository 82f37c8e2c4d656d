import { describe, expect, it } from "vitest";
import type { Answers } from "../../../src/core/begin/index.ts";
import { questionsOf, wiringOf } from "../../../src/core/index.ts";
import { answered } from "./answers.ts";

const ohms = (answers: Answers) => answered("ohms", answers, "wiring.ohms");

/** In parallel, by hand. */
const beside = (...all: number[]) => 1 / all.reduce((sum, one) => sum + 1 / one, 0);

describe("what the meter should read at the jack", () => {
  // Closed forms of one loop and of two branches, which an operating point of a circuit simulator agrees with to 3e-13;
  // printed to 0.01 Ω, hence the tolerance of 0.005 Ω.
  it.each<[string, Answers, number]>([
    ["one pickup, 250 k", { coils: "6.2 k", volume: "250 k" }, 6049.96],
    ["one pickup, 500 k", { coils: "6.2 k", volume: "500 k" }, 6124.06],
    ["two coils as one pickup, 500 k", { coils: "4.1 k then 4.1 k", volume: "500 k" }, 8067.69],
    ["8.2 k, 500 k", { coils: "8k2", volume: "500 k" }, 8067.69],
    ["two in parallel", { coils: "6.2 k with 6.5 k", volume: "250 k" }, 3133.46],
    ["two in series", { coils: "6.2 k then 6.5 k", volume: "250 k" }, 12086.03],
    ["coils of one pickup in parallel", { coils: "4.1 k with 4.1 k", volume: "500 k" }, 2041.63],
  ])("[BG17] %s", (_, answers, expected) => {
    const { verdict } = ohms(answers);
    expect(Math.abs((verdict.figures.ohms ?? 0) - expected)).toBeLessThanOrEqual(0.005);
    expect(verdict.status).toBe("go");
  });

  it.each<[string, Answers, number]>([
    ["two pots, one a pickup", { coils: "6.2 k with 6.5 k", volume: "2 x 500 k" }, beside(6200, 6500, 500e3, 500e3)],
    ["two pots on one pickup", { coils: "6.2 k", volume: "250 k, 2 pots" }, beside(6200, 250e3, 250e3)],
    ["no pot", { coils: "6.2 k", volume: "none" }, 6200],
    ["brackets", { coils: "(3.95 k then 4.05 k) with 6.1 k", volume: "500 k" }, beside(8000, 6100, 500e3)],
    ["a unit once, behind the last", { coils: "6.2 with 6.5 k", volume: "none" }, beside(6200, 6500)],
    [
      "a bass cut's pot across the capacitor",
      { coils: "6.2 k", volume: "none", "series-cap": "2.2 n with 1 M pot" },
      6200,
    ],
    [
      "a capacitor before the volume",
      { coils: "6.2 k", volume: "250 k", "series-cap": "2.2n before the volume" },
      250e3,
    ],
  ])("[BG17] %s, by the laws of resistors in series and in parallel", (_, answers, expected) => {
    expect(ohms(answers).verdict.figures.ohms).toBeCloseTo(expected, 2);
  });

  // A maker's support page: 6.30 k at 95 °F is 5.949 k at 68 °F (printed to 1 Ω).
  it("[BG19] brings a coil that was read when warm down to the room", () => {
    const { verdict } = ohms({ coils: "6.30 k at 95 °F (meter)", volume: "none", temperature: "68 °F" });
    expect(Math.abs((verdict.figures.ohms ?? 0) - 5949)).toBeLessThanOrEqual(0.5);
  });

  it("[BG19] takes a coil that was read as read in the same room: what was read is what is to be read", () => {
    const warm = { coils: "6.30 k (meter)", volume: "none", temperature: "30 °C" };
    expect(ohms(warm).verdict.figures.ohms).toBeCloseTo(6300, 2);
    // A sheet's figure is one at 20 °C: 1 + 0.00393 × 10 (IEC 60028).
    expect(ohms({ ...warm, coils: "6.30 k" }).verdict.figures.ohms).toBeCloseTo(6300 * 1.0393, 2);
  });

  it("[BG18] sheet ±5 %, same meter ±0.5 %, pot ±20 %", () => {
    const half = (answers: Answers) => {
      const { ohmsLow = 0, ohmsHigh = 0 } = ohms(answers).verdict.figures;
      return (ohmsHigh - ohmsLow) / 2;
    };
    expect(half({ coils: "8.2 k", volume: "none" })).toBeCloseTo(0.05 * 8200, 6);
    expect(half({ coils: "8.2 k (meter)", volume: "none" })).toBeCloseTo(0.005 * 8200, 6);
    // ∂R/∂R_k of two in parallel is (R_other / sum)²: 500 / 508.2 and 8.2 / 508.2.
    const sheet = 0.05 * 8200 * (500 / 508.2) ** 2 + 0.2 * 500e3 * (8.2 / 508.2) ** 2;
    expect(half({ coils: "8.2 k", volume: "500 k" })).toBeCloseTo(sheet, 6);
  });

  it("says that a capacitor in series shows open, and what stands behind it", () => {
    const { verdict, headline } = ohms({ coils: "8.2 k", volume: "500 k", "series-cap": "yes" });
    expect(verdict.status).toBe("go");
    expect(headline).toBe(
      "The meter should show open: a capacitor in series blocks direct current. Behind it stand 8.07 kΩ.",
    );
    const read = ohms({ coils: "8.2 k", volume: "500 k", "series-cap": "yes", reading: "OL" });
    expect(read.verdict.status).toBe("go");
    expect(ohms({ coils: "8.2 k", volume: "500 k", "series-cap": "yes", reading: "8.05 k" }).headline).toMatch(
      /First to look at: the capacitor in series is bridged/,
    );
  });
});

describe("a reading that is off", () => {
  const HUM = { coils: "8.2 k (meter)", volume: "500 k", "series-cap": "no" };

  it.each<[string, Answers, RegExp]>([
    [
      "the coils without the pot",
      { ...HUM, reading: "8.2 k" },
      /^8\.20 kΩ read, 8\.07 kΩ expected, .*the coils are read without volume/,
    ],
    ["one more pot", { coils: "6.2 k (meter)", volume: "none", reading: "6.05 k" }, /one more pot of 250 kΩ or so/],
    // dc10 and dc14: with a coil open, the volume pot alone is read.
    ["an open coil", { ...HUM, reading: "500 k" }, /pickup is open: its wire or one of its joints is broken/],
    ["one of two open", { coils: "6.2 k with 6.5 k", volume: "250 k", reading: "6.05 k" }, /second pickup is open/],
    [
      "a shorted coil",
      { coils: "6.2 k then 6.5 k", volume: "250 k", reading: "6.05 k" },
      /pickup B is shorted, or a split/,
    ],
    // 6.30 k × 1.00393 a degree: 6.52 k is 9 degrees more.
    [
      "a warm coil",
      { coils: "6.30 k (meter)", volume: "none", temperature: "20 °C", reading: "6.52 k" },
      /at 29 °C and not at 20 °C/,
    ],
    ["open", { ...HUM, reading: "open" }, /^open read, .*a capacitor in series with the output, or a buffer/],
    // dc06: a volume turned back reads up to (250 + 6.2) / 4 = 64.05 k.
    [
      "a knob turned back",
      { coils: "6.2 k", volume: "250 k (meter)", reading: "40 k" },
      /turned back, it reads up to 64 kΩ/,
    ],
    [
      "nothing of that",
      { coils: "4.1 k with 4.1 k", volume: "500 k", reading: "1.5 k" },
      /No single usual mistake gives that/,
    ],
  ])("[BG20] names first %s", (_, answers, words) => {
    const { verdict, headline } = ohms(answers);
    expect(verdict.status).toBe("no-go");
    expect(headline).toMatch(words);
  });

  it("says so when it agrees", () => {
    const { verdict, headline } = ohms({ ...HUM, reading: "8.05 k" });
    expect(verdict.status).toBe("go");
    expect(headline).toBe("Agrees: 8.05 kΩ read, 8.07 kΩ expected, between 8.00 kΩ and 8.13 kΩ.");
  });
});

describe("the grown job", () => {
  it("has a wiring that every question and the table of states can use", () => {
    const { job } = ohms({ coils: "(3.95 k then 4.05 k) with 6.1 k", volume: "2 x 500 k", reading: "3.4 k" });
    expect(questionsOf(job).map(({ id }) => id)).toEqual(
      expect.arrayContaining(["wiring.state.full", "wiring.ohms", "wiring.ground", "wiring.knobs", "wiring.ends"]),
    );
    const report = wiringOf(job);
    expect(report?.states[0]?.sound).toBe("second pickup with (first pickup A then first pickup B)");
    expect(report?.states[0]?.reading?.agrees).toBe(true);
    expect(report?.findings.filter(({ grade }) => grade === "fault")).toEqual([]);
  });

  it("says what is not known and keeps the rest", () => {
    const { verdict, notes } = ohms({ reading: "6.05 k" });
    expect(verdict.status).toBe("measure");
    expect(verdict.missing.map(({ path }) => path)).toEqual(["parts.pickup-pickup.coils.a.ohms"]);
    expect(notes.join(" ")).toMatch(/One volume pot is taken, its ohms open/);
    const some = ohms({ coils: "6.2 k" });
    expect(some.verdict.status).toBe("go");
    expect(some.detail).toContain("Nobody has given the ohms of volume: the limits allow for that.");
  });
});
