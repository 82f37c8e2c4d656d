/** Opens a problem to its sum: every number put in, with its unit, doubt and origin. */
import { BASE_UNIT, standardUncertainty } from "../quantity/index.ts";
import type { SumRow } from "../verdict/index.ts";
import type { Problem, Sum, SumSpec } from "./types.ts";

/**
 * The sum behind a problem. Values nobody has given have no row: the verdict lists them as missing.
 *
 * @example
 * sumOf(problem, { title: "Bushing", formula: "thread - wood - stack", symbols: { wood: { symbol: "w", … } }, … });
 */
export function sumOf(problem: Pick<Problem, "leaves">, spec: SumSpec): Sum {
  const named = Object.keys(spec.symbols).filter((name) => name in problem.leaves);
  const others = Object.keys(problem.leaves).filter((name) => !(name in spec.symbols));
  const rows: SumRow[] = [];
  for (const name of [...named, ...others]) {
    const leaf = problem.leaves[name];
    if (!leaf?.known) continue;
    const row = {
      symbol: spec.symbols[name]?.symbol ?? name,
      meaning: spec.symbols[name]?.meaning ?? leaf.path,
      value: leaf.value,
      unit: BASE_UNIT[leaf.kind],
      u: standardUncertainty(leaf),
      origin: leaf.origin,
      path: leaf.path,
    };
    rows.push(leaf.tool === undefined ? row : { ...row, tool: leaf.tool });
  }
  const { title, formula, constants = [], result, source } = spec;
  return { title, formula, rows: [...rows, ...constants], result, source };
}
