/**
 * Where a resonance may lie while inductances or capacitances are guesses: between all of them at their largest and all at
 * their least. The reading that narrows the band most is named.
 */
import { audiblePoints, curveOf, inState, type Load, type StateFacts } from "../circuit/index.ts";
import { type Guess, movedBy, type WiredCircuit } from "./circuit-of.ts";

export interface PeakBand {
  /** 20 Hz and 20 kHz where the peak leaves what is heard. */
  readonly lowHz: number;
  readonly highHz: number;
  /** The kind of value whose reading narrows it most. */
  readonly narrowedBy: Guess["kind"];
}

/** Fewer points than a curve that is drawn: the peak itself is found between them. */
const POINTS = audiblePoints(10);
const [LOWEST_HZ, HIGHEST_HZ] = [20, 20_000];

export function peakBand(
  wired: WiredCircuit,
  { inside }: Pick<StateFacts, "inside">,
  load: Load,
  string: number,
): PeakBand {
  const peakWith = (towards: 1 | -1, guesses: readonly Guess[]): number | undefined => {
    const circuit = movedBy(wired.circuit, guesses, new Map(guesses.map((guess) => [guess, towards])));
    return curveOf(inState(circuit, inside.state), load, POINTS, string).peak?.frequencyHz;
  };
  const kinds = [...new Set(wired.guesses.map(({ kind }) => kind))];
  const spans = kinds.map((kind) => {
    const mine = wired.guesses.filter((guess) => guess.kind === kind);
    return { kind, span: (peakWith(-1, mine) ?? HIGHEST_HZ) / (peakWith(1, mine) ?? LOWEST_HZ) };
  });
  const widest = spans.sort((first, second) => second.span - first.span)[0];
  // Less capacitance can also mean more damping and so a lower peak: the ends are put in order.
  const ends = [
    peakWith(1, wired.guesses) ?? LOWEST_HZ,
    peakWith(-1, wired.guesses) ?? HIGHEST_HZ,
    peakWith(1, []) ?? LOWEST_HZ,
  ];
  return { lowHz: Math.min(...ends), highHz: Math.max(...ends), narrowedBy: widest?.kind ?? "henries" };
}
