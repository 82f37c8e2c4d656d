import { describe, expect, it } from "vitest";
import { foldInstrument } from "../../../src/core/job/fold.ts";
import { planTraveller } from "../../../src/core/plan/index.ts";
import { showPhrase } from "../../../src/core/quantity/index.ts";
import type { Work } from "../../../src/core/verdict/index.ts";
import { makeInstrument } from "../job/fixture.ts";
import { makeInput, makeVerdict, WORKS } from "./fixture.ts";
import { expectSound, stepOf } from "./soundness.ts";

describe("off plan", () => {
  // The third hole went 0.8 too far back: plug it, drill it again.
  const wrong: Work = {
    ...WORKS.drill,
    holes: WORKS.drill.holes.map((hole, index) => (index === 2 ? { ...hole, u: hole.u + 0.8 } : hole)),
  };
  const log = [
    { id: "plug-old-screws", work: WORKS.plug as Work, doneAt: "2026-03-01T10:00Z" },
    { id: "drill-bridge-screws", work: wrong, doneAt: "2026-03-02T12:00Z" },
  ];
  const actual = foldInstrument(makeInstrument(), log).instrument;
  const repair: readonly Work[] = [
    { ...WORKS.plug, holes: [{ id: "bridge-screws#3", u: 205.7, y: 0, diameter: 3, depth: 24 }] },
    { ...WORKS.drill, holes: WORKS.drill.holes.slice(2, 3) },
  ];
  const plan = planTraveller(
    makeInput({
      instrument: actual,
      done: log,
      verdicts: [makeVerdict("bridge.holes", { status: "rework", work: repair })],
      toFit: { bridge: true },
    }),
  );

  it("[PL15] the repair becomes steps with ids of their own, in the right order, behind the plugs of both days", () => {
    expectSound(
      plan,
      log.map(({ id }) => id),
    );
    expect(plan.steps.map((one) => one.id)).toEqual(
      expect.arrayContaining(["plug-old-screws", "drill-bridge-screws", "plug-bridge-screws", "drill-bridge-screws-2"]),
    );
    const needs = stepOf(plan, "drill-bridge-screws-2").needsBefore.map((need) => need.step);
    expect(needs).toEqual(expect.arrayContaining(["trim-old-screws", "trim-bridge-screws", "lay-strings"]));
    expect(stepOf(plan, "trim-bridge-screws").needsBefore).toMatchObject([
      { step: "plug-bridge-screws", waitMinutes: 1440 },
    ]);
    expect(stepOf(plan, "drill-bridge-screws").needsBefore).toEqual([]);
    expect(plan.approvals.map((one) => one.step)).toEqual(["plug-bridge-screws", "drill-bridge-screws-2"]);
    expect(plan.shopping.map((line) => line.quantity)).toEqual([1, 1]);
  });

  it("[PL15] and folds into the instrument as it should have been", () => {
    const rest = plan.steps.flatMap((one) =>
      one.work?.act === "plug" || one.work?.act === "drill" ? [{ id: one.id, work: one.work }] : [],
    );
    const mended = foldInstrument(makeInstrument(), [
      ...log,
      ...rest.filter((one) => !log.some(({ id }) => id === one.id)),
    ]);
    const third = mended.instrument.body.holes.find((hole) => hole.id === "bridge-screws#3");
    expect(third?.at.u).toMatchObject({ value: 204.9 });
    expect(mended.instrument.body.holes.find((hole) => hole.id === "bridge-screws#3@try-1")?.state).toBe("plugged");
  });

  it("[PL15] takes operations of the log that leave sizes out", () => {
    const short: Work = { act: "ream", where: "volume", count: 1, from: Number.NaN, to: 9.6 };
    const steps = planTraveller(
      makeInput({ done: [{ id: "open-it", work: short, doneAt: "2026-03-01T10:00Z" }], verdicts: [] }),
    ).steps;
    expect(showPhrase(steps.find((one) => one.id === "open-it")?.title ?? [])).toBe(
      "Open the hole of volume to 9.6 mm",
    );
  });
});
