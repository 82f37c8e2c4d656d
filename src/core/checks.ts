/** Refusals shared by the core's exported functions: a wrong number must not give a plausible answer. */
import { InputError } from "./errors.ts";

/** @throws InputError unless `value` is a finite number above zero */
export function requirePositive(value: number, where: string, unit: string, remedy: string): void {
  if (!(Number.isFinite(value) && value > 0)) {
    throw new InputError(where, `must be a number above 0 ${unit}, got ${value}`, remedy);
  }
}

/** @throws InputError unless `value` is a finite number */
export function requireFinite(value: number, where: string, unit: string, remedy: string): void {
  if (!Number.isFinite(value)) throw new InputError(where, `must be a number of ${unit}, got ${value}`, remedy);
}
