import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { parse } from "yaml";
import { loadJob } from "../../../src/core/index.ts";

it("a place that the file counts from the nut may be read from the end wall, as the bench does", () => {
  const data = parse(readFileSync("examples/ferry.yaml", "utf8")) as { readings: object[] };
  // The file's own reading is 864.0 from the nut with the end wall at 600; this one is as good and a little off it.
  const reading = { id: "again", of: "scaleLine.u", value: "264.2 mm (transfer)" };
  const { instrument, resolved } = loadJob({ ...data, readings: [...data.readings, reading] });
  expect(instrument.scaleLine.read.map((one) => one.known && one.value)).toEqual([864 - 600, 264.2]);
  expect(resolved.valid.filter(({ subject }) => subject === "scaleLine.u")).toHaveLength(2);
});
