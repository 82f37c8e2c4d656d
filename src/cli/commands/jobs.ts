import { parseArgs } from "node:util";
import { allJobs } from "../../app/job-in-log.ts";
import { InputError } from "../../core/errors.ts";
import type { Command } from "../command.ts";
import { printable, table } from "../text.ts";
import { DATA_OPTION, withLog } from "../with-log.ts";

export const jobsCommand: Command = {
  name: "jobs",
  summary: "List the jobs of the log, last changed first",
  usage: "jobs [--search TEXT] [--data FOLDER] [--json]",
  async run(args, io) {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { ...DATA_OPTION, search: { type: "string" }, json: { type: "boolean", default: false } },
    });
    const [extra] = positionals;
    if (extra !== undefined) throw new InputError(extra, "is one name too many", "Look for it with --search");
    const jobs = await withLog(values.data, ({ keeper }) => allJobs(keeper, values.search));
    if (values.json) io.out(JSON.stringify(jobs, undefined, 2));
    else if (jobs.length === 0) io.err("There is no such job yet. Bring one in: fettle import FILE");
    else {
      const rows = jobs.map(({ id, title, changed }) => [
        printable(id),
        changed.slice(0, 16).replace("T", " "),
        printable(title),
      ]);
      io.out(table(rows, ["left", "left", "left"], io.width).join("\n"));
    }
    return 0;
  },
};
