/** Which values decide a step, and whether each has been read well enough. */
import { covers } from "../job/index.ts";
import { type Phrase, say } from "../quantity/index.ts";
import { howToMeasure } from "../questions/index.ts";
import type { Share, Verdict } from "../verdict/index.ts";
import { agreementOf } from "./agreement.ts";
import type { GateReason, Step, TakenReading } from "./types.ts";

/** A value with less than this part in the doubt of a verdict does not decide it (common practice, no source). */
const DECIDES_FROM = 0.1;
/** A slip in reading, in standard uncertainties of the tool: a calliper's 0.5 mm, a rule's 2.5 (common practice, no source). */
const SLIP = 10;
/** How a drill or a router runs is a doubt of the work, not a value that could be read before it. */
const EXECUTION = /drill|^workshop\./i;

/** The values that decide the verdicts, those with the largest share first, each once. */
export function decidingValues(verdicts: readonly Verdict[]): readonly Share[] {
  const all = verdicts.flatMap((verdict) => verdict.shares.filter((share) => decides(share, verdict)));
  const largest = new Map<string, Share>();
  for (const share of [...all].sort((a, b) => b.share - a.share))
    if (!largest.has(share.path)) largest.set(share.path, share);
  return [...largest.values()];
}

/** A second reading is there to catch a slip: it is asked for where a slip would eat the margin. */
function decides(share: Share, { margin }: Verdict): boolean {
  if (share.share < DECIDES_FROM || EXECUTION.test(share.path) || EXECUTION.test(share.what)) return false;
  return margin === undefined || SLIP * Math.sqrt(share.share) * margin.u >= margin.value;
}

export function readingReasons(
  step: Step,
  verdicts: readonly Verdict[],
  readings: readonly TakenReading[],
): readonly GateReason[] {
  const wanted = step.gate.readings;
  if (wanted === 0) return [];
  return decidingValues(verdicts).map((share) => {
    const path = readAs(share.path, readings);
    const taken = readings.filter((reading) => covers(path, reading.subject));
    const problem = shortcoming(taken, wanted);
    const name = nameOf(path);
    if (!problem)
      return { ok: true, text: say`${name}: ${wanted === 1 ? "read" : "two independent readings agree"}`, ref: path };
    return { ok: false, text: say`${name}: ${problem}`, ref: path, opens: howToOpen(path, taken, wanted) };
  });
}

/** A setback is a difference that nobody reads: its old saddle is, or how sharp the string is at a trial. */
function readAs(path: string, readings: readonly TakenReading[]): string {
  const string = /^((?:strings|spares)\.\d+)\.setback$/.exec(path)?.[1];
  if (string === undefined) return path;
  const ways = [`${string}.oldSaddle.fret12ToContact`, `${string}.cents`, path];
  return ways.find((way) => readings.some(({ subject }) => covers(way, subject))) ?? `${string}.cents`;
}

/** "string 4: how sharp the string is at fret 12". */
function nameOf(path: string): Phrase {
  const [, spare, string] = /^(?:strings|(spares))\.(\d+)\./.exec(path) ?? [];
  const { what } = howToMeasure(path);
  return string === undefined ? say`${what}` : say`${spare === undefined ? "" : "spare "}string ${string}: ${what}`;
}

function shortcoming(taken: readonly TakenReading[], wanted: 1 | 2): Phrase | undefined {
  if (taken.length === 0) return say`it decides and has not been read`;
  if (wanted === 1) return undefined;
  if (taken.length === 1) return say`it decides and has been read once; two independent readings are wanted`;
  const { agreeing, independent, majority } = agreementOf(taken);
  if (agreeing.length < 2 || !majority) return say`the readings differ by more than their doubt allows`;
  return independent ? undefined : say`the readings are not independent: same tool, same placing`;
}

function howToOpen(path: string, taken: readonly TakenReading[], wanted: 1 | 2): Phrase {
  const { tool, how } = howToMeasure(path);
  if (taken.length === 0)
    return wanted === 1
      ? say`${tool}: ${how}`
      : say`${tool}: ${how}. Twice: lift it and lay it anew, or take another tool`;
  if (taken.length === 1) return say`once more with the tool laid anew, or with another. ${tool}: ${how}`;
  return say`find which one is wrong, and read it once more with another tool. ${tool}: ${how}`;
}
