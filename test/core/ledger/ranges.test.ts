import { describe, expect, it } from "vitest";
import { closedForm } from "../../../src/core/ledger/closed-form.ts";
import { effectsOf } from "../../../src/core/ledger/effects.ts";
import { formulasOf } from "../../../src/core/ledger/formulas.ts";
import { type Numbers, over, probabilityOf, weigh } from "../../../src/core/ledger/index.ts";
import { modelOf } from "../../../src/core/ledger/model.ts";
import { isStraight, planeOf } from "../../../src/core/ledger/planes.ts";
import { chanceByRanges } from "../../../src/core/ledger/ranges.ts";
import { pointsOf, smallestTrial, trialsOf } from "../../../src/core/ledger/trials.ts";
import { leaf, term } from "./leaves.ts";
import { plainDraws, shareOf } from "./plain-draws.ts";

type Margin = (x: Numbers) => number;

const leaves = {
  a: leaf("a", 1, [term("p", 0.4)]),
  b: leaf("b", 2, [term("q", 0.3)]),
  c: leaf("c", 1.5, [term("r", 0.2)]),
};

/** What the ledger hands over, without the ledger's choice of a way. */
function handed(margins: readonly Margin[]) {
  const raw = modelOf(leaves);
  const formulas = margins.flatMap((margin) => formulasOf({ leaves, margin, unit: "mm" }, raw.names));
  const starts = margins.map((margin) => margin({ a: 1, b: 2, c: 1.5 }));
  const points = pointsOf(raw);
  const first = effectsOf(raw, smallestTrial(trialsOf(raw, formulas, starts, points)), points);
  const ordered = pointsOf(first.model);
  const sampled = trialsOf(first.model, formulas, starts, ordered).map((trial, index) => {
    const plane = planeOf(trial);
    const formula = formulas[index];
    if (!formula) throw new Error("as many formulas as margins");
    return { formula, start: trial.start, plane, straight: isStraight(trial, plane, ordered) };
  });
  return { model: first.model, sampled };
}

function byPlainDraws(margins: readonly Margin[]): number {
  const { normal } = plainDraws(11);
  return shareOf(1e6, () => {
    const x = { a: 1 + 0.4 * normal(), b: 2 + 0.3 * normal(), c: 1.5 + 0.2 * normal() };
    return margins.every((margin) => margin(x) >= 0);
  });
}

const at = (x: Numbers, name: "a" | "b" | "c") => x[name] as number;
const straight: Margin[] = [(x) => at(x, "a") - 0.5, (x) => 2.1 - at(x, "a") - 0.3 * at(x, "b")];
// Distance of a point from another, as a wall between two holes is.
const bent: Margin[] = [(x) => Math.hypot(4 - at(x, "a"), at(x, "b")) - 2.2 * at(x, "c")];

describe("[LG4] the probability alone, by ranges", () => {
  it("agrees with a million plain draws: straight margins, bent ones, both", () => {
    for (const margins of [straight, bent, [...straight, ...bent]]) {
      const { model, sampled } = handed(margins);
      const chance = chanceByRanges(model, sampled) ?? Number.NaN;
      expect(Math.abs(chance - byPlainDraws(margins))).toBeLessThan(0.003);
    }
    // A wall is bent indeed, or this would try straight ones twice.
    expect(handed(bent).sampled.map((one) => one.straight)).toEqual([false]);
  });

  it("gives no answer where a margin has two borders along the pivot, and the count answers", () => {
    const both: Margin[] = [(x) => (at(x, "a") - 1.2) ** 2 - 0.2];
    const { model, sampled } = handed(both);
    expect(chanceByRanges(model, sampled)).toBeUndefined();
    const problem = { leaves, margins: { both: both[0] as Margin }, unit: "mm" };
    expect(Math.abs((probabilityOf(problem) ?? 0) - byPlainDraws(both))).toBeLessThan(0.003);
  });

  it("gives no answer where the pivot's plane is flat though the formula is not", () => {
    const { model, sampled } = handed([(x) => 0.4 - Math.abs(at(x, "a") - 1)]);
    expect(chanceByRanges(model, sampled)).toBeUndefined();
  });
});

describe("[LG7] several margins on planes, without a draw", () => {
  it("are as sure as the least sure where the others cannot fail", () => {
    const margins: Margin[] = [(x) => at(x, "a") - 0.5, (x) => 12 - at(x, "a")];
    const { model, sampled } = handed(margins);
    const closed = closedForm(model, sampled);
    expect(closed?.probability).toBeCloseTo(byPlainDraws(margins), 2);
    expect(closed?.apart.map(({ binds }) => binds)).toEqual([1, 0]);
  });

  it("are left to the draws where two may fail, or one leaves its plane", () => {
    for (const margins of [straight, [...bent, (x: Numbers) => 12 - at(x, "a")]]) {
      const { model, sampled } = handed(margins);
      expect(closedForm(model, sampled)).toBeUndefined();
    }
  });
});

it("[LG1] a margin that says which leaves it reads is the margin that reads them by name", () => {
  const named = (x: Numbers) => at(x, "a") * at(x, "b") - at(x, "c");
  const placed = over(
    { first: "a", second: "b", third: "c" },
    (x, place) => (x[place.first] as number) * (x[place.second] as number) - (x[place.third] as number),
  );
  expect(placed({ a: 3, b: 5, c: 7 })).toBe(8);
  expect(weigh({ leaves, margin: placed, unit: "mm" })).toEqual(weigh({ leaves, margin: named, unit: "mm" }));
});
