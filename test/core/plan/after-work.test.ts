import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { parse } from "yaml";
import { assess, gatesOf, loadJob, travellerOf } from "../../../src/core/index.ts";
import { fileWorkOf } from "../../../src/core/job/index.ts";
import { showPhrase } from "../../../src/core/quantity/index.ts";

const ferry = parse(readFileSync("examples/ferry.yaml", "utf8")) as { readings: object[] };
const stepsOf = (data: unknown) => {
  const job = loadJob(data);
  return travellerOf(job, assess(job)).steps;
};
const isDrill = ({ work }: { readonly work?: { readonly act: string } }) => work?.act === "drill";

it("holes that were drilled are not asked for again", () => {
  const drill = stepsOf(ferry).filter(isDrill);
  expect(drill.map(({ id }) => id)).toEqual(["drill-bridge-screws"]);
  const [step] = drill;
  if (!step?.work) throw new Error("no work");
  const operations = [{ id: step.id, work: fileWorkOf(step.work), doneAt: "2026-05-01T10:00" }];
  const after = stepsOf({
    ...ferry,
    fettle: { ...(ferry as { readonly fettle?: object; readonly readings?: object[] }).fettle, operations: 1 },
    operations,
  });
  expect(after.filter(isDrill).map(({ id }) => id)).toEqual(["drill-bridge-screws"]);
});

it("a scale line carried over after the neck was bolted on counts", () => {
  const operations = [
    { id: "off", work: { act: "take off", part: "neck" }, doneAt: "2026-05-01T10:00" },
    { id: "on", work: { act: "fit", part: "neck" }, doneAt: "2026-05-01T11:00" },
  ];
  const versions = { ...(ferry as { readonly fettle?: object; readonly readings?: object[] }).fettle, operations: 1 };
  const bolted = { ...ferry, fettle: versions, operations };
  const line = { id: "line-again", of: "scaleLine.u", value: "264.3 mm (transfer)", after: "on" };
  const { scaleLine } = loadJob({ ...bolted, readings: [...ferry.readings, line] }).instrument;
  expect(scaleLine.read.map((one) => one.known && one.value)).toContain(264.3);
});

const lowtide = parse(readFileSync("examples/lowtide.yaml", "utf8")) as { fettle?: object };

/** The verdict on the holes once the steps of these kinds are done, each at its time. */
function holesAfter(
  file: { readonly fettle?: object; readonly readings?: object[] },
  doneAt: Readonly<Record<string, string>>,
  at?: string,
) {
  const works = stepsOf(file).filter(({ id, work }) => work && id in doneAt);
  const operations = works.map(({ id, work }) => {
    if (!work) throw new Error("no work");
    return { id, work: fileWorkOf(work), doneAt: doneAt[id] };
  });
  const job = loadJob({ ...file, fettle: { ...file.fettle, operations: 1 }, operations }, at);
  const answers = assess(job);
  const found = (id: string) => answers.find((verdict) => verdict.id === id);
  const gates = gatesOf(job, answers, travellerOf(job, answers));
  return { holes: found("bridge.holes"), place: found("bridge.place"), gates };
}

it("wet glue holds up the drill, not the choice of the place", () => {
  const wet = holesAfter(lowtide, { "plug-old-screws": "2026-05-01T10:00" });
  expect(wet.holes?.status).toBe("measure");
  expect(showPhrase(wet.holes?.headline ?? [], "mm")).toContain("The glue of 5 plugs under the new holes is still wet");
  expect(wet.place?.figures.placeMm).toBe(holesAfter(lowtide, {}).place?.figures.placeMm);
  const shut = wet.gates.get("drill-bridge-screws");
  expect(shut?.reasons.some(({ ok, text }) => !ok && showPhrase(text, "mm").includes("still wet"))).toBe(true);
  // The next day but one nothing has been entered; the clock alone has gone on.
  const dry = holesAfter(lowtide, { "plug-old-screws": "2026-05-01T10:00" }, "2026-05-02T10:30");
  expect(dry.holes?.status).toBe("go");
});

it("a hole that was drilled and the plug it stands in are no walls to keep", () => {
  const done = holesAfter(lowtide, {
    "plug-old-screws": "2026-05-01T10:00",
    "drill-bridge-screws": "2026-05-03T10:00",
  });
  expect(done.holes?.status).toBe("go");
  expect(done.holes?.figures.leastWallMm).toBeGreaterThan(1.5);
  const ferryDone = holesAfter(ferry, { "drill-bridge-screws": "2026-05-01T10:00" });
  // As before it was drilled.
  expect(ferryDone.holes?.figures.leastWallMm).toBeCloseTo(2.05, 2);
});
