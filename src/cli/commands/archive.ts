import { parseArgs } from "node:util";
import { archiveText } from "../../app/archive.ts";
import { keepFile } from "../../app/whole-file.ts";
import { InputError } from "../../core/errors.ts";
import type { Command } from "../command.ts";
import { requiredFlag } from "../flags.ts";
import { DATA_OPTION, withLog } from "../with-log.ts";

export const archiveCommand: Command = {
  name: "archive",
  summary: "Write the whole log, photographs included, as one file to keep elsewhere",
  usage: "archive --out FILE [--replace] [--data FOLDER]",
  async run(args, io) {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { ...DATA_OPTION, out: { type: "string" }, replace: { type: "boolean", default: false } },
    });
    const [extra] = positionals;
    if (extra !== undefined) throw new InputError(extra, "is one name too many", "Name the file with --out");
    const out = requiredFlag(values.out, "--out", "fettle-archive.ndjson");
    const options = { replace: values.replace, where: "--out" };
    await withLog(values.data, ({ keeper }) => keepFile(out, archiveText(keeper, new Date()), options));
    io.out(out);
    return 0;
  },
};
