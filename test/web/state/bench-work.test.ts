import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { assess, loadJob, travellerOf } from "../../../src/core/index.ts";
import { type Change, createFold, entriesFor, type Fold, type Json } from "../../../src/core/log/index.ts";
import { printed, takeStepBack, tickOff } from "../../../src/web/state/bench-work.ts";
import { addReading } from "../../../src/web/state/readings.ts";

let clock = 0;
function next(): string {
  clock += 10;
  return new Date(Date.UTC(2026, 4, 1, 8, clock)).toISOString();
}

function write(fold: Fold, words: string, changes: readonly Change[]): void {
  const at = next();
  fold.add(entriesFor(fold, { job: "B-112", device: "bench", from: Date.parse(at), at }, words, [...changes]));
}

function ferry(): Fold {
  const fold = createFold();
  write(fold, "opened", [{ path: "", value: parse(readFileSync("examples/ferry.yaml", "utf8")) as Json }]);
  return fold;
}

const jobOf = (fold: Fold) => loadJob(fold.read().data, next());

function stepOf(fold: Fold, id: string) {
  const job = jobOf(fold);
  const step = travellerOf(job, assess(job)).steps.find((one) => one.id === id);
  if (!step) throw new Error(`no step ${id}`);
  return step;
}

const gapsOf = (fold: Fold) =>
  jobOf(fold).resolved.valid.flatMap(({ subject, after }) => (subject === "neck.heelGap" ? [after] : []));

function read(fold: Fold, of: string, value: string): void {
  write(fold, `read ${of}`, addReading(fold, { of, value, at: next() }));
}

describe("[PG1] a step ticked off", () => {
  it("keeps what was read of what it left, though its work makes void what was read before", () => {
    const fold = ferry();
    write(fold, "done", tickOff(fold, stepOf(fold, "neck-off"), next()));
    const step = stepOf(fold, "neck-on");
    expect(step.readings.map(({ subject }) => subject)).toContain("neck.heelGap");
    write(
      fold,
      "read",
      addReading(fold, { of: "neck.heelGap", value: "0 mm (feeler)", at: next(), after: "neck-off" }),
    );
    write(fold, "done", tickOff(fold, step, next()));
    expect(gapsOf(fold)).toEqual(["neck-on"]);
  });

  it("leaves void what was read before the step was in hand", () => {
    const fold = ferry();
    read(fold, "neck.heelGap", "0.3 mm (feeler)");
    write(fold, "done", tickOff(fold, stepOf(fold, "neck-off"), next()));
    write(fold, "done", tickOff(fold, stepOf(fold, "neck-on"), next()));
    expect(gapsOf(fold)).toEqual([]);
  });

  it("taken back gives the reading back to what stands without it", () => {
    const fold = ferry();
    write(fold, "done", tickOff(fold, stepOf(fold, "neck-off"), next()));
    write(
      fold,
      "read",
      addReading(fold, { of: "neck.heelGap", value: "0 mm (feeler)", at: next(), after: "neck-off" }),
    );
    write(fold, "done", tickOff(fold, stepOf(fold, "neck-on"), next()));
    write(fold, "not done after all", takeStepBack(fold, "neck-on", next()));
    expect(gapsOf(fold)).toEqual(["neck-off"]);
  });
});

describe("[PG12] the rules of a print", () => {
  const typed = { along: " 279 1/2 ", across: "7.48 in", diagonal1: "338½", diagonal2: "338,4", code: " A4-P " };
  const kept = (fold: Fold) => fold.read().data.record as { readonly printed: Readonly<Record<string, string>> };

  it("are millimetres unless a unit is written, fractions too, and belong to the sheet they were read on", () => {
    const fold = ferry();
    write(fold, "measured", printed(fold, "bridge-template", typed, next(), true));
    expect(kept(fold).printed).toMatchObject({
      sheet: "bridge-template",
      along: "279 1/2 mm",
      across: "7.48 in",
      diagonal1: "338½ mm",
      diagonal2: "338,4 mm",
      code: "A4-P",
    });
    const along = jobOf(fold).resolved.valid.find(({ subject }) => subject === "print.bridge-template.along");
    expect(along?.quantity.value).toBeCloseTo(279.5, 9);
  });

  it("of a sheet that no step waits for are no readings, and the next print leaves nothing of the last", () => {
    const fold = ferry();
    write(fold, "measured", printed(fold, "control-holes", typed, next(), false));
    expect(jobOf(fold).resolved.valid.filter(({ subject }) => subject.startsWith("print."))).toEqual([]);
    write(fold, "measured", printed(fold, "control-holes", { ...typed, code: "" }, next(), false));
    expect(kept(fold).printed).not.toHaveProperty("code");
  });
});
