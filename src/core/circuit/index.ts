export { type MeterReading, ohmsBetween, type Resistor } from "./dc.ts";
export { checkNetlist, type Element, type Netlist } from "./netlist.ts";
export { type OutputSolver, outputSolver, type Sweep, sweep } from "./response.ts";
