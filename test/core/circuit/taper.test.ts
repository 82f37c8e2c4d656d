import { describe, expect, it } from "vitest";
import { blendShares, noLoadShare, type Taper, trackShare } from "../../../src/core/circuit/taper.ts";
import { taperRatio } from "../../../src/core/fit/index.ts";
import { caseNamed, casesNamed, num } from "./reference-cases.ts";

const TURNS = [0, 0.1, 0.25, 0.5, 0.6, 0.75, 0.99, 1];

describe("trackShare", () => {
  it("agrees with the pot read by its owner", () => {
    const { inputs, expected } = caseNamed("taper-500k-10pct");
    const positions = inputs.positions_0to10 as number[];
    const ohms = positions.map((at) => 500e3 * trackShare({ kind: "audio", atHalf: num(inputs.mid) }, at / 10));
    (expected.R_low_ohm as number[]).forEach((value, index) => {
      expect(ohms[index]).toBeCloseTo(value, 6);
    });
  });

  it.each(casesNamed("taper-mid-"))("agrees with $id at half rotation", ({ inputs, expected }) => {
    const share = trackShare({ kind: "audio", atHalf: num(inputs.mid) }, 0.5);
    expect(share).toBeCloseTo(num(expected.ratio), 12);
    // Printed with 7 digits.
    expect(20 * Math.log10(share)).toBeCloseTo(num(expected.unloaded_dB), 5);
  });

  it("turns reverse audio about the middle", () => {
    for (const t of TURNS) {
      const reverse = trackShare({ kind: "reverse audio", atHalf: 0.15 }, t);
      expect(reverse).toBeCloseTo(1 - trackShare({ kind: "audio", atHalf: 0.15 }, 1 - t), 12);
    }
  });

  it.each(["linear", "audio", "reverse audio"] as const)("says the same as the fitting of a %s pot", (kind) => {
    const taper: Taper = kind === "linear" ? { kind } : { kind, atHalf: 0.12 };
    for (const clockwise of TURNS) {
      expect(trackShare(taper, clockwise)).toBeCloseTo(taperRatio({ taper: kind, atHalf: 0.12, clockwise }), 12);
    }
  });

  it.each([-0.01, 1.01, Number.NaN])("refuses a rotation of %s", (rotation) => {
    expect(() => trackShare({ kind: "linear" }, rotation)).toThrow(/^rotation: must lie between 0 and 1/);
    expect(() => trackShare({ kind: "audio", atHalf: rotation }, 0.5)).toThrow(/^atHalf: must lie between 0 and 1/);
  });
});

// Common practice, no source.
describe("pots of another kind", () => {
  it("takes a no-load pot's wiper off the track at the clockwise end only", () => {
    const pot = { taper: { kind: "audio", atHalf: 0.1 }, leavesAt: 0.97 } as const;
    expect(noLoadShare({ ...pot, rotation: 1 })).toBe("open");
    expect(noLoadShare({ ...pot, rotation: 0.97 })).toBe("open");
    expect(noLoadShare({ ...pot, rotation: 0.5 })).toBeCloseTo(0.1, 12);
    expect(noLoadShare({ ...pot, rotation: 0 })).toBe(0);
  });

  it("has both tracks of a blend pot full at the middle, and one of them at each end", () => {
    expect(blendShares(0)).toEqual({ anticlockwise: 1, clockwise: 0 });
    expect(blendShares(0.5)).toEqual({ anticlockwise: 1, clockwise: 1 });
    expect(blendShares(1)).toEqual({ anticlockwise: 0, clockwise: 1 });
    expect(blendShares(0.75)).toEqual({ anticlockwise: 0.5, clockwise: 1 });
  });
});
