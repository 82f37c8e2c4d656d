import { describe, expect, it } from "vitest";
import { chanceFigure, shareInWords } from "../../src/app/in-words.ts";

describe("chanceFigure", () => {
  it.each([
    [0.631, "0.63"],
    [0.9783, "0.98"],
    [0.95, "0.95"],
    [0.949, "0.94"],
    [1, "1.00"],
  ])("shows %s as %s", (chance, text) => {
    expect(chanceFigure(chance)).toBe(text);
  });
});

it("does not round up to a gate of the job's own", () => {
  expect(chanceFigure(0.9785, 0.98)).toBe("0.97");
});

describe("shareInWords", () => {
  it.each([
    [1, "nearly all"],
    [0.62, "most"],
    [0.5, "about half"],
    [1 / 3, "about a third"],
    [0.2, "about a fifth"],
    [0.1, "about a tenth"],
    [0.01, "little"],
  ])("says %s as %s", (share, words) => {
    expect(shareInWords(share)).toBe(words);
  });
});
