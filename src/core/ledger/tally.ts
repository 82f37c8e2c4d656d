/** Running count of one margin's draws, beside the count of its plane; see sampling.ts for the model. */

const BLOCKS = 8;
/** Draws counted together; blocks are put together from these as the sample grows. */
export const GRAIN = 64;

/**
 * Standard error of a mean, from the means of equal consecutive blocks.
 *
 * @param sums of the draws of each grain
 */
export function errorOfBlocks(sums: Float64Array, count: number): number {
  const grains = count / GRAIN / BLOCKS;
  let sum = 0;
  let squares = 0;
  for (let block = 0; block < BLOCKS; block += 1) {
    let mean = 0;
    for (let grain = block * grains; grain < (block + 1) * grains; grain += 1) mean += sums[grain] as number;
    mean /= count / BLOCKS;
    sum += mean;
    squares += mean * mean;
  }
  const variance = Math.max(0, squares / BLOCKS - (sum / BLOCKS) ** 2) * (BLOCKS / (BLOCKS - 1));
  return Math.sqrt(variance / BLOCKS);
}

export class Tally {
  count = 0;
  goes = 0;
  binds = 0;
  /** Draws in which formula and plane answer differently. */
  differs = 0;
  private planeGoes = 0;
  private bothGo = 0;
  private planeArea = 0;
  private sum = 0;
  private squares = 0;
  private readonly goesByGrain: Float64Array;
  /** Planes that hold, less the probability of it. */
  private readonly planeByGrain: Float64Array;

  constructor(most: number) {
    this.goesByGrain = new Float64Array(most / GRAIN);
    this.planeByGrain = new Float64Array(most / GRAIN);
  }

  /**
   * @param start a value near the margins, taken off before squaring
   * @param plane whether the plane holds at this draw
   * @param area probability that it holds for any value of the pivot
   */
  add(margin: number, start: number, plane: boolean, area: number): void {
    const grain = (this.count / GRAIN) | 0;
    const away = margin - start;
    this.count += 1;
    this.sum += away;
    this.squares += away * away;
    this.planeArea += area;
    if (margin >= 0) {
      this.goes += 1;
      this.goesByGrain[grain] = (this.goesByGrain[grain] ?? 0) + 1;
      if (plane) this.bothGo += 1;
    }
    if (plane) this.planeGoes += 1;
    if (plane !== margin >= 0) this.differs += 1;
    this.planeByGrain[grain] = (this.planeByGrain[grain] ?? 0) + (plane ? 1 - area : -area);
  }

  /** p - β (q - Q). */
  probability(): number {
    const { count } = this;
    const better = this.goes / count - this.trust() * (this.planeGoes / count - this.planeArea / count);
    return Math.min(1, Math.max(0, better));
  }

  /** Standard deviation of the margins. */
  spread(): number {
    return Math.sqrt(Math.max(0, this.squares / this.count - (this.sum / this.count) ** 2));
  }

  /** Standard error of the probability, from the means of equal consecutive blocks. */
  error(): number {
    const trust = this.trust();
    const known = this.goesByGrain.map((goes, grain) => goes - trust * (this.planeByGrain[grain] as number));
    return errorOfBlocks(known, this.count);
  }

  /** β: how far the plane's count foretells the formula's. Where the plane always holds it costs nothing to trust it. */
  private trust(): number {
    const q = this.planeGoes / this.count;
    if (q === 0 || q === 1) return 1;
    return Math.min(1, Math.max(0, (this.bothGo / this.count - (this.goes / this.count) * q) / (q * (1 - q))));
  }
}
