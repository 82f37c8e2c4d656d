/** Figures that people misread, shown so that they cannot be. The odds in words are the ledger's. */

/** A step that cannot be undone waits for this chance (docs/decisions/0005); a job may set its own. */
export const GATE_CHANCE = 0.95;

/** Two decimals, rounded; but a chance below the gate is not rounded up to it. */
export function chanceFigure(chance: number, gate = GATE_CHANCE): string {
  const rounded = Math.round(chance * 100) / 100;
  const honest = chance < gate && rounded >= gate ? Math.floor(chance * 100) / 100 : rounded;
  return honest.toFixed(2);
}

/** A share of the whole in words. */
export function shareInWords(share: number): string {
  if (share >= 0.9) return "nearly all";
  if (share >= 0.6) return "most";
  if (share >= 0.42) return "about half";
  if (share >= 0.29) return "about a third";
  if (share >= 0.17) return "about a fifth";
  if (share >= 0.07) return "about a tenth";
  return "little";
}
