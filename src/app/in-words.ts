/** Figures that people misread, shown so that they cannot be. The odds in words are the ledger's. */

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
