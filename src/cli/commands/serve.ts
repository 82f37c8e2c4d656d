import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { loadedJob } from "../../app/job-in-log.ts";
import { type Briefing, briefing } from "../../core/briefing/index.ts";
import { InputError } from "../../core/errors.ts";
import { assess } from "../../core/index.ts";
import { GATE_CHANCE } from "../../core/ledger/index.ts";
import { serve } from "../../server/index.ts";
import type { Keeper } from "../../store/index.ts";
import type { Command, Io } from "../command.ts";
import { portFlag } from "../flags.ts";
import { phrase, type Style, statusWord } from "../render-style.ts";
import { printable, wrap } from "../text.ts";
import { DATA_OPTION, withLog } from "../with-log.ts";

const USUAL_PORT = 4717;

/** The built page lies beside the built command line. */
const PAGE_FOLDER = fileURLToPath(new URL("../../web/", import.meta.url));

export const serveCommand: Command = {
  name: "serve",
  summary: "Open the page to the jobs of the log, on this computer only, until Ctrl-C",
  usage: "serve [--port N] [--data FOLDER]",
  async run(args, io) {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { ...DATA_OPTION, port: { type: "string" } },
    });
    const [extra] = positionals;
    if (extra !== undefined)
      throw new InputError(extra, "is one name too many", "Bring a file in first: fettle import FILE");
    const asked = values.port === undefined ? undefined : portFlag(values.port, "--port");
    await withLog(values.data, async ({ keeper, path }) => {
      const serving = await serve({
        keeper,
        pageFolder: PAGE_FOLDER,
        version: io.version ?? "unknown",
        log: (line) => io.err(`This is a fault of fettle, not of what you did.\n${line}`),
        port: asked ?? USUAL_PORT,
        orNext: asked === undefined,
      });
      try {
        for (const line of await lastJobInBrief(keeper, io)) io.out(line);
        io.out(`The log is ${path}`);
        io.out(`Open ${serving.address} in a browser on this computer. Ctrl-C stops.`);
        await io.untilStopped?.();
      } finally {
        await serving.close();
      }
      io.err("Stopped.");
    });
    return 0;
  },
};

/** What stands in the way of the job that was changed last. A job that cannot be asked about yet must not stop the page. */
async function lastJobInBrief(keeper: Keeper, io: Io): Promise<string[]> {
  const [last] = (await keeper.jobs({ limit: 1 })).jobs;
  if (!last) return ["No job is in the log yet."];
  const style: Style = { units: "mm", width: io.width, colour: io.colour, gate: GATE_CHANCE };
  try {
    const job = await loadedJob(keeper, last.id);
    return inBrief(job.title, briefing(assess(job)), style);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return wrap(printable(`${last.title || last.id}: ${error.message}`), io.width);
  }
}

/** Three lines at most, each cut where it ends: the page has the whole. */
function inBrief(title: string, { inFull, inBrief: more }: Briefing, style: Style): string[] {
  if (inFull.length === 0) return [`${printable(title)}: nothing stands in the way.`];
  const count = inFull.length + more.length;
  const lines = inFull.slice(0, 2).map(({ status, headline }) => {
    const room = style.width - status.length - 4;
    const text = phrase(headline, style);
    return `  ${statusWord(status, style)}: ${text.length > room ? `${text.slice(0, room - 1).trimEnd()}…` : text}`;
  });
  return [
    `${printable(title)}: ${count} ${count === 1 ? "question stands" : "questions stand"} in the way, worst first`,
    ...lines,
  ];
}
