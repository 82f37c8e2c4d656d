/** The first answer of a job that was just begun: the verdict, what it hangs on, and what was taken for granted. */
import type { BegunJob } from "../app/begin.ts";
import { shareInWords } from "../app/in-words.ts";
import { weakestValue } from "../core/begin/index.ts";
import type { Verdict } from "../core/verdict/index.ts";
import { phrase, type Style } from "./render-style.ts";
import { readingLine, renderVerdict } from "./render-verdict.ts";
import { paint, printable, wrap } from "./text.ts";

/** From here on a share of the doubt hides the others. */
const MOSTLY = 0.5;

export function renderBegun({ verdicts, notes }: BegunJob, style: Style): string[] {
  const answers = verdicts.map((verdict) => [...renderVerdict(verdict, style), ...weakestLine(verdict, style)]);
  return [
    ...answers.flatMap((lines, index) => (index === 0 ? lines : ["", ...lines])),
    ...(notes.length > 0 ? ["", paint("Taken for granted, or left open", "strong", style.colour)] : []),
    ...notes.flatMap((note) => wrap(phrase(note, style), style.width, "  - ", "    ")),
  ];
}

/** Where nothing is left to doubt, it is time to stop measuring. */
function weakestLine(verdict: Verdict, style: Style): string[] {
  const sure = verdict.probability !== undefined && verdict.probability >= style.gate;
  if ((verdict.status === "go" || verdict.status === "rework") && sure)
    return wrap("Measured enough for this question.", style.width, "  ");
  const weakest = weakestValue(verdict);
  // Values that nobody has given stand in the verdict already, and so does a reading that it asks for.
  if (weakest?.share === undefined) return [];
  const { what, known, share, drilling, next } = weakest;
  const part = `${printable(known)}; ${shareInWords(share)} of the doubt`;
  const asked = verdict.next !== undefined;
  if (!asked && drilling >= MOSTLY) {
    const line = `Weakest is how you drill: ${shareInWords(drilling)} of the doubt. Of the values, ${printable(what)} (${part}); another reading alone would hardly help.`;
    return wrap(line, style.width, "  ", "    ");
  }
  const better = asked ? "" : ` Best next: ${readingLine(next)}`;
  return wrap(`Weakest value: ${printable(what)} (${part}).${better}`, style.width, "  ", "    ");
}
