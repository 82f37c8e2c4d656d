import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { parse } from "yaml";
import { assess, loadJob, travellerOf } from "../../../src/core/index.ts";
import { fileWorkOf, logOf } from "../../../src/core/job/index.ts";

it.each(["lowtide", "ferry"])("every step's work of %s is written and read back as the same work", (name) => {
  const job = loadJob(parse(readFileSync(`examples/${name}.yaml`, "utf8")));
  const works = travellerOf(job, assess(job)).steps.flatMap(({ work }) => work ?? []);
  expect(works.length).toBeGreaterThan(5);
  for (const work of works) {
    const written = fileWorkOf(work);
    if (written === undefined) {
      expect(["insulate", "bare contact", "buy", "choose"]).toContain(work.act);
      continue;
    }
    const file = { ...job.parsed.file, operations: [{ id: "op", work: JSON.parse(JSON.stringify(written)) }] };
    const [read] = logOf(file);
    expect(read).toEqual({ id: "op", work });
  }
});
