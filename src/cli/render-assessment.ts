/** An assessment as a note: what stands in the way, worst first; what goes, folded; the next action last. */
import { type Briefing, briefing, type NextAction } from "../core/briefing/index.ts";
import type { Verdict } from "../core/verdict/index.ts";
import { chance, phrase, type Style, statusWord } from "./render-style.ts";
import { permanenceNote, readingLine, renderVerdict } from "./render-verdict.ts";
import { paint, printable, table, wrap } from "./text.ts";

/** Below this, three columns leave no room for a sentence. */
const WIDTH_OF_A_TABLE = 80;

/** The verdicts of one job as lines of text. */
export function renderAssessment(verdicts: readonly Verdict[], style: Style): string {
  const brief = briefing(verdicts);
  return [
    ...inTheWay(brief, style),
    ...whatGoes(brief.go, style),
    "",
    ...wrap(`${paint("Next:", "strong", style.colour)} ${nextLine(brief.next, style)}`, style.width, "", "      "),
  ].join("\n");
}

function inTheWay({ inFull, inBrief }: Briefing, style: Style): string[] {
  if (inFull.length === 0) return [paint("Nothing stands in the way.", "strong", style.colour)];
  const lines = [paint("What stands in the way, worst first", "strong", style.colour)];
  for (const [index, verdict] of inFull.entries()) {
    lines.push("", ...numbered(index + 1, renderVerdict(verdict, { ...style, width: style.width - 3 })));
  }
  if (inBrief.length > 0)
    lines.push("", paint("Also in the way", "strong", style.colour), ...oneLineEach(inBrief, style));
  return lines;
}

function numbered(number: number, lines: readonly string[]): string[] {
  return lines.map((line, index) => (index === 0 ? `${number}. ${line}` : line && `   ${line}`));
}

function oneLineEach(verdicts: readonly Verdict[], style: Style): string[] {
  const rows = verdicts.map((verdict) => [
    statusWord(verdict.status, style),
    printable(verdict.id),
    phrase(verdict.headline, style),
  ]);
  if (style.width >= WIDTH_OF_A_TABLE) return table(rows, ["left", "left", "left"], style.width, "  ");
  return rows.flatMap(([status, id, headline]) => wrap(`${status} ${id}: ${headline}`, style.width, "  ", "    "));
}

function whatGoes(go: readonly Verdict[], style: Style): string[] {
  if (go.length === 0) return [];
  const count = paint(`${go.length} go`, "good", style.colour);
  return ["", ...wrap(`${count}: ${go.map(({ id }) => printable(id)).join(", ")}`, style.width, "", "  ")];
}

function nextLine(next: NextAction, style: Style): string {
  switch (next.kind) {
    case "measure":
      return `${readingLine(next.reading)} (for ${printable(next.verdict.id)})`;
    case "decide": {
      const { remedy, verdict } = next;
      const odds = remedy.probability === undefined ? "" : `, chance ${chance(remedy.probability, style)}`;
      return `decide on ${printable(verdict.id)}. Best way out: ${phrase(remedy.text, style)} (${permanenceNote(remedy.permanence)}${odds}).`;
    }
    case "look":
      return `look into ${printable(next.verdict.id)}; nothing here can settle it.`;
    case "work":
      return "nothing is left to find out: write the papers and start with the first step of the traveller.";
    case "begin":
      return "write the papers and begin.";
  }
}
