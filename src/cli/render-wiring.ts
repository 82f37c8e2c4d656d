/** A wiring as text: a table of its states, what is wrong, what ohms cannot show, and which values are guesses. */
import { KNOB_HZ, knobAlong, wayBetween } from "../core/circuit/index.ts";
import type { StateReport, WiringReport } from "../core/index.ts";
import { paint, printable, table, wrap } from "./text.ts";

export interface WiringStyle {
  readonly width: number;
  readonly colour: boolean;
}

/** Below this, a table of nine columns leaves no room for the sounds. */
const WIDTH_OF_A_TABLE = 96;

export function renderWiring(report: WiringReport, title: string, style: WiringStyle): string {
  return [
    paint(`Wiring of ${printable(title)}`, "strong", style.colour),
    ...wrap(aboutLoad(report), style.width),
    "",
    ...statesTable(report, style),
    ...findings(report, style),
    ...blindSpots(report, style),
    ...guesses(report, style),
  ].join("\n");
}

function aboutLoad({ load, humAgainst, celsius }: WiringReport): string {
  const input = Number.isFinite(load.inputOhms) ? `${number(load.inputOhms / 1e6, 2)} MΩ` : "nothing";
  return `Knobs as stated, else full; ${Math.round(load.cableFarads * 1e12)} pF of cable into ${input}. Level and resonance: electrical only, equal coils, dB against one coil. Hum: dB at 50 and 150 Hz against ${printable(humAgainst)} alone. Ohms: jack tip to sleeve at ${number(celsius, 0)} °C.`;
}

function statesTable({ states }: WiringReport, style: WiringStyle): string[] {
  const rows = states.map((state) => [
    printable(state.id),
    hz(state),
    level(state),
    hum(state),
    `${kohm(state.ohms.ohms)} kΩ`,
    `${kohm(state.ohms.low)} … ${kohm(state.ohms.high)}`,
    kohm(state.warmOhms),
    readingOf(state),
    `${printable(state.sound)}${phase(state)}`,
  ]);
  const head = ["", "peak", "level", "hum", "at the jack", "limits", "30 °C", "read", "what sounds"];
  if (style.width >= WIDTH_OF_A_TABLE)
    return table(
      [head, ...rows],
      ["left", "left", "left", "left", "left", "left", "left", "left", "left"],
      style.width,
    );
  return states.flatMap((state, index) => {
    const [, peak, dB, humming, ohms, limits, warm, read, sound] = rows[index] ?? [];
    return [
      paint(`${printable(state.title)}: ${sound}`, "strong", style.colour),
      ...wrap(`peak ${peak}, level ${dB}, ${humming}`, style.width, "  "),
      ...wrap(
        `${ohms} at the jack (${limits}), ${warm} kΩ at 30 °C${read === "" ? "" : `; read ${read}`}`,
        style.width,
        "  ",
      ),
    ];
  });
}

function hz({ strings }: StateReport): string {
  const peaks = new Set(
    strings.map(({ peak, peakBand }) => {
      if (peakBand) return `${number(peakBand.lowHz / 1000, 1)} … ${number(peakBand.highHz / 1000, 1)} kHz`;
      return peak ? `${number(peak.frequencyHz / 1000, 2)} kHz` : "none";
    }),
  );
  return [...peaks].join(", ");
}

function level({ strings }: StateReport): string {
  const levels = [...new Set(strings.map(({ levelDb }) => signed(levelDb, 1)))];
  return levels.length === 1
    ? (levels[0] ?? "")
    : strings.map((one) => `${signed(one.levelDb, 1)} (${one.strings.join()})`).join(" ");
}

function hum({ hum: word, humDb }: StateReport): string {
  if (!word || !humDb) return "not known";
  return `${word} ${signed(humDb[0] ?? 0, 1)} / ${signed(humDb[2] ?? 0, 1)}`;
}

function phase({ strings }: StateReport): string {
  const wrong = strings.filter((one) => one.phase === "out of phase");
  if (wrong.length > 0)
    return wrong.length === strings.length
      ? "; OUT OF PHASE"
      : `; strings ${wrong.flatMap((one) => one.strings).join(" and ")} OUT OF PHASE`;
  if (strings.some((one) => one.phase === "not known")) return "; phase not known";
  return strings.some((one) => one.phase === "in phase") ? "; in phase" : "";
}

function readingOf({ reading }: StateReport): string {
  if (!reading) return "";
  return `${kohm(reading.ohms)} ${reading.agrees ? "agrees" : "DIFFERS"}`;
}

function findings({ findings: all }: WiringReport, style: WiringStyle): string[] {
  if (all.length === 0) return ["", paint("Nothing is wrong with it.", "good", style.colour)];
  return [
    "",
    paint("What is wrong", "strong", style.colour),
    ...all.flatMap(({ grade, what, why, remedy }) => [
      ...wrap(
        `${paint(grade, grade === "fault" ? "bad" : "work", style.colour)}: ${printable(what)}.`,
        style.width,
        "- ",
        "  ",
      ),
      ...wrap(`${printable(why)}.`, style.width, "  "),
      ...wrap(`→ ${printable(remedy)}.`, style.width, "  ", "    "),
    ]),
  ];
}

function blindSpots({ blindSpots: all }: WiringReport, style: WiringStyle): string[] {
  if (all.length === 0) return [];
  return [
    "",
    paint("What ohms cannot show, and the test that can", "strong", style.colour),
    ...all.flatMap(({ states, what, test }) =>
      wrap(`${printable(states.join(", "))}: ${printable(what)}; ${printable(test)}.`, style.width, "- ", "  "),
    ),
  ];
}

const READ_BY = {
  ohms: "an ohmmeter on each coil",
  henries: "an inductance meter on each coil, or its resonance with a known capacitor",
  farads: "the coil's own resonance, with and without a known capacitor",
  pot: "an ohmmeter from outer lug to outer lug",
} as const;

function guesses({ guesses: all, states }: WiringReport, style: WiringStyle): string[] {
  if (all.length === 0) return [];
  const words = { ohms: "resistance", henries: "inductance", farads: "capacitance", pot: "resistance" } as const;
  const narrowedBy = states.flatMap(({ strings }) => strings).find(({ peakBand }) => peakBand)?.peakBand?.narrowedBy;
  return [
    "",
    paint("Nobody has given these, so peaks are bands over a usual coil's values", "strong", style.colour),
    ...(narrowedBy ? wrap(`What narrows them most: ${READ_BY[narrowedBy]}.`, style.width, "- ", "  ") : []),
    ...all.map(
      ({ path, kind, factor }) =>
        `- ${printable(path)}: a usual ${words[kind]}, within a factor of ${factor} either way`,
    ),
  ];
}

/** One state in full: the coils and their signs, the way of the signal, and what each knob does. */
export function renderState(report: WiringReport, id: string, style: WiringStyle): string {
  const at = report.states.findIndex((state) => state.id === id);
  const state = report.states[at];
  const facts = report.facts.states[at];
  if (!state || !facts) return "";
  const { circuit, state: stands } = facts.inside;
  const { tip, sleeve } = circuit.jack;
  const coils = facts.heard.map(({ coil, way, stringSign, humSign }) => [
    printable(coil.name),
    `string ${signOf(stringSign)}`,
    `hum ${signOf(humSign)}`,
    ways(circuit, stands, coil, way, tip, sleeve),
  ]);
  const knobs = circuit.tracks.map((track) => {
    const along = knobAlong(circuit, stands, track, [0, 0.25, 0.5, 0.75, 1]);
    return [
      printable(track.id),
      ...along.map(({ dB }) =>
        dB.map((one) => (one <= -100 ? "off" : one.toFixed(1).replace("-0.0", "0.0").replace("-", "−"))).join(" / "),
      ),
    ];
  });
  return [
    paint(`${printable(state.title)}: ${printable(state.sound)}${phase(state)}`, "strong", style.colour),
    `peak ${hz(state)}, level ${level(state)}, ${hum(state)}; ${kohm(state.ohms.ohms)} kΩ (${kohm(state.ohms.low)} … ${kohm(state.ohms.high)}) at the jack`,
    "",
    ...table(coils, ["left", "left", "left", "left"], style.width),
    "",
    ...wrap(
      `Knobs, dB against full at ${KNOB_HZ.join(" / ")} Hz, at 0, a quarter, half, three quarters, full:`,
      style.width,
    ),
    ...table(knobs, ["left", "left", "left", "left", "left", "left"], style.width, "  "),
  ].join("\n");
}

type Circuit = WiringReport["facts"]["circuit"];
type Facts = WiringReport["facts"]["states"][number];

function ways(
  circuit: Circuit,
  state: Facts["inside"]["state"],
  coil: Circuit["coils"][number],
  way: 1 | -1,
  tip: string,
  sleeve: string,
): string {
  const [cold, hot] = way === 1 ? [coil.start, coil.finish] : [coil.finish, coil.start];
  const toTip = wayBetween(circuit, state, hot, tip);
  const toSleeve = wayBetween(circuit, state, cold, sleeve);
  const words = (lugs: readonly string[], from: string, end: string) =>
    lugs.length > 0 ? lugs.join(" – ") : `${from}, then through another coil or a knob to the ${end}`;
  return `${words(toTip, hot, "tip")}; ground side ${words(toSleeve, cold, "sleeve")}`;
}

function signOf(sign: number | undefined): string {
  return sign === undefined ? "?" : sign > 0 ? "+" : sign < 0 ? "−" : "none";
}

function number(value: number, digits: number): string {
  return value.toFixed(digits).replace("-", "−");
}

function signed(dB: number, digits: number): string {
  if (dB <= -100) return "silent";
  const text = number(dB, digits);
  return /^−?0(\.0*)?$/.test(text) ? text.replace("−", "") : dB > 0 ? `+${text}` : text;
}

function kohm(ohms: number): string {
  return Number.isFinite(ohms) ? (ohms / 1000).toFixed(ohms < 100e3 ? 2 : 1) : "open";
}
