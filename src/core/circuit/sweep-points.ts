/** The frequencies at which a response is shown. */

/** Logarithmic steps, 50 a decade from 20 Hz to 20 kHz: 151 points. */
export function audiblePoints(perDecade = 50): number[] {
  const [from, decades] = [20, 3];
  return Array.from({ length: decades * perDecade + 1 }, (_, index) => from * 10 ** (index / perDecade));
}
