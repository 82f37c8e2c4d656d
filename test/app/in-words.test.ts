import { describe, expect, it } from "vitest";
import { shareInWords } from "../../src/app/in-words.ts";

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
