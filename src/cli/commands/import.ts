import { parseArgs } from "node:util";
import { type Imported, importFile } from "../../app/import-job.ts";
import type { Command } from "../command.ts";
import { onlyFile } from "../flags.ts";
import { printable, wrap } from "../text.ts";
import { DATA_OPTION, withLog } from "../with-log.ts";

export const importCommand: Command = {
  name: "import",
  summary: "Bring a job file or an exported job into the log; twice is once",
  usage: "import FILE [--data FOLDER]",
  async run(args, io) {
    const { values, positionals } = parseArgs({ args: [...args], allowPositionals: true, options: DATA_OPTION });
    const file = onlyFile(positionals);
    const imported = await withLog(values.data, ({ keeper }) => importFile(keeper, file, new Date()));
    io.out(wrap(printable(inWords(imported)), io.width).join("\n"));
    if (imported.unnamed) {
      const advice = `The file has no id that can be used. Write \`id: ${imported.id}\` under \`job:\`, so that the file, once changed, changes this job and does not come in as another.`;
      io.err(wrap(advice, io.width).join("\n"));
    }
    return 0;
  },
};

function inWords({ id, title, added, fresh }: Imported): string {
  const job = `${id}, ${title}`;
  if (fresh) return `Brought in: ${job}.`;
  if (added === 0) return `Nothing differs: ${job}, is in the log already.`;
  return `Changed: ${job}. ${added} ${added === 1 ? "entry" : "entries"} added; what was there before stays in its history.`;
}
