/** Whatever a verdict or a step of the traveller asks for can be entered as a reading, and is then no longer missing. */
import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { assess, kindOfSubject, loadJob, travellerOf } from "../../../src/core/index.ts";
import { BASE_UNIT, type Kind, type Known, type Quantity, toolNamed } from "../../../src/core/quantity/index.ts";
import { askOf, example, fixture, type JobData, withReading } from "../questions/jobs.ts";

const JOBS: readonly (readonly [string, JobData])[] = [
  ["lowtide", example("lowtide")],
  ["ferry", example("ferry")],
  ...readdirSync("test/fixtures/jobs").map((file): readonly [string, JobData] => {
    const name = file.replace(/\.yaml$/, "");
    return [name, fixture(name)];
  }),
];

/** Likely figures where nobody has given one, in the base unit. */
const LIKELY: Partial<Record<Kind, number>> = { length: 20, cents: 4, count: 8, ratio: 0.45, mass: 80, angle: 1 };

/** What no likely figure fits: the core of a 3 mm screw; half of a scale of 864, and the line 264 from the end wall. */
const FITTING: readonly (readonly [RegExp, number])[] = [
  [/\.screws\[\d+\]\.core$/, 2.2],
  [/^neck\.nutToFret12$/, 432],
  [/^scaleLine\.u$/, 264],
];

interface AskedFor {
  readonly path: string;
  readonly tool: string;
}

/** Every value of the instrument that is known, by its path. */
function knownIn(value: unknown, found = new Map<string, Known>()): ReadonlyMap<string, Known> {
  if (typeof value !== "object" || value === null) return found;
  if ("known" in value && "path" in value) {
    const quantity = value as Quantity;
    if (quantity.known) found.set(quantity.path, quantity);
    return found;
  }
  for (const item of Object.values(value)) knownIn(item, found);
  return found;
}

/** As the page writes it: the number, its unit, and the tool if the program knows one of that name. */
function written(data: JobData, { path, tool }: AskedFor): string {
  const job = loadJob(data);
  const kind = kindOfSubject(job, path);
  if (kind === undefined) throw new Error(`${path} is not a value of the job`);
  const fitting = FITTING.find(([matches]) => matches.test(path))?.[1];
  const value = knownIn(job.instrument).get(path)?.value ?? fitting ?? LIKELY[kind] ?? 10;
  return `${value} ${BASE_UNIT[kind]} ${toolNamed(tool) ? `(${tool})` : ""}`;
}

function entered(data: JobData, asked: AskedFor): JobData {
  return withReading(data, { id: "asked-for", of: asked.path, value: written(data, asked) });
}

/** What goes wrong, in one line; nothing where the reading is taken. */
function refusalOf(asked: AskedFor, enter: () => void): string[] {
  try {
    enter();
    return [];
  } catch (error) {
    return [`${asked.path} (${asked.tool}): ${error instanceof Error ? error.message : "refused"}`];
  }
}

function unique(all: readonly AskedFor[]): AskedFor[] {
  return [...new Map(all.map((one) => [`${one.path} ${one.tool}`, one])).values()];
}

describe.each(JOBS)("%s", (_, data) => {
  const job = loadJob(data);
  const verdicts = assess(job);

  it("takes every reading that a verdict asks for", () => {
    const asked = unique(verdicts.flatMap(({ next, missing }) => [...(next ? [next] : []), ...missing]));
    expect(asked.flatMap((one) => refusalOf(one, () => loadJob(entered(data, one))))).toEqual([]);
  });

  it("no longer asks for what was missing once it has been read", () => {
    const again = verdicts.flatMap(({ id, missing }) =>
      missing.flatMap(({ path, tool }) =>
        refusalOf({ path, tool }, () => {
          const after = askOf(entered(data, { path, tool }), id);
          if (after.missing.some((one) => one.path === path)) throw new Error(`still asked by ${id}`);
        }),
      ),
    );
    expect(again).toEqual([]);
  });

  it("takes every reading that a step asks for", () => {
    const asked = travellerOf(job, verdicts).steps.flatMap(({ readings }) =>
      readings.map(({ subject, tool }): AskedFor => ({ path: subject, tool })),
    );
    const refused = unique(asked).flatMap((one) =>
      refusalOf(one, () => {
        const { resolved } = loadJob(entered(data, one));
        if (!resolved.valid.some(({ id }) => id === "asked-for"))
          throw new Error("entered, and not among the readings");
      }),
    );
    expect(refused).toEqual([]);
  });
});

describe("kindOfSubject", () => {
  const job = loadJob(example("lowtide"));

  it.each([
    ["neck.nutToFret12", "length"],
    ["instrument.neck.nutToFret12", "length"],
    ["strings.1.cents", "cents"],
    ["body.specificGravity", "ratio"],
    ["asLeft.strings.1.cents", "cents"],
    ["ohms.position-1.ohms", "resistance"],
  ])("%s is read as %s", (path, kind) => {
    expect(kindOfSubject(job, path)).toBe(kind);
  });

  it("knows no kind of what is no value of the job", () => {
    expect(kindOfSubject(job, "neck.colour")).toBeUndefined();
  });
});
