/**
 * Probability in words, to stand beside the figure.
 *
 * Model: the nearest of a few plain odds, borders half way between neighbours; from 95 % on the words claim only what
 * the figure has passed. Source: own wording; that people read "9 in 10" better than "90 %" is common practice.
 */

interface Step {
  /** The words hold from this probability on. */
  readonly from: number;
  readonly words: string;
}

/** Highest first. */
const STEPS: readonly Step[] = [
  { from: 0.995, words: "practically certain" },
  { from: 0.95, words: "better than 19 in 20" },
  { from: 0.85, words: "about 9 in 10" },
  { from: 0.775, words: "about 4 in 5" },
  { from: 0.708, words: "about 3 in 4" },
  { from: 0.583, words: "about 2 in 3" },
  { from: 0.417, words: "about 1 in 2" },
  { from: 0.292, words: "about 1 in 3" },
  { from: 0.225, words: "about 1 in 4" },
  { from: 0.15, words: "about 1 in 5" },
  { from: 0.05, words: "about 1 in 10" },
  { from: 0.005, words: "less than 1 in 20" },
];
const LEAST = "practically ruled out";
const COIN = "about 1 in 2";

/**
 * @example
 * inWords(0.63); // "about 2 in 3"
 * inWords(0.5); // "about 1 in 2: do not drill on this"
 */
export function inWords(probability: number): string {
  const words = oddsInWords(probability);
  return words === COIN ? `${words}: do not drill on this` : words;
}

/** The odds alone, for use inside a sentence. */
export function oddsInWords(probability: number): string {
  return STEPS.find(({ from }) => probability >= from)?.words ?? LEAST;
}

/** A step that cannot be undone waits for this chance unless the job sets its own (docs/decisions/0005). */
export const GATE_CHANCE = 0.95;

/** Nothing here is certain: no figure is rounded up to 1. */
const NEARLY_CERTAIN = 0.9995;
const THREE_DECIMALS_FROM = 0.995;

/** The figure beside the words: two decimals, three near 1; a chance below the gate is not rounded up to it. */
export function chanceFigure(chance: number, gate: number = GATE_CHANCE): string {
  if (chance >= NEARLY_CERTAIN) return "over 0.999";
  if (chance >= THREE_DECIMALS_FROM) return chance.toFixed(3);
  const rounded = Math.round(chance * 100) / 100;
  const honest = chance < gate && rounded >= gate ? Math.floor(chance * 100) / 100 : rounded;
  return honest.toFixed(2);
}
