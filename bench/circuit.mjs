/** Circuits: the same netlists and points by this program and by ngspice as WebAssembly, warm, in one process. */
import { readdirSync, readFileSync } from "node:fs";
import { Simulation } from "eecircuit-engine";
import { curveOf, inState, netlistOf, spiceText, sweep } from "../dist/core/circuit/index.js";
import { bandOf, circuitOf, loadOf } from "../dist/core/wiring/index.js";
import { JOBS, load, median, timed } from "./measure.mjs";

const FOLDER = new URL("../test/reference/circuit/spice/", import.meta.url);
const ROUNDS = 15;
const OWN_ROUNDS = 60;

export async function circuitBench() {
  const simulation = new Simulation();
  await simulation.start();
  const peerOf = async (text) => {
    simulation.setNetList(text);
    return await simulation.runSim();
  };
  const cases = [...referenceCases(), ...JOBS.flatMap(jobCases)];
  const ratios = [];
  for (const { netlist, output, text } of cases) {
    const { data } = await peerOf(text);
    const frequencies = data[0].values.map(({ real }) => real);
    for (let round = 0; round < OWN_ROUNDS; round += 1) sweep(netlist, output, frequencies);
    const own = median(Array.from({ length: ROUNDS }, () => timed(() => sweep(netlist, output, frequencies))));
    const peers = [];
    for (let round = 0; round < ROUNDS; round += 1) {
      const start = performance.now();
      await peerOf(text);
      peers.push(performance.now() - start);
    }
    ratios.push({ own, peer: median(peers) });
  }
  const worst = ratios.reduce((least, one) => (one.peer / one.own < least.peer / least.own ? one : least));
  return [
    {
      what: `${cases.length} netlists, 151 points: the one with the least lead`,
      own: worst.own,
      peer: worst.peer,
      against: "ngspice as WebAssembly, warm",
    },
    {
      what: `${cases.length} netlists, 151 points: the middle one`,
      own: median(ratios.map(({ own }) => own)),
      peer: median(ratios.map(({ peer }) => peer)),
      against: "ngspice as WebAssembly, warm",
    },
    ...JOBS.map(statesRow),
  ];
}

function referenceCases() {
  return readdirSync(FOLDER)
    .filter((name) => /^\d.*\.cir$/.test(name))
    .map((name) => {
      const text = readFileSync(new URL(name, FOLDER), "utf8");
      const { outputNode, elements } = JSON.parse(readFileSync(new URL(name.replace(".cir", ".json"), FOLDER), "utf8"));
      return { netlist: { ground: "0", elements: elementsOf(elements) }, output: outputNode, text };
    });
}

const KINDS = {
  R: ({ value }) => ({ kind: "resistor", ohms: value }),
  C: ({ value }) => ({ kind: "capacitor", farads: value }),
  L: ({ value }) => ({ kind: "inductor", henries: value }),
  V: ({ value }) => ({ kind: "source", volts: value }),
};

function elementsOf(elements) {
  const henries = new Map(elements.filter(({ type }) => type === "L").map(({ name, value }) => [name, value]));
  return elements.map((one) => {
    const { type, name, a, b, l1, l2, k } = one;
    if (type !== "K") return { name, a, b, ...KINDS[type](one) };
    const of = [l1, l2];
    return { kind: "coupling", name, of, henries: k * Math.sqrt(henries.get(of[0]) * henries.get(of[1])) };
  });
}

function jobCases(name) {
  const { wiring } = load(name).instrument;
  const { circuit } = circuitOf(wiring);
  return wiring.states.map((state) => {
    const inside = inState(circuit, state);
    const netlist = netlistOf(inside, loadOf(wiring));
    return { netlist, output: inside.output, text: spiceText(netlist, { title: name, output: inside.output }).text };
  });
}

/** What a knob turned on the screen asks for: the curve, the resonance and the ohms with limits of every state. */
function statesRow(name) {
  const { wiring } = load(name).instrument;
  const wired = circuitOf(wiring);
  const points = Array.from({ length: 151 }, (_, index) => 20 * 10 ** (index / 50));
  const all = () =>
    wiring.states.map((state) => {
      const inside = inState(wired.circuit, { ...state, travel: { ...state.travel, volume: 0.7 } });
      return [curveOf(inside, loadOf(wiring), points, 1), bandOf(wired, inside, 20, [inside.output, inside.ground])];
    });
  for (let round = 0; round < OWN_ROUNDS; round += 1) all();
  const own = median(Array.from({ length: ROUNDS }, () => timed(all)));
  return { what: `${name}: every state, curve, resonance and ohms with limits`, own, goal: 16 };
}
