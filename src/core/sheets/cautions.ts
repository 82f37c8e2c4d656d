/** What stands against the drilling, said on every paper that holes are marked from: a sheet goes to the bench alone. */
import { chanceFigure, inWords } from "../ledger/index.ts";
import { drillingNotMet } from "../plan/index.ts";
import { type Phrase, say } from "../quantity/index.ts";
import type { Verdict } from "../verdict/index.ts";
import type { SheetContext } from "./context.ts";

/** One caution an answer, where the bridge stands first. */
export function drillCautions({ instrument, verdicts }: SheetContext): readonly Phrase[] {
  const place = verdicts.filter(({ id, status }) => id === "bridge.place" && status !== "go");
  const others = drillingNotMet(instrument, verdicts).filter(({ id }) => id !== "bridge.place");
  return [...place, ...others].map((verdict) => say`Do not drill on this yet: ${odds(verdict)}${verdict.headline}`);
}

/** Odds that hold after other work ("practically certain", with another bit) would read as leave to drill. */
function odds({ id, probability, status }: Verdict): Phrase {
  if (probability === undefined && (status === "go" || status === "rework"))
    return say`Nobody has worked out how sure this is. `;
  if (probability === undefined || status === "no-go" || !id.startsWith("bridge.")) return say``;
  return say`P ${chanceFigure(probability)}, ${inWords(probability)}. `;
}
