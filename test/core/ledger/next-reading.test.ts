import { erf } from "mathjs";
import { describe, expect, it } from "vitest";
import { nextReading, type Problem, type ReadingOption } from "../../../src/core/ledger/index.ts";
import { leafU, modelOf } from "../../../src/core/ledger/model.ts";
import { sharpen } from "../../../src/core/ledger/sharpen.ts";
import { unknown } from "../../../src/core/quantity/index.ts";
import { lowtide, lowtideByDraws } from "./bridge-problems.ts";
import { leaf, term } from "./leaves.ts";
import { plainDraws } from "./plain-draws.ts";

const area = (z: number) => (1 + erf(z / Math.SQRT2)) / 2;

function option(name: string, u: number, minutes = 5): ReadingOption {
  return { leaf: name, tool: "story stick", u, minutes, what: `the ${name}`, how: "lay it along the neck" };
}

function straight(margin: number, a: number, drilling: number): Problem {
  return {
    leaves: {
      a: leaf("body.a", margin, a),
      drill: leaf("workshop.drilling", 0, [term("hole", drilling, "normal", "hand drill")]),
    },
    margin: (x) => (x.a ?? 0) + (x.drill ?? 0),
    unit: "mm",
    execution: ["drill"],
  };
}

describe("[LG8] the worth of a reading", () => {
  it("is the closed form on a straight margin", () => {
    // Margin 0.5, u 0.5 and 0.1; read to 0.1. Afterwards u' = √0.02, the value will move by √(0.25 - 0.01).
    const advice = nextReading(straight(0.5, 0.5, 0.1), [option("a", 0.1, 4)]);
    const after = Math.SQRT2 / 10;
    const moves = Math.sqrt(0.24);
    const [worth] = advice.worth;
    expect(worth?.probabilityAfter).toBeCloseTo(area(0.5 / after), 6);
    // It opens where margin + moves z >= 1.6449 u': z >= -0.5458, probability Φ(0.5458) = 0.7074. Steps of 1 in 200.
    expect(Math.abs((worth?.flips ?? 0) - area((0.5 - 1.644854 * after) / moves))).toBeLessThan(0.006);
    const chance = plainDraws(77);
    let gain = 0;
    for (let draw = 0; draw < 40_000; draw += 1) {
      gain += Math.max(0, (area((0.5 + moves * chance.normal()) / after) - 0.95) / 0.05) / 40_000;
    }
    // Standard error of 40 000 draws of a number between 0 and 1: at most 0.0025.
    expect(Math.abs((worth?.gain ?? 0) - gain)).toBeLessThan(0.0075);
    expect(worth?.gainPerMinute).toBeCloseTo((worth?.gain ?? 0) / 4, 12);
  });

  it("agrees with outcome within outcome by plain draws where the margin has sides", () => {
    // A window ±1 with u 0.8 and 0.25, standing 0.3 off its middle; read to 0.2.
    const problem: Problem = {
      leaves: { place: leaf("place", 0.3, 0.8), drill: leaf("drill", 0, 0.25) },
      margin: (x) => 1 - Math.abs((x.place ?? 0) + (x.drill ?? 0)),
      unit: "mm",
    };
    const [worth] = nextReading(problem, [option("place", 0.2)]).worth;
    const after = Math.hypot(0.2, 0.25);
    const within = (place: number) => area((1 - place) / after) - area((-1 - place) / after);
    const chance = plainDraws(78);
    let gain = 0;
    let flips = 0;
    for (let draw = 0; draw < 40_000; draw += 1) {
      const probability = within(0.3 + Math.sqrt(0.64 - 0.04) * chance.normal());
      gain += Math.max(0, (probability - 0.95) / 0.05) / 40_000;
      if (probability >= 0.95) flips += 1 / 40_000;
    }
    expect(Math.abs((worth?.probabilityAfter ?? 0) - within(0.3))).toBeLessThan(0.003);
    // Outcomes in fourteen steps of 512 draws each.
    expect(Math.abs((worth?.flips ?? 0) - flips)).toBeLessThan(0.03);
    expect(Math.abs((worth?.gain ?? 0) - gain)).toBeLessThan(0.03);
  });

  it("counts minutes: of two alike the quicker, of two as quick the sharper", () => {
    const problem = straight(0.5, 0.5, 0.1);
    const choose = (options: ReadingOption[]) => nextReading(problem, options).reading;
    expect(choose([option("a", 0.1, 20), { ...option("a", 0.1, 3), tool: "quick" }])?.tool).toBe("quick");
    expect(choose([{ ...option("a", 0.05), tool: "sharp" }, option("a", 0.25)])?.tool).toBe("sharp");
  });

  it("says in words what it would settle", () => {
    const { reading, reason } = nextReading(straight(0.5, 0.5, 0.1), [option("a", 0.1)]);
    expect(reason).toBeUndefined();
    // Now Φ(0.5 / 0.51) = 0.837, after 0.9998, opens in 0.707 of the outcomes.
    expect(reading).toMatchObject({ path: "body.a", tool: "story stick", how: "lay it along the neck", minutes: 5 });
    expect(reading?.settles).toBe(
      "Now about 4 in 5 that it goes. If the reading agrees with the present value: practically certain. Chance that this reading opens the gate: about 2 in 3.",
    );
  });
});

describe("[LG9] when to stop measuring", () => {
  it("when it goes already", () => {
    // Φ(0.5 / 0.27) = 0.968
    const advice = nextReading(straight(0.5, 0.25, 0.1), [option("a", 0.05)]);
    expect(advice).toEqual({ reason: "No more measuring needed: better than 19 in 20 that it goes.", worth: [] });
    expect(nextReading(straight(0.5, 0.25, 0.1), [option("a", 0.05)], { probability: 0.99 }).reading).toBeDefined();
  });

  it("when it does not go already", () => {
    const { reading, reason } = nextReading(straight(-0.5, 0.25, 0.1), [option("a", 0.05)]);
    expect(reading).toBeUndefined();
    expect(reason).toBe("No more measuring needed: less than 1 in 20 that it goes. Change the plan.");
  });

  it("when the rest is how you drill", () => {
    const { reading, reason } = nextReading(straight(0.5, 0.1, 0.6), [option("a", 0.02)]);
    expect(reading).toBeUndefined();
    expect(reason).toBe("More measuring will not settle this: the rest is how you drill.");
  });

  it("when the rest is something nobody offers to read", () => {
    const { execution: _, ...problem } = straight(0.5, 0.1, 0.6);
    expect(nextReading(problem, []).reason).toBe("More measuring will not settle this: the rest is hand drill.");
  });

  it("when a value is missing, that comes first", () => {
    const problem = straight(0.5, 0.1, 0.6);
    const leaves = { ...problem.leaves, a: unknown("body.a", "length") };
    expect(nextReading({ ...problem, leaves }, [option("a", 0.1)])).toEqual({
      reason: "A value is missing: measure that first.",
      worth: [],
    });
  });

  it("passes over options that name no leaf or would not sharpen it", () => {
    expect(nextReading(straight(0.5, 0.5, 0.1), [option("b", 0.1), option("a", 0.5)]).worth).toEqual([]);
  });

  it("two readings that only together open the gate: the better first, and says so", () => {
    // u 0.4 and 0.4 around 0.55 within ±0.6 of 0: each left alone keeps the gate shut at any outcome of the other
    // (at best Φ(1.5) - Φ(-1.5) = 0.866); both read to 0.05 it can open.
    const problem: Problem = {
      leaves: { a: leaf("a", 0.1, 0.4), b: leaf("b", 0, 0.4) },
      margin: (x) => 0.6 - Math.abs((x.a ?? 0) + (x.b ?? 0)),
      unit: "mm",
    };
    const { reading, worth } = nextReading(problem, [option("a", 0.05, 10), option("b", 0.05, 4)]);
    expect(worth.map(({ flips }) => flips)).toEqual([0, 0]);
    expect(reading?.path).toBe("b");
    expect(reading?.settles).toMatch(/This reading alone does not open the gate; with all the readings listed/);
  });
});

describe("[LG8] the plate of six strings", () => {
  const options = [option("scaleLine", 0.15, 15), option("setback1", 0.1, 6), option("setback3", 0.1, 6)];

  it("by hand drill no reading opens it: the rest is how you drill", () => {
    const advice = nextReading(lowtide({ scaleLineU: 0.46, setbackU: 0.2, drillingU: 0.45, oldRowU: 0 }), options);
    expect(advice.reading).toBeUndefined();
    expect(advice.reason).toBe("More measuring will not settle this: the rest is how you drill.");
  });

  it("by a self-centring bit: carry the scale line over", () => {
    const method = { scaleLineU: 0.46, setbackU: 0.2, drillingU: 0.1, oldRowU: 0 };
    const { reading } = nextReading(lowtide(method), options);
    expect(reading?.path).toBe("scaleLine");
    const after = lowtideByDraws({ ...method, scaleLineU: 0.15 }, 200_000);
    expect(Math.abs((reading?.probabilityAfter ?? 0) - after)).toBeLessThan(0.005);
  });
});

describe("sharpen", () => {
  // a = s + d, b = s + c with u 0.3, 0.4, 0.1. Of b, known a exactly: 0.3² + 0.1² - 0.3⁴ / (0.3² + 0.4²) = 0.0676.
  const model = modelOf({
    a: leaf("a", 0, [term("s", 0.3), term("d", 0.4)]),
    b: leaf("b", 0, [term("s", 0.3), term("c", 0.1)]),
  });

  it("teaches what other leaves share", () => {
    const sharp = sharpen(model, 0, 0);
    if (!sharp) throw new Error("sharper");
    expect(leafU(sharp.model, 0)).toBe(0);
    expect(leafU(sharp.model, 1) ** 2).toBeCloseTo(0.0676, 12);
    // If a turns out one standard deviation (0.5) higher, b is likely 0.3² / 0.5 higher.
    expect(sharp.moves).toEqual([expect.closeTo(0.5, 12), expect.closeTo(0.18, 12)]);
  });

  it("keeps the variance: what is left and what will move add up to the present", () => {
    const sharp = sharpen(model, 0, 0.2);
    if (!sharp) throw new Error("sharper");
    [0, 1].forEach((index) => {
      const now = leafU(model, index) ** 2;
      expect(leafU(sharp.model, index) ** 2 + (sharp.moves[index] ?? 0) ** 2).toBeCloseTo(now, 12);
    });
    expect(leafU(sharp.model, 0)).toBeCloseTo(0.2, 12);
  });

  it("is nothing where the reading is no sharper", () => {
    expect(sharpen(model, 0, 0.5)).toBeUndefined();
    expect(sharpen(model, 0, Number.NaN)).toBeUndefined();
  });
});
