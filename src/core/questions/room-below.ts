/** Room below a control or a lever: free depth against the part and its lugs. Rule FT10. */
import { controlDepth, type DepthBelow, RULES } from "../fit/index.ts";
import type { Numbers } from "../ledger/index.ts";
import { mm, say } from "../quantity/index.ts";
import type { Sum } from "../verdict/index.ts";
import { at, type Leaves, ruleSum } from "./judge.ts";

/** From the leaves `free`, `part` and `lugs`. */
export function roomBelow(x: Numbers): DepthBelow {
  return controlDepth({ partMm: at(x, "part"), lugsMm: at(x, "lugs"), freeDepthMm: at(x, "free") });
}

export function roomBelowSum(leaves: Leaves, now: DepthBelow, part: string): Sum {
  return ruleSum({
    title: "Room below",
    rule: RULES.controlDepth,
    leaves,
    rows: [
      ["free", "free depth", "inner face of the top to the cover"],
      ["part", "part", `${part} below the top`],
      ["lugs", "lugs", "room for bent lugs"],
    ],
    result: say`${mm(now.marginMm, 1)}`,
  });
}
