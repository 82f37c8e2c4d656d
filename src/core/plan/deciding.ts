/** Which values decide a step, and whether each has been read well enough. */
import { covers } from "../job/index.ts";
import { type Phrase, say } from "../quantity/index.ts";
import type { Share, Verdict } from "../verdict/index.ts";
import { agreementOf } from "./agreement.ts";
import type { GateReason, Step, TakenReading } from "./types.ts";

/** A value with less than this part in the doubt of a verdict does not decide it (common practice, no source). */
const DECIDES_FROM = 0.1;
/** The way of drilling is a doubt of the work, not a value that could be read before it. */
const EXECUTION = /drill/i;

/** The values that decide the verdicts, those with the largest share first, each once. */
export function decidingValues(verdicts: readonly Verdict[]): readonly Share[] {
  const all = verdicts.flatMap((verdict) =>
    verdict.shares.filter(
      (share) => share.share >= DECIDES_FROM && !EXECUTION.test(share.path) && !EXECUTION.test(share.what),
    ),
  );
  const largest = new Map<string, Share>();
  for (const share of [...all].sort((a, b) => b.share - a.share))
    if (!largest.has(share.path)) largest.set(share.path, share);
  return [...largest.values()];
}

export function readingReasons(
  step: Step,
  verdicts: readonly Verdict[],
  readings: readonly TakenReading[],
): readonly GateReason[] {
  const wanted = step.gate.readings;
  if (wanted === 0) return [];
  return decidingValues(verdicts).map((share) => {
    const taken = readings.filter((reading) => covers(share.path, reading.subject));
    const problem = shortcoming(taken, wanted);
    if (!problem)
      return {
        ok: true,
        text: say`${share.what}: ${wanted === 1 ? "read" : "two independent readings agree"}`,
        ref: share.path,
      };
    return { ok: false, text: say`${share.what}: ${problem}`, ref: share.path, opens: howToOpen(share, taken, wanted) };
  });
}

function shortcoming(taken: readonly TakenReading[], wanted: 1 | 2): Phrase | undefined {
  if (taken.length === 0) return say`it decides and has not been read`;
  if (wanted === 1) return undefined;
  if (taken.length === 1) return say`it decides and has been read once; two independent readings are wanted`;
  const { agreeing, independent, majority } = agreementOf(taken);
  if (agreeing.length < 2 || !majority) return say`the readings differ by more than their doubt allows`;
  return independent ? undefined : say`the readings are not independent: same tool, same placing`;
}

function howToOpen(share: Share, taken: readonly TakenReading[], wanted: 1 | 2): Phrase {
  if (taken.length === 0)
    return wanted === 1
      ? say`read ${share.what}`
      : say`read ${share.what} twice: lift the tool and lay it anew, or take another`;
  return taken.length === 1
    ? say`lift the tool, lay it anew and read ${share.what} again`
    : say`find which one is wrong and read ${share.what} once more, with another tool`;
}
