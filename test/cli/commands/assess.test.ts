import { beforeEach, describe, expect, it, vi } from "vitest";
import * as app from "../../../src/app/assess-job.ts";
import { askCommand } from "../../../src/cli/commands/ask.ts";
import { assessCommand } from "../../../src/cli/commands/assess.ts";
import { runCommand } from "../../../src/cli/run-cli.ts";
import type { Verdict } from "../../../src/core/verdict/index.ts";
import { recordedIo } from "../../support/recorded-io.ts";
import { EMPTY_WINDOW, verdict } from "../../support/verdicts.ts";

vi.mock("../../../src/app/assess-job.ts");

const fits = verdict({ id: "lever.depth" });

function answering(...verdicts: Verdict[]): void {
  vi.mocked(app.assessJob, { partial: true }).mockResolvedValue({ verdicts });
}

async function run(command: typeof assessCommand, ...args: string[]) {
  const io = recordedIo();
  const exitCode = await runCommand("fettle", command, args, io);
  return { exitCode, ...io.printed };
}

describe("assess", () => {
  beforeEach(() => answering(fits, EMPTY_WINDOW));

  it("ends with 1 when something is not go, and with 0 when everything is", async () => {
    expect((await run(assessCommand, "job.yaml")).exitCode).toBe(1);
    answering(fits);
    expect(await run(assessCommand, "job.yaml")).toEqual({
      exitCode: 0,
      out: "Nothing stands in the way.\n\n1 go: lever.depth\n\nNext: write the papers and begin.\n",
      err: "",
    });
  });

  it("gives machines the verdicts as they are, worst first", async () => {
    const { out } = await run(assessCommand, "job.yaml", "--json");
    expect(JSON.parse(out)).toEqual(JSON.parse(JSON.stringify({ verdicts: [EMPTY_WINDOW, fits] })));
  });

  it("opens one sum", async () => {
    const { out, exitCode } = await run(assessCommand, "job.yaml", "--sum", "bridge.window", "--units", "inch");
    expect(out).toContain("P_max = min over the strings of (S + s_i - r - a_i)");
    expect(out).toContain("7.1654 in (u 0.0059)"); // 182 and 0.15 over 25.4
    expect(exitCode).toBe(1);
  });

  it("names the questions there are when the sum asked for is not one", async () => {
    expect(await run(assessCommand, "job.yaml", "--sum", "bridge")).toEqual({
      exitCode: 2,
      out: "",
      err: `--sum: there is no question "bridge". Use one of bridge.window.\nusage: fettle ${assessCommand.usage}\n`,
    });
  });
});

describe("ask", () => {
  it("lists the questions when none is named", async () => {
    vi.mocked(app.questionsOfJob).mockResolvedValue([
      { id: "bridge.window", question: "Where must this bridge stand?" },
    ]);
    expect(await run(askCommand, "job.yaml")).toEqual({
      exitCode: 0,
      out: "bridge.window  Where must this bridge stand?\n",
      err: "",
    });
  });

  it("answers one, with its sum if asked", async () => {
    vi.mocked(app.askJob).mockResolvedValue(EMPTY_WINDOW);
    const { out, exitCode } = await run(askCommand, "bridge.window", "job.yaml");
    expect(vi.mocked(app.askJob)).toHaveBeenCalledWith("job.yaml", "bridge.window");
    expect(exitCode).toBe(1);
    expect(out).not.toContain("Source: ");
    expect((await run(askCommand, "bridge.window", "job.yaml", "--sum")).out).toContain(
      "Source: plain geometry (derived)",
    );
  });

  it("asks for a file", async () => {
    expect((await run(askCommand)).err).toContain("FILE: is missing.");
  });
});
