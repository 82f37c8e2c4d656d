import { parseArgs } from "node:util";
import { openJob } from "../../app/assess-job.ts";
import { makePapers } from "../../app/make-papers.ts";
import { printCorrection } from "../../app/print-correction.ts";
import { writePapers } from "../../app/write-papers.ts";
import type { Command } from "../command.ts";
import { choiceFlag, onlyFile, requiredFlag } from "../flags.ts";

export const papersCommand: Command = {
  name: "papers",
  summary: "Write the papers of a job: traveller, templates, tables",
  usage:
    'papers FILE --out FOLDER [--paper A4|Letter] [--units mm|inch] [--printed "DOWN, ACROSS, DIAGONAL, DIAGONAL, CODE"]',
  async run(args, io) {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        out: { type: "string" },
        paper: { type: "string", default: "A4" },
        units: { type: "string", default: "mm" },
        printed: { type: "string" },
      },
    });
    const file = onlyFile(positionals);
    const out = requiredFlag(values.out, "--out", "out/lowtide");
    const paper = choiceFlag(values.paper, "--paper", ["A4", "Letter"]);
    const units = choiceFlag(values.units, "--units", ["mm", "inch"]);
    const correction = values.printed === undefined ? undefined : printCorrection(values.printed, "--printed", paper);

    const { job } = await openJob(file);
    const written = await writePapers(await makePapers(job, { paper, units, correction, now: new Date() }), out);
    io.out(written.join("\n"));
    if (values.printed !== undefined && !correction) io.err("That print is true: it may be used as it is.");
    return 0;
  },
};
