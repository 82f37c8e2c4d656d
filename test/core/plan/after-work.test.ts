import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { parse } from "yaml";
import { assess, loadJob, travellerOf } from "../../../src/core/index.ts";
import { fileWorkOf } from "../../../src/core/job/index.ts";

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
  const after = stepsOf({ ...ferry, fettle: { ...(ferry as { fettle?: object }).fettle, operations: 1 }, operations });
  expect(after.filter(isDrill).map(({ id }) => id)).toEqual(["drill-bridge-screws"]);
});

it("a scale line carried over after the neck was bolted on counts", () => {
  const operations = [
    { id: "off", work: { act: "take off", part: "neck" }, doneAt: "2026-05-01T10:00" },
    { id: "on", work: { act: "fit", part: "neck" }, doneAt: "2026-05-01T11:00" },
  ];
  const versions = { ...(ferry as { fettle?: object }).fettle, operations: 1 };
  const bolted = { ...ferry, fettle: versions, operations };
  const line = { id: "line-again", of: "scaleLine.u", value: "264.3 mm (transfer)", after: "on" };
  const { scaleLine } = loadJob({ ...bolted, readings: [...ferry.readings, line] }).instrument;
  expect(scaleLine.read.map((one) => one.known && one.value)).toContain(264.3);
});
