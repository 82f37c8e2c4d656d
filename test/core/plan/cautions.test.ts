import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { planTraveller } from "../../../src/core/plan/index.ts";
import { showPhrase } from "../../../src/core/quantity/index.ts";
import { makeInput } from "./fixture.ts";

const traveller = planTraveller(makeInput());

describe("cautions", () => {
  const cautions = (id: string) =>
    (traveller.steps.find((one) => one.id === id)?.cautions ?? []).map((caution) => caution.id);
  it.each([
    ["strip-strings", ["string-ends"]],
    ["drill-bridge-screws", ["eyes-cutting", "wood-dust"]],
    ["rout-bridge-ears", ["eyes-cutting", "cutter-load", "wood-dust"]],
    ["wire", ["gas-duster", "flux-fume", "lead", "iron-burn", "clipped-wire"]],
    ["ground-wire", ["flux-fume", "lead", "iron-burn", "string-ground"]],
    ["ohms", ["amplifier"]],
    ["print", []],
  ])("[PL14] %s: %s", (id, expected) => {
    expect(cautions(id)).toEqual(expected);
  });

  it("[PL14] every one has a source and local rules go first", () => {
    for (const one of traveller.steps)
      for (const caution of one.cautions) expect(caution.source.text.length).toBeGreaterThan(5);
    expect(showPhrase(traveller.preface)).toMatch(/^Local rules and licensed practice go before/);
  });
});

interface Case {
  readonly id: string;
  readonly expected: Readonly<Record<string, number | readonly number[]>>;
}

// Figures of the cautions against the reference cases, all of them read in their sources.
const CASES = (JSON.parse(readFileSync("test/reference/plan/cases.json", "utf8")) as Case[]).filter((one) =>
  one.id.startsWith("safety"),
);

describe("figures of the cautions", () => {
  it.each([
    ["safety-rosin-wel", "flux-fume", "mg_m3"],
    ["safety-rosin-stel", "flux-fume", "mg_m3"],
    ["safety-iron-tip", "iron-burn", "tip_C"],
    ["safety-burn-cool", "iron-burn", "cool_minutes"],
    ["safety-hardwood-wel", "wood-dust", "mg_m3"],
    ["safety-softwood-wel", "wood-dust", "mg_m3"],
    ["safety-duster-heat", "gas-duster", "max_C"],
    ["safety-valve-amp-volts", "amplifier", "stored_dc_V"],
  ])("[PL14] %s stands in %s", (id, caution, key) => {
    const expected = [CASES.find((one) => one.id === id)?.expected[key] ?? []].flat();
    const text = traveller.steps.flatMap((one) => one.cautions).find((one) => one.id === caution)?.text ?? [];
    const figures = text.flatMap((part) => (typeof part === "string" ? [] : [part.value]));
    expect(expected.length).toBeGreaterThan(0);
    expect(figures).toEqual(expect.arrayContaining([...expected]));
  });
});
