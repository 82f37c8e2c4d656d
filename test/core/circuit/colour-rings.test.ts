import { describe, expect, it } from "vitest";
import { type RingColour, readColourRings } from "../../../src/core/circuit/colour-rings.ts";

// IEC 60062, from memory.
describe("readColourRings", () => {
  it.each<[RingColour[], number, number]>([
    [["yellow", "violet", "orange", "gold"], 47e3, 5],
    [["brown", "green", "yellow", "gold"], 150e3, 5],
    [["brown", "black", "green", "silver"], 1e6, 10],
    [["red", "red", "gold", "gold"], 2.2, 5],
    [["yellow", "violet", "black", "red", "brown"], 47e3, 1],
    [["brown", "black", "black", "orange", "red"], 100e3, 2],
    [["orange", "orange", "black", "silver", "violet"], 3.3, 0.1],
  ])("reads %j", (rings, nominalOhms, tolerancePercent) => {
    expect(readColourRings(rings).asGiven).toEqual({
      nominalOhms,
      tolerancePercent,
      leastOhms: expect.closeTo(nominalOhms * (1 - tolerancePercent / 100), 6),
      mostOhms: expect.closeTo(nominalOhms * (1 + tolerancePercent / 100), 6),
    });
  });

  it("says when the rings read from either end", () => {
    const { asGiven, fromOtherEnd, doubt } = readColourRings(["brown", "black", "black", "orange", "red"]);
    expect(asGiven.nominalOhms).toBe(100e3);
    // From the other end: 2 3 0, no zeros, 1 %.
    expect(fromOtherEnd?.nominalOhms).toBe(230);
    expect(doubt).toMatch(/100000 ohm from one end and 230 ohm from the other: use a meter$/);
  });

  it("has no doubt where the other end gives no resistor", () => {
    expect(readColourRings(["yellow", "violet", "orange", "gold"]).doubt).toBeUndefined();
  });

  it("refuses a colour in the wrong place, and names it", () => {
    expect(() => readColourRings(["gold", "orange", "violet", "yellow"])).toThrow(
      /^rings\[0\]: gold cannot stand here/,
    );
    expect(() => readColourRings(["red", "red", "red", "white"])).toThrow(/^rings\[3\]: white cannot stand here/);
    expect(() => readColourRings(["black", "red", "red", "gold"])).toThrow(/^rings\[0\]: black cannot stand here/);
    expect(() => readColourRings(["red", "red", "red"])).toThrow(/^rings: must be four or five, got 3/);
  });
});
