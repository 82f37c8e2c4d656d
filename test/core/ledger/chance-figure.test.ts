import { describe, expect, it } from "vitest";
import { chanceFigure } from "../../../src/core/ledger/index.ts";

describe("chanceFigure", () => {
  it.each([
    [0.631, "0.63"],
    [0.9783, "0.98"],
    [0.95, "0.95"],
    [0.949, "0.94"],
    [0.9961, "0.996"],
    [0.9996, "over 0.999"],
    [1, "over 0.999"],
  ])("shows %s as %s", (chance, text) => {
    expect(chanceFigure(chance)).toBe(text);
  });
});

it("does not round up to a gate of the job's own", () => {
  expect(chanceFigure(0.9785, 0.98)).toBe("0.97");
});
