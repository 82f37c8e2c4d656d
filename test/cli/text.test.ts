import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { columns, paint, printable, table, withoutPaint, wrap } from "../../src/cli/text.ts";

describe("wrap", () => {
  it("breaks at words and hangs the following lines", () => {
    expect(wrap("one two three four", 10, "- ", "  ")).toEqual(["- one two", "  three", "  four"]);
  });

  it("leaves a word that is too long whole", () => {
    expect(wrap("see /a/very/long/path here", 10)).toEqual(["see", "/a/very/long/path", "here"]);
  });

  it("keeps every word, in order, and no line wider than it must be", () => {
    const text = fc.array(fc.string({ minLength: 1, maxLength: 8, unit: fc.constantFrom(..."abcΩ°") }), {
      minLength: 1,
    });
    fc.assert(
      fc.property(text, fc.integer({ min: 12, max: 60 }), (words, width) => {
        const lines = wrap(words.join(" "), width, "  ");
        expect(lines.join(" ").split(/\s+/).filter(Boolean)).toEqual(words);
        expect(Math.max(...lines.map(columns))).toBeLessThanOrEqual(width);
      }),
      { seed: 20_252 },
    );
  });

  it("does not count colour as width", () => {
    expect(wrap(`${paint("no-go", "bad", true)} bridge`, 12)).toHaveLength(1);
  });
});

describe("table", () => {
  it("puts decimal points under each other, whatever stands behind them", () => {
    const rows = [
      ["S", "182.00 ± 0.15 mm", "measured"],
      ["r", "0.5 mm", "rule"],
      ["n", "12", "rule"],
      ["d", "-0.69 mm", "derived"],
    ];
    expect(table(rows, ["left", "point", "left"], 80)).toEqual([
      "S  182.00 ± 0.15 mm  measured",
      "r    0.5 mm          rule",
      "n   12               rule",
      "d   -0.69 mm         derived",
    ]);
  });

  it("wraps the last column under itself", () => {
    expect(table([["a", "one two three four five six"]], ["left", "left"], 24)).toEqual([
      "a  one two three four",
      "   five six",
    ]);
  });

  it("keeps painted cells in their columns", () => {
    const rows = [
      [paint("go", "good", true), "x"],
      ["no-go", "y"],
    ];
    expect(table(rows, ["left", "left"], 80).map(withoutPaint)).toEqual(["go     x", "no-go  y"]);
  });
});

describe("printable", () => {
  it("takes out what could move the cursor or turn the text round", () => {
    expect(printable("a\u001b[2Jb\u202ec\u0007d\u009b")).toBe("a\ufffd[2Jb\ufffdc\ufffdd\ufffd");
    expect(printable("Ω ± ½ é 弦\n")).toBe("Ω ± ½ é 弦\n");
  });
});
