import { describe, expect, it } from "vitest";
import { routePlate } from "../../../src/core/plate/index.ts";
import { examplePlate } from "./example.ts";
import { breaches } from "./rules.ts";

describe("routePlate", () => {
  const plate = examplePlate();
  const t = performance.now();
  const routed = routePlate(plate);
  console.log(performance.now() - t, plate.wires.length, routed.crossings, routed.lengthMm, routed.refused);

  it("keeps every rule on the example", () => {
    expect(breaches(plate, routed.wires)).toEqual([]);
  });
});
