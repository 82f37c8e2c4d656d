import { expect, it } from "vitest";
import { modelOf } from "../../../src/core/ledger/model.ts";
import { planeOf, straightOf } from "../../../src/core/ledger/planes.ts";
import type { Numbers } from "../../../src/core/ledger/types.ts";
import { leaf, term } from "./leaves.ts";

it("[LG3] a plane's slope is the margin's change per standard uncertainty of the error, over all its leaves", () => {
  const model = modelOf({ a: leaf("a", 2, [term("p", 0.5), term("q", 0.25)]), b: leaf("b", 1, [term("p", -0.125)]) });
  // d(a²b) = 2ab da + a² db = 4 da + 4 db: p 4 × 0.5 - 4 × 0.125, q 4 × 0.25; what is of third order in p is 0.5² × 0.125.
  const { slopes } = planeOf(model, (x) => (x.a ?? 0) ** 2 * (x.b ?? 0), 4);
  expect(model.terms.map(({ id }) => id)).toEqual(["p", "q"]);
  expect(slopes[0]).toBeCloseTo(1.5 - 0.5 ** 2 * 0.125, 12);
  expect(slopes[1]).toBeCloseTo(1, 12);
});

it("[LG3] tells a formula that lies on its plane from one that bends", () => {
  const model = modelOf({
    a: leaf("a", 2, [term("p", 0.5)]),
    b: leaf("b", 1, [term("q", 0.25)]),
    c: leaf("c", 9, [term("r", 0.25)]),
  });
  const plain = (x: Numbers) => 3 * (x.a ?? 0) - 2 * (x.b ?? 0);
  // a reaches 3.2 at 2.4 standard uncertainties: single steps of two do not meet the bend, the fixed points do.
  const bent = (x: Numbers) => Math.min(plain(x), 9.6 - 2 * (x.b ?? 0));
  // What bends only by the product of both is met with both off at once.
  const twisted = (x: Numbers) => plain(x) + 0.2 * ((x.a ?? 0) - 2) * ((x.b ?? 0) - 1);
  // Off by less than 0.3 % of a probability would notice.
  const nearly = (x: Numbers) => plain(x) + 1e-3 * ((x.a ?? 0) - 2) * ((x.b ?? 0) - 1);
  for (const [formula, straight] of [
    [plain, true],
    [nearly, true],
    [bent, false],
    [twisted, false],
  ] as const)
    expect(straightOf(model, [formula], [4], [planeOf(model, formula, 4)])).toEqual([straight]);
});
