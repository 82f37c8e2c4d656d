/** What stands against drilling the bridge's holes, for the papers that people drill by without looking at a gate. */
import type { Instrument } from "../job/index.ts";
import type { Verdict } from "../verdict/index.ts";
import { gateProbability } from "./draft.ts";
import { verdictReasons } from "./gate.ts";
import { restsOn } from "./rests-on.ts";
import { BIT_VERDICT } from "./unsettled.ts";
import { targetOfGroup } from "./wood-steps.ts";

/** The answers that do not hold, of all that the drilling rests on: as its gate sees them. */
export function drillingNotMet(instrument: Instrument, verdicts: readonly Verdict[]): readonly Verdict[] {
  const asks = verdicts.filter(({ work }) =>
    work.some((one) => one.act === "drill" && targetOfGroup(one.group) === "bridge"),
  );
  const ids = restsOn({ kind: "drill", target: "bridge", cause: asks.map(({ id }) => id) }, { instrument, verdicts });
  const known = verdicts.filter(({ id }) => ids.includes(id));
  const reasons = verdictReasons(known, { level: "permanent", probability: gateProbability(instrument) });
  const bitHeld = verdicts.every(({ id, status }) => id !== BIT_VERDICT || status === "go");
  return known.filter(({ id }, index) => reasons[index]?.ok === false || (id === BIT_VERDICT && !bitHeld));
}
