import { parseArgs } from "node:util";
import { wiringOfJob, writeWiringSvg } from "../../app/wiring-of-job.ts";
import { InputError, spiceOf, type WiringReport } from "../../core/index.ts";
import type { Command } from "../command.ts";
import { choiceFlag, onlyFile } from "../flags.ts";
import { renderState, renderWiring } from "../render-wiring.ts";

export const wiringCommand: Command = {
  name: "wiring",
  summary: "What each state of the wiring sounds like, hums, reads at the jack, and what is wrong with it",
  usage: "wiring FILE [--state STATE] [--svg FILE [--drawing plate|signal]] [--spice] [--json]",
  async run(args, io) {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        state: { type: "string" },
        svg: { type: "string" },
        drawing: { type: "string", default: "plate" },
        spice: { type: "boolean", default: false },
        json: { type: "boolean", default: false },
      },
    });
    const { job, report } = await wiringOfJob(onlyFile(positionals));
    const chosen = values.state === undefined ? undefined : stateNamed(report, values.state);
    if (values.svg !== undefined) {
      const kind = choiceFlag(values.drawing, "--drawing", ["plate", "signal"]);
      await writeWiringSvg({ job, report }, values.svg, { kind, state: chosen });
      io.err(`${values.svg}: ${kind === "plate" ? "the control plate from behind, 1:1" : "the signal"}.`);
    }
    if (values.spice) {
      const states = chosen === undefined ? report.states.map(({ id }) => id) : [chosen];
      io.out(states.map((id) => spiceOf(report, id, `${job.title}, ${id}`)).join("\n"));
    } else if (values.json) io.out(JSON.stringify(asData(report, chosen), undefined, 2));
    else io.out(chosen === undefined ? renderWiring(report, job.title, io) : renderState(report, chosen, io));
    return report.findings.some(({ grade }) => grade === "fault") ? 1 : 0;
  },
};

function stateNamed({ states }: WiringReport, name: string): string {
  if (states.some(({ id }) => id === name)) return name;
  throw new InputError("--state", `there is no state "${name}"`, `Use one of ${states.map(({ id }) => id).join(", ")}`);
}

/** Numbers in base units; an open reading, which JSON has no number for, is null. */
function asData(report: WiringReport, chosen: string | undefined): unknown {
  const { states, findings, blindSpots, guesses, celsius, load, humAgainst } = report;
  return {
    load,
    celsius,
    humAgainst,
    states: chosen === undefined ? states : states.filter(({ id }) => id === chosen),
    findings,
    blindSpots,
    guesses,
  };
}
