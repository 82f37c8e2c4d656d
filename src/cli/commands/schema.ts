import { parseArgs } from "node:util";
import { jobSchema } from "../../core/index.ts";
import type { Command } from "../command.ts";

export const schemaCommand: Command = {
  name: "schema",
  summary: "Print the JSON Schema of a job file, for editors",
  usage: "schema",
  async run(args, io) {
    parseArgs({ args: [...args], options: {} });
    io.out(JSON.stringify(jobSchema(), undefined, 2));
    return 0;
  },
};
