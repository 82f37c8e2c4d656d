import { beforeAll, describe, expect, it } from "vitest";
import { inState, netlistOf, spiceText, sweep } from "../../../src/core/circuit/index.ts";
import { type SpiceEngine, startSpice } from "../../support/spice-engine.ts";
import { wiringOf } from "../../support/wiring.ts";

// ngspice 45.2 as WebAssembly (eecircuit-engine 1.8.0), on netlists that the program itself exports.
const STATES = (["lowtide", "ferry"] as const).flatMap((job) =>
  wiringOf(job).facts.states.flatMap(({ inside }) =>
    [
      { load: { cableFarads: 500e-12, inputOhms: 1e6 }, knobs: undefined },
      { load: { cableFarads: 0, inputOhms: Number.POSITIVE_INFINITY }, knobs: undefined },
      // Every knob that is up stands a third of the way.
      { load: { cableFarads: 500e-12, inputOhms: 1e6 }, knobs: 1 / 3 },
    ].map(({ load, knobs }) => ({
      job,
      id: inside.state.id,
      what: `${knobs === undefined ? "full" : "a third up"}, ${load.cableFarads > 0 ? "cable" : "open jack"}`,
      circuit: inside.circuit,
      state:
        knobs === undefined
          ? inside.state
          : { ...inside.state, travel: Object.fromEntries(inside.circuit.tracks.map(({ id }) => [id, knobs])) },
      load,
    })),
  ),
);

describe("the exported netlist, solved by ngspice", () => {
  let spice: SpiceEngine;
  beforeAll(async () => {
    spice = await startSpice();
  }, 120_000);

  it.each(STATES)("$job $id, $what: agrees to 1e-9", async ({ circuit, state, load, job }) => {
    const inside = inState(circuit, state);
    const netlist = netlistOf(inside, load);
    // One coil alone, and all together as a string excites them.
    const alone = new Map([[`${circuit.coils[0]?.id}:emf`, 1]]);
    const strings = new Map(circuit.coils.map(({ id, kick }) => [`${id}:emf`, kick ?? 1]));
    for (const volts of [alone, strings]) {
      const { text } = spiceText(netlist, { title: `${job} ${state.id}`, output: inside.output, volts });
      const run = await spice.run(text);
      const { re, im } = sweep(netlist, inside.output, run.frequenciesHz, volts);
      expect(run.frequenciesHz).toHaveLength(151);
      run.frequenciesHz.forEach((_, point) => {
        const [r, i] = [run.re.get("out")?.[point] ?? Number.NaN, run.im.get("out")?.[point] ?? Number.NaN];
        const size = Math.hypot(r, i);
        const off = Math.hypot((re[point] ?? 0) - r, (im[point] ?? 0) - i);
        // Below 90 dB the output is what is left of a difference: 1e-6 there, and nothing below 1e-12 V at all.
        expect(off).toBeLessThan(Math.max(1e-15, size * (size < 10 ** (-90 / 20) ? 1e-6 : 1e-9)));
      });
    }
  });
});
