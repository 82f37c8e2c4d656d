import { describe, expect, it } from "vitest";
import { type SumSpec, sumOf } from "../../../src/core/ledger/index.ts";
import { mm, say, unknown } from "../../../src/core/quantity/index.ts";
import { leaf, term } from "./leaves.ts";

describe("[LG11] sumOf", () => {
  const spec: SumSpec = {
    title: "Bushing",
    formula: "thread − wood − stack",
    symbols: {
      thread: { symbol: "t", meaning: "length of the thread" },
      wood: { symbol: "w", meaning: "wood at the hole" },
    },
    constants: [{ symbol: "s", meaning: "washers, nut, foil", value: 4.2, unit: "mm", u: 0, origin: "rule" }],
    result: say`short by ${mm(1.7)}`,
    source: { text: "stack of washers and nut", mark: "common practice" },
  };
  const leaves = {
    angle: { ...leaf("plate.slant", 3), kind: "angle" as const },
    wood: { ...leaf("control.wood", 7, [term("one", 0.03), term("two", 0.04)]), tool: "calliper" },
    missing: unknown("control.depth", "length"),
    thread: { ...leaf("control.thread", 9.5), origin: "data sheet" as const },
  };

  it("gives every number put in, in the order of the formula, then what is not named, then the rule's constants", () => {
    const { rows, ...rest } = sumOf({ leaves }, spec);
    expect(rest).toEqual({ title: spec.title, formula: spec.formula, result: spec.result, source: spec.source });
    expect(rows).toEqual([
      {
        symbol: "t",
        meaning: "length of the thread",
        value: 9.5,
        unit: "mm",
        u: 0,
        origin: "data sheet",
        path: "control.thread",
      },
      {
        symbol: "w",
        meaning: "wood at the hole",
        value: 7,
        unit: "mm",
        u: 0.05,
        origin: "measured",
        path: "control.wood",
        tool: "calliper",
      },
      { symbol: "angle", meaning: "plate.slant", value: 3, unit: "°", u: 0, origin: "measured", path: "plate.slant" },
      ...(spec.constants ?? []),
    ]);
  });
});
