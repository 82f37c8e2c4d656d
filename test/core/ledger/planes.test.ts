import { expect, it } from "vitest";
import { formulasOf } from "../../../src/core/ledger/formulas.ts";
import { modelOf } from "../../../src/core/ledger/model.ts";
import { isStraight, planeOf } from "../../../src/core/ledger/planes.ts";
import { pointsOf, smallestTrial, trialsOf } from "../../../src/core/ledger/trials.ts";
import type { Numbers } from "../../../src/core/ledger/types.ts";
import { leaf, term } from "./leaves.ts";

/** Formulas over a, b, c for the loops. */
const placed = (formulas: readonly ((x: Numbers) => number)[]) =>
  formulas.flatMap((margin) => formulasOf({ leaves: {}, margin, unit: "mm" }, ["a", "b", "c"]));

it("[LG3] a plane's slope is the margin's change per standard uncertainty of the error, over all its leaves", () => {
  const model = modelOf({ a: leaf("a", 2, [term("p", 0.5), term("q", 0.25)]), b: leaf("b", 1, [term("p", -0.125)]) });
  // d(a²b) = 2ab da + a² db = 4 da + 4 db: p 4 × 0.5 - 4 × 0.125, q 4 × 0.25; what is of third order in p is 0.5² × 0.125.
  const formula = (x: Numbers) => (x.a ?? 0) ** 2 * (x.b ?? 0);
  const [trial] = trialsOf(model, placed([formula]), [4], pointsOf(model));
  if (!trial) throw new Error("one formula in, one trial out");
  const { slopes } = planeOf(trial);
  expect(model.terms.map(({ id }) => id)).toEqual(["p", "q"]);
  expect(slopes[0]).toBeCloseTo(1.5 - 0.5 ** 2 * 0.125, 12);
  expect(slopes[1]).toBeCloseTo(1, 12);
});

const model = modelOf({
  a: leaf("a", 2, [term("p", 0.5)]),
  b: leaf("b", 1, [term("q", 0.25)]),
  c: leaf("c", 9, [term("r", 0.25)]),
});
const plain = (x: Numbers) => 3 * (x.a ?? 0) - 2 * (x.b ?? 0);
// a reaches 3.2 at 2.4 standard uncertainties: single steps do not meet the bend, the fixed points do.
const bent = (x: Numbers) => Math.min(plain(x), 9.6 - 2 * (x.b ?? 0));

it("[LG3] tells a formula that lies on its plane from one that bends", () => {
  // What bends only by the product of both is met with both off at once.
  const twisted = (x: Numbers) => plain(x) + 0.2 * ((x.a ?? 0) - 2) * ((x.b ?? 0) - 1);
  // Off by less than 0.3 % of a probability would notice.
  const nearly = (x: Numbers) => plain(x) + 1e-3 * ((x.a ?? 0) - 2) * ((x.b ?? 0) - 1);
  // A root of less than nothing at some of the points.
  const broken = (x: Numbers) => plain(x) + 0 * Math.sqrt(2.3 - (x.a ?? 0));
  const points = pointsOf(model);
  const straight = [plain, nearly, bent, twisted, broken].map((formula) => {
    const [trial] = trialsOf(model, placed([formula]), [4], points);
    return trial && isStraight(trial, planeOf(trial), points);
  });
  expect(straight).toEqual([true, true, false, false, false]);
});

it("[LG3] the trial of the smallest of several is that of their smallest as one formula", () => {
  const other = (x: Numbers) => (x.c ?? 0) - 5 - 0.5 * (x.a ?? 0);
  const points = pointsOf(model);
  const [asOne] = trialsOf(model, placed([(x) => Math.min(bent(x), other(x))]), [3], points);
  expect(smallestTrial(trialsOf(model, placed([bent, other]), [4, 3], points))).toEqual(asOne);
});
