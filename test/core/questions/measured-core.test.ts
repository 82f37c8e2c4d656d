import { expect, it } from "vitest";
import { askOf, example, text, wholeText, withValue } from "./jobs.ts";

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

it("crests read for the core let any hole go: 2.9 in a thread of 3.0 is asked for again", () => {
  const verdict = askOf(readCore("2.9 mm (calliper)"), "fasteners.bridge");
  // No rule leaves more than 0.82 of the shank; 0.9 x 3.0 = 2.70 is the most that is believed.
  expect(verdict.status).toBe("measure");
  expect(verdict.next?.path).toBe("parts.groyne.screws[0].core");
  expect(wholeText(verdict)).toContain("A core of 2.90 mm in a thread of 3.00 mm was read across the crests");
});

it("of two rows of one size the thinner core counts, not the one that stands first", () => {
  const row = { thread: 3, pilot: 1.9, depth: 24 };
  const data = withValue(lowtide, "parts.groyne.screws", [
    { ...row, p: 34, q: [-21, 21], core: "2.30 mm (calliper)" },
    { ...row, p: 40, q: [-10, 10], core: "2.10 mm (calliper)" },
  ]);
  // 2.10 - 1.90; by the first row it would be 0.40.
  expect(askOf(data, "fasteners.bridge").margin?.value).toBeCloseTo(0.2, 9);
});
