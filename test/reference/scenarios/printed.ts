/** Holds figures to printed ones. */
import { expect } from "vitest";

/** The same to half of the last digit printed, and a hair for figures that end in 5. */
export function expectPrinted(actual: number | undefined, printed: string): void {
  const digits = printed.split(".")[1]?.length ?? 0;
  const off = Math.abs((actual ?? Number.NaN) - Number(printed));
  expect(off, `${actual} against ${printed}`).toBeLessThanOrEqual(0.5 * 10 ** -digits + 1e-9);
}

/** A printed list against the figures that belong to 1, 2, … */
export function expectEachPrinted(printed: readonly string[], actual: (n: number) => number): void {
  for (const [index, figure] of printed.entries()) expectPrinted(actual(index + 1), figure);
}
