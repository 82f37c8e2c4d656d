import { describe, expect, it } from "vitest";
import { leastHoleWallMm, leastSaddleSpareMm } from "../../../src/core/bridge/index.ts";
import { ferry, saddlesOf } from "./demos.ts";

/**
 * The bass demo's table of doubt, drawn with the functions meant for a sampler: one shift for the scale line, one for the
 * plate along and one across, one for the old row, one error a string.
 */
describe("[BR35] Ferry at 848.5: saddle reserves and walls to the open old holes together", () => {
  const bass = saddlesOf(ferry, ferry.setbacksMm);
  const newU = ferry.screws.map(([p]) => 848.5 + p);
  const newY = ferry.screws.map(([, q]) => q);
  const newRadius = ferry.screws.map(() => ferry.threadMm / 2);
  const oldY = ferry.oldScrews.map(([, y]) => y);
  const oldRadius = ferry.oldScrews.map(() => ferry.oldScrewMm / 2);

  function chance(scaleLine: number, drilling: number, oldRow: number): number {
    let state = 20240621;
    const uniform = () => {
      state = (1664525 * state + 1013904223) % 4294967296;
      return (state + 0.5) / 4294967296;
    };
    const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
    const draws = 20_000;
    const targets = [0, 0, 0, 0];
    const oldU = [0, 0, 0, 0, 0];
    let goes = 0;
    for (let n = 0; n < draws; n++) {
      const line = scaleLine * normal();
      const along = drilling * normal();
      const across = drilling * normal();
      const row = oldRow * normal();
      bass.targetsMm.forEach((target, i) => {
        targets[i] = target + line + 0.25 * normal();
      });
      ferry.oldScrews.forEach(([u], i) => {
        oldU[i] = u + row;
      });
      const spare = leastSaddleSpareMm(848.5 + along, targets, bass.fromMm, bass.toMm) - 0.5;
      const wall = leastHoleWallMm(newU, newY, newRadius, oldU, oldY, oldRadius, along, across) - 1.5;
      if (Math.min(spare, wall) >= 0) goes++;
    }
    return goes / draws;
  }

  it("steel rule and hand drill: 0.74", () => {
    // Standard error of 20 000 draws 0.003; three of them and half of the printed digit.
    expect(Math.abs(chance(0.46, 0.45, 0.25) - 0.74)).toBeLessThan(0.015);
  });

  it("transfer, drill press, plate laid on: 0.999", () => {
    expect(Math.abs(chance(0.15, 0.15, 0.1) - 0.999)).toBeLessThan(0.0015);
  });
});
