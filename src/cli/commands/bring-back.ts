import { parseArgs } from "node:util";
import { bringBack } from "../../app/bring-back.ts";
import { InputError } from "../../core/errors.ts";
import type { Command } from "../command.ts";
import { DATA_OPTION, withLog } from "../with-log.ts";

export const bringBackCommand: Command = {
  name: "bring-back",
  summary: "Put an archive into the log; what is there stays, twice is once",
  usage: "bring-back FILE [--data FOLDER]",
  async run(args, io) {
    const { values, positionals } = parseArgs({ args: [...args], allowPositionals: true, options: DATA_OPTION });
    const [file, extra] = positionals;
    if (file === undefined) throw new InputError("FILE", "is missing", "Name a file that `fettle archive` wrote");
    if (extra !== undefined) throw new InputError(extra, "is one name too many", "Name one archive");
    const { entries, added, photographs } = await withLog(values.data, ({ keeper }) => bringBack(keeper, file));
    io.out(`${entries} entries and ${photographs} photographs read, all whole; ${added} entries were new to the log.`);
    return 0;
  },
};
