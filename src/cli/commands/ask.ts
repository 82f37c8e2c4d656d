import { parseArgs } from "node:util";
import { askJob, questionsOfJob } from "../../app/assess-job.ts";
import { GATE_CHANCE } from "../../core/ledger/index.ts";
import type { Command } from "../command.ts";
import { choiceFlag, onlyFile } from "../flags.ts";
import type { Style } from "../render-style.ts";
import { renderSums } from "../render-sum.ts";
import { renderVerdict } from "../render-verdict.ts";
import { printable, table } from "../text.ts";
import { exitCode } from "./assess.ts";

export const askCommand: Command = {
  name: "ask",
  summary: "Answer one question of a job, or list the questions when none is named",
  usage: "ask [QUESTION] FILE [--units mm|inch] [--sum] [--json]",
  async run(args, io) {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        units: { type: "string", default: "mm" },
        sum: { type: "boolean", default: false },
        json: { type: "boolean", default: false },
      },
    });
    const units = choiceFlag(values.units, "--units", ["mm", "inch"]);
    const [id] = positionals.length > 1 ? positionals : [];
    const file = onlyFile(positionals.length > 1 ? positionals.slice(1) : positionals);
    if (id === undefined) {
      const questions = await questionsOfJob(file);
      const rows = questions.map((known) => [printable(known.id), printable(known.question)]);
      io.out(
        values.json ? JSON.stringify(questions, undefined, 2) : table(rows, ["left", "left"], io.width).join("\n"),
      );
      return 0;
    }
    const style: Style = { units, width: io.width, colour: io.colour, gate: GATE_CHANCE };
    const verdict = await askJob(file, id);
    const lines = [...renderVerdict(verdict, style), ...(values.sum ? renderSums(verdict, style) : [])];
    io.out(values.json ? JSON.stringify(verdict, undefined, 2) : lines.join("\n"));
    return exitCode([verdict]);
  },
};
