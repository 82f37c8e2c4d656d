import { describe, expect, it } from "vitest";
import { inWords } from "../../../src/core/ledger/index.ts";

// Wanted wording of the design page, and its neighbours at every border (half way between neighbouring odds).
describe("[LG10] inWords", () => {
  it.each([
    [1, "practically certain"],
    [0.999, "practically certain"],
    [0.98, "better than 19 in 20"],
    [0.95, "better than 19 in 20"],
    [0.9499, "about 9 in 10"],
    [0.85, "about 9 in 10"],
    [0.8, "about 4 in 5"],
    [0.74, "about 3 in 4"],
    [0.63, "about 2 in 3"],
    [0.5833, "about 2 in 3"],
    [0.58, "about 1 in 2: do not drill on this"],
    [0.5, "about 1 in 2: do not drill on this"],
    [0.42, "about 1 in 2: do not drill on this"],
    [0.33, "about 1 in 3"],
    [0.25, "about 1 in 4"],
    [0.2, "about 1 in 5"],
    [0.1, "about 1 in 10"],
    [0.03, "less than 1 in 20"],
    [0.001, "practically ruled out"],
    [0, "practically ruled out"],
  ])("%f: %s", (probability, words) => {
    expect(inWords(probability)).toBe(words);
  });
});
