import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from "vitest";
import { askJob, assessJob, openJob } from "../../src/app/assess-job.ts";
import { InputError } from "../../src/core/errors.ts";
import * as core from "../../src/core/index.ts";
import { verdict } from "../support/verdicts.ts";

// What the core answers is tested there; this is about what happens between it and the file.
vi.mock("../../src/core/index.ts", async (original) => ({
  ...(await original<typeof core>()),
  loadJob: vi.fn(),
  assess: vi.fn(),
  ask: vi.fn(),
  questionsOf: vi.fn(),
}));

let folder: string;
let file: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "fettle-assess-"));
  file = join(folder, "job.yaml");
  await writeFile(file, "strings:\n  - gauge: 0.330\n  - gauge: -1\n");
});
afterAll(() => rm(folder, { recursive: true }));
beforeEach(() => {
  vi.mocked(core.questionsOf).mockReturnValue([
    { id: "bridge.window", question: "Where must this bridge stand?" },
    { id: "bridge.side", question: "Where sideways?" },
  ]);
});

describe("a value that the core refuses", () => {
  it("is named with its file, line and path", async () => {
    vi.mocked(core.loadJob).mockImplementation(() => {
      throw new InputError("strings[1].gauge", "must be above 0 mm, got -1", "Measure it");
    });
    await expect(openJob(file)).rejects.toThrow(
      "job.yaml, line 3, strings[1].gauge: must be above 0 mm, got -1. Measure it.",
    );
  });

  it("is named without a line where there is none", async () => {
    vi.mocked(core.loadJob).mockImplementation(() => {
      throw new InputError("fettle", "is missing", "Add it");
    });
    await expect(openJob(file)).rejects.toThrow("job.yaml, fettle: is missing. Add it.");
  });

  it("does not hide a fault of the program", async () => {
    vi.mocked(core.loadJob).mockImplementation(() => {
      throw new RangeError("a fault");
    });
    await expect(openJob(file)).rejects.toThrow(RangeError);
  });
});

describe("questions", () => {
  beforeEach(() => {
    vi.mocked(core.loadJob).mockReset();
    vi.mocked(core.assess).mockReturnValue([verdict({ id: "bridge.window" })]);
    vi.mocked(core.ask).mockImplementation((_job, id) => verdict({ id }));
  });

  it("are all answered, or one", async () => {
    expect((await assessJob(file)).verdicts.map(({ id }) => id)).toEqual(["bridge.window"]);
    expect((await askJob(file, "bridge.side")).id).toBe("bridge.side");
  });

  it("that are not there lead to those that are", async () => {
    await expect(askJob(file, "bridge")).rejects.toThrow(
      "bridge: is not a question of job.yaml. Did you mean bridge.window or bridge.side.",
    );
    await expect(askJob(file, "sound")).rejects.toThrow(`List them with: fettle ask ${file}.`);
  });
});
