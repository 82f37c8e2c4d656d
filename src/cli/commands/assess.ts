import { parseArgs } from "node:util";
import { assessJob } from "../../app/assess-job.ts";
import { worstFirst } from "../../core/briefing/index.ts";
import { InputError } from "../../core/errors.ts";
import { GATE_CHANCE } from "../../core/ledger/index.ts";
import type { Verdict } from "../../core/verdict/index.ts";
import type { Command, ExitCode } from "../command.ts";
import { choiceFlag, onlyFile } from "../flags.ts";
import { renderAssessment } from "../render-assessment.ts";
import type { Style } from "../render-style.ts";
import { renderSums } from "../render-sum.ts";
import { renderVerdict } from "../render-verdict.ts";

export const assessCommand: Command = {
  name: "assess",
  summary: "Answer every question of a job: what stands in the way, what goes, what to do next",
  usage: "assess FILE [--units mm|inch] [--sum QUESTION] [--json]",
  async run(args, io) {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        units: { type: "string", default: "mm" },
        sum: { type: "string" },
        json: { type: "boolean", default: false },
      },
    });
    const style: Style = {
      units: choiceFlag(values.units, "--units", ["mm", "inch"]),
      width: io.width,
      colour: io.colour,
      gate: GATE_CHANCE,
    };
    const { verdicts } = await assessJob(onlyFile(positionals));
    if (values.sum !== undefined) {
      const verdict = named(verdicts, values.sum);
      io.out(
        values.json ? asJson(verdict) : [...renderVerdict(verdict, style), ...renderSums(verdict, style)].join("\n"),
      );
      return exitCode([verdict]);
    }
    io.out(values.json ? asJson({ verdicts: worstFirst(verdicts) }) : renderAssessment(verdicts, style));
    return exitCode(verdicts);
  },
};

export function exitCode(verdicts: readonly Verdict[]): ExitCode {
  return verdicts.every(({ status }) => status === "go") ? 0 : 1;
}

function named(verdicts: readonly Verdict[], id: string): Verdict {
  const verdict = verdicts.find((known) => known.id === id);
  if (verdict) return verdict;
  const near = verdicts.filter((known) => known.id.includes(id)).map((known) => known.id);
  throw new InputError(
    "--sum",
    `there is no question "${id}"`,
    `Use one of ${(near.length ? near : verdicts.map((known) => known.id)).join(", ")}`,
  );
}

function asJson(value: unknown): string {
  return JSON.stringify(value, undefined, 2);
}
