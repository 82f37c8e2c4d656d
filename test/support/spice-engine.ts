/** ngspice as WebAssembly, in process: a peer that shares no code with the program. */
import { Simulation } from "eecircuit-engine";

export interface SpiceRun {
  readonly frequenciesHz: readonly number[];
  /** By node name. */
  readonly re: ReadonlyMap<string, readonly number[]>;
  readonly im: ReadonlyMap<string, readonly number[]>;
}

export interface SpiceEngine {
  run(netlist: string): Promise<SpiceRun>;
}

export async function startSpice(): Promise<SpiceEngine> {
  const simulation = new Simulation();
  await simulation.start();
  return {
    async run(netlist) {
      simulation.setNetList(netlist);
      const result = await simulation.runSim();
      if (result.dataType !== "complex") throw new Error(`ngspice: ${simulation.getError().join("; ")}`);
      const columns = result.data;
      const named = (part: "real" | "img") =>
        new Map(
          columns.map(({ name, values }) => [
            /^v\((.*)\)$/.exec(name)?.[1] ?? name,
            values.map((value) => value[part]),
          ]),
        );
      return { frequenciesHz: columns[0]?.values.map(({ real }) => real) ?? [], re: named("real"), im: named("img") };
    },
  };
}
