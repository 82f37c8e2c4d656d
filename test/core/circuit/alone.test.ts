import { expect, it } from "vitest";
import { growJob } from "../../../src/core/begin/index.ts";
import { ask, loadJob, wiringOf } from "../../../src/core/index.ts";

const pair = (joined: string) =>
  loadJob(
    growJob("thin", {
      kicks: "up up",
      compass: "draws north, draws south",
      ohms: "6.2 k, 6.2 k",
      metal: "none",
      joined,
      controls: "none",
    }).data,
  );

// Alike coils of opposite winding: in series their hum is taken away, in parallel too. Against one coil alone, whose hum is
// 0 dB by definition, that is silence, however the other is taken out of the way.
it.each(["series", "parallel"])(
  "hum of two alike coils of opposite winding is nothing against one alone, in %s",
  (joined) => {
    const [state] = wiringOf(pair(joined))?.states ?? [];
    expect(state?.hum).toBe("quiet");
    expect(Math.max(...(state?.humDb ?? [0]))).toBeLessThan(-60);
  },
);

// Alike windings in series: twice the hum of one, 20 log 2 = 6.02 dB; the jack is open, so nothing loads it.
it("hum of two alike coils of one winding in series is 6.02 dB above one alone", () => {
  const { data } = growJob("thin", {
    kicks: "up up",
    compass: "draws north, draws north",
    ohms: "6.2 k, 6.2 k",
    joined: "series",
    controls: "none",
  });
  const job = loadJob(data);
  expect(wiringOf(job)?.states[0]?.humDb?.[0]).toBeCloseTo(6.02, 1);
  expect(ask(job, "wiring.state.pair").status).toBe("go");
});
