import { parseArgs } from "node:util";
import { exportJob } from "../../app/export-job.ts";
import { InputError } from "../../core/errors.ts";
import type { Command } from "../command.ts";
import { requiredFlag } from "../flags.ts";
import { DATA_OPTION, withLog } from "../with-log.ts";

export const exportCommand: Command = {
  name: "export",
  summary: "Write one job of the log as one file: all there is of it, or its document as YAML",
  usage: "export JOB --out FILE.fettle.json|FILE.yaml [--replace] [--data FOLDER]",
  async run(args, io) {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { ...DATA_OPTION, out: { type: "string" }, replace: { type: "boolean", default: false } },
    });
    const [job, extra] = positionals;
    if (job === undefined) throw new InputError("JOB", "is missing", "Name one; list them with: fettle jobs");
    if (extra !== undefined) throw new InputError(extra, "is one name too many", "Name one job");
    const out = requiredFlag(values.out, "--out", `${job}.fettle.json`);
    const options = { replace: values.replace, where: "--out" };
    await withLog(values.data, ({ keeper }) => exportJob(keeper, job, out, options));
    io.out(out);
    return 0;
  },
};
