import { expect, it } from "vitest";
import { askOf, example, text, withValue } from "./jobs.ts";

const lowtide = example("lowtide");
const readCore = (value: string) => ({
  ...lowtide,
  readings: [...(lowtide.readings as object[]), { id: "core", of: "parts.groyne.screws[0].core", value }],
});

it("a core measured on the screw takes the place of the three rules: 2.5 on the sheet in a core of 2.6 goes", () => {
  const before = askOf(lowtide, "fasteners.bridge");
  expect(before.status).toBe("rework");
  expect(before.next?.path).toBe("parts.groyne.screws[0].core");
  const verdict = askOf(readCore("2.6 mm (calliper)"), "fasteners.bridge");
  expect(verdict.status).toBe("go");
  // A calliper is good to 0.05, twice as far off is 1 in 40.
  expect(verdict.probability).toBeGreaterThan(0.95);
  expect(verdict.margin?.value).toBeCloseTo(2.6 - 2.5, 6);
});

it("a core measured smaller than the lead hole says so and asks for nothing more", () => {
  const verdict = askOf(readCore("2.2 mm (calliper)"), "fasteners.bridge");
  expect(verdict.status).toBe("rework");
  expect(text(verdict.headline)).toContain("is wider than the screw's core, 2.20 mm as measured");
  expect(verdict.next).toBeUndefined();
});

it("the core may stand in the part's own data", () => {
  const data = withValue(lowtide, "parts.groyne.screws", [
    { p: 34, q: [-21, -10.5, 0, 10.5, 21], thread: 3, pilot: 2.5, core: "2.6 mm (calliper)", depth: 24 },
  ]);
  expect(askOf(data, "fasteners.bridge").status).toBe("go");
});
