/** A wiring's figures in words: what sounds, peak, level, hum, ohms. */
import type { StateReport, WiringReport } from "../../core/index.ts";

const SILENT_DB = -100;
const [AT_50_HZ, AT_150_HZ] = [0, 2];
/** Findings that say that a state does not give what was wanted. */
const NOT_AS_WANTED: readonly string[] = ["other sound", "silent", "hot shorted", "out of phase"];

/** Between a figure and its unit: they stand on one line. */
const GAP = "\u00a0";

/** "12.43 kΩ", "open". */
export function kilohms(ohms: number): string {
  return Number.isFinite(ohms) ? `${(ohms / 1000).toFixed(ohms < 100e3 ? 2 : 1)}${GAP}kΩ` : "open";
}

/** "11.76 … 13.10 kΩ". */
export function limitsInWords({ low, high }: { readonly low: number; readonly high: number }): string {
  if (!Number.isFinite(low) || !Number.isFinite(high)) return "no reading at all";
  return `${kilohms(low).replace(`${GAP}kΩ`, "")} … ${kilohms(high)}`;
}

/** The figure alone, where the unit stands elsewhere. */
export function bareDecibels(dB: number): string {
  return decibelsInWords(dB).replace(`${GAP}dB`, "");
}

export function decibelsInWords(dB: number): string {
  if (dB <= SILENT_DB) return "silent";
  const text = dB.toFixed(1).replace("-", "−");
  if (/^−?0\.0$/.test(text)) return `0.0${GAP}dB`;
  return `${dB > 0 ? "+" : ""}${text}${GAP}dB`;
}

export function hertz(frequencyHz: number): string {
  return frequencyHz < 1000 ? `${frequencyHz.toFixed(0)}${GAP}Hz` : `${(frequencyHz / 1000).toFixed(2)}${GAP}kHz`;
}

/** One peak, or the band that it lies in while values are guesses; of each group of strings that differs. */
export function peakInWords({ strings }: Pick<StateReport, "strings">): string {
  const peaks = strings.map(({ peak, peakBand }) => {
    if (!peak) return "none";
    if (!peakBand) return hertz(peak.frequencyHz);
    const [low, high] = [peakBand.lowHz, peakBand.highHz].sort((first, second) => first - second);
    return `${khz(low ?? 0)} … ${khz(high ?? 0)}${GAP}kHz`;
  });
  return [...new Set(peaks)].join(", ");
}

function khz(frequencyHz: number): string {
  return (frequencyHz / 1000).toFixed(1);
}

export function levelInWords({ strings }: Pick<StateReport, "strings">): string {
  const levels = strings.map(({ levelDb }) => decibelsInWords(levelDb));
  if (new Set(levels).size === 1) return levels[0] ?? "";
  return strings.map((one, index) => `${levels[index]} (${stringsInWords(one.strings)})`).join(", ");
}

/** "strings 1 and 2". */
export function stringsInWords(strings: readonly number[]): string {
  const shown = strings.map(String);
  const last = shown.pop() ?? "";
  return shown.length === 0 ? `string ${last}` : `strings ${shown.join(", ")} and ${last}`;
}

export interface HumInWords {
  readonly word: string;
  /** "−34.2 / −34.2 dB", at 50 and 150 Hz. */
  readonly figures: string;
}

export function humInWords({ hum, humDb }: Pick<StateReport, "hum" | "humDb">): HumInWords {
  if (!hum || !humDb) return { word: "not known", figures: "" };
  const [low, third] = [humDb[AT_50_HZ] ?? 0, humDb[AT_150_HZ] ?? 0];
  return { word: hum, figures: `${bareDecibels(low)} / ${decibelsInWords(third)}` };
}

export interface PhaseInWords {
  readonly words: string;
  readonly wrong: boolean;
}

/** Undefined where one coil alone is heard, or none. */
export function phaseInWords({ strings }: Pick<StateReport, "strings">): PhaseInWords | undefined {
  const wrong = strings.filter(({ phase }) => phase === "out of phase");
  if (wrong.length > 0) {
    const which = wrong.length === strings.length ? "" : `${stringsInWords(wrong.flatMap((one) => one.strings))} `;
    return { words: `${which}out of phase`, wrong: true };
  }
  if (strings.some(({ phase }) => phase === "not known")) return { words: "phase not known", wrong: false };
  return strings.some(({ phase }) => phase === "in phase") ? { words: "in phase", wrong: false } : undefined;
}

/** What was wanted, where the state gives something else. */
export function wantedInstead(report: WiringReport, { id, wanted }: StateReport): string | undefined {
  const otherwise = report.findings.some(
    ({ kind, states }) => NOT_AS_WANTED.includes(kind) && (states.length === 0 || states.includes(id)),
  );
  return otherwise && wanted !== "" ? wanted : undefined;
}

/** What everything in the table is worked out with. */
export function loadInWords({ load, humAgainst, celsius }: WiringReport): string {
  const input = Number.isFinite(load.inputOhms) ? `an input of ${ohmsInWords(load.inputOhms)}` : "nothing";
  const cable = faradsInWords(load.cableFarads);
  return `Knobs as each state says, else full; ${cable} of cable into ${input}. Level and peak: electrical only, equal coils, against one coil. Hum: at 50 and 150 Hz, against ${humAgainst} alone. Ohms: tip to sleeve at ${celsius.toFixed(0)} °C.`;
}

export function faradsInWords(farads: number): string {
  return `${Math.round(farads * 1e12)}${GAP}pF`;
}

/** "1.00 MΩ", "47 kΩ". */
export function ohmsInWords(ohms: number): string {
  return ohms >= 1e6 ? `${(ohms / 1e6).toFixed(2)}${GAP}MΩ` : `${(ohms / 1e3).toFixed(0)}${GAP}kΩ`;
}

const READ_BY = {
  ohms: "an ohmmeter on each coil",
  henries: "an inductance meter on each coil, or its resonance with a known capacitor",
  farads: "the coil's own resonance, with and without a known capacitor",
  pot: "an ohmmeter from outer lug to outer lug",
} as const;

/** What would narrow the bands of the peaks most; undefined where nothing is a guess. */
export function narrowedBy({ states }: Pick<WiringReport, "states">): string | undefined {
  const kind = states.flatMap(({ strings }) => strings).find(({ peakBand }) => peakBand)?.peakBand?.narrowedBy;
  return kind && READ_BY[kind];
}

const GUESSED = { ohms: "resistance", henries: "inductance", farads: "capacitance", pot: "resistance" } as const;

export function guessesInWords({ guesses }: Pick<WiringReport, "guesses">): string[] {
  return guesses.map(
    ({ path, kind, factor }) => `${path}: a usual ${GUESSED[kind]}, within a factor of ${factor} either way`,
  );
}
