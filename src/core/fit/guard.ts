/**
 * Refusals for many sizes at once: the name of the field is where the caller looks. Formulas pass here at every draw:
 * plain loops, no lists made.
 */
import { requireFinite, requirePositive } from "../checks.ts";
import { InputError } from "../errors.ts";

/** @throws InputError unless every value is a finite number above zero */
export function requireSizesMm(sizes: Readonly<Record<string, number>>, remedy: string): void {
  for (const where in sizes) requirePositive(sizes[where] as number, where, "mm", remedy);
}

/** @throws InputError unless every value is a finite number at or above zero */
export function requireNotNegativeMm(sizes: Readonly<Record<string, number>>, remedy: string): void {
  for (const [where, value] of Object.entries(sizes)) {
    requireFinite(value, where, "mm", remedy);
    if (value < 0) throw new InputError(where, `must not be below 0 mm, got ${value}`, remedy);
  }
}

/** @throws InputError unless every value is a finite number */
export function requirePlacesMm(places: Readonly<Record<string, number>>, remedy: string): void {
  for (const where in places) requireFinite(places[where] as number, where, "mm", remedy);
}
