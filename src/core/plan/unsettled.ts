/** Which figures of a hole to drill no answer has settled: they must not stand on a paper that people drill by. */
import type { DrillPlace, Verdict } from "../verdict/index.ts";

const NOISE_MM = 1e-9;

/**
 * Whether a stop may be set to a depth. A depth whose answer is no goes through the body, or leaves too little to be
 * sure of it; a depth that nobody could judge (the body's thickness is not known) is a matter for the gate alone.
 */
export function depthSettled(depthMm: number, verdicts: readonly Verdict[]): boolean {
  const verdict = verdicts.find(({ id }) => id === "bridge.depth");
  const judged = verdict?.figures.depthMm;
  if (verdict?.status !== "no-go" || judged === undefined) return true;
  const margin = verdict.margin?.value ?? 0;
  // Wood enough by the figures alone is still no at the doubt of the figures: then the depth judged is itself too much.
  return margin < 0 ? depthMm <= judged + margin + NOISE_MM : depthMm < judged - NOISE_MM;
}

/** The answer about the bit of the bridge's lead holes. */
export const BIT_VERDICT = "fasteners.bridge";

/**
 * Whether the bit of a bridge's hole may be named. A lead hole wider than the core of its screw holds nothing, and the
 * answer's own work (measure the core, take another bit) is only done when the job's pilot says so. Posts, bushings
 * and string holes have no core.
 */
export function bitSettled(holeId: string, verdicts: readonly Verdict[]): boolean {
  if (!/screws(#|$)/.test(holeId)) return true;
  const verdict = verdicts.find(({ id }) => id === BIT_VERDICT);
  return verdict === undefined || verdict.status === "go";
}

/** A bridge's hole right through has no stop: its depth is 0. */
export function stopSettled(hole: DrillPlace, target: string, verdicts: readonly Verdict[]): boolean {
  return target !== "bridge" || hole.depth <= 0 || depthSettled(hole.depth, verdicts);
}
