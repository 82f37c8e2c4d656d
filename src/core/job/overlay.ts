/** Lays readings taken after an operation over the folded instrument, and takes `measured` from what was made void. */
import type { Known, Quantity } from "../quantity/index.ts";
import type { Instrument } from "./instrument.ts";
import { bestValue, type TakenReading } from "./readings.ts";

export function overlayReadings(
  instrument: Instrument,
  all: readonly TakenReading[],
  valid: readonly TakenReading[],
): Instrument {
  const known = new Set(valid.map((reading) => reading.id));
  const void_ = new Set(all.filter((reading) => !known.has(reading.id)).map((reading) => reading.subject));
  const later = new Map<string, TakenReading[]>();
  for (const reading of valid)
    if (reading.after !== undefined) later.set(reading.subject, [...(later.get(reading.subject) ?? []), reading]);
  if (void_.size === 0 && later.size === 0) return instrument;
  return mapQuantities(instrument, (quantity) => {
    const readings = later.get(quantity.path);
    if (readings) return bestValue(readings, quantity).quantity;
    return void_.has(quantity.path) && quantity.known && quantity.origin === "measured"
      ? asAssumed(quantity)
      : quantity;
  }) as Instrument;
}

/** What was read before the work is still the best guess, but nobody has measured it since. */
function asAssumed(quantity: Known): Known {
  const { tool: _, ...rest } = quantity;
  return {
    ...rest,
    origin: "assumed",
    doubt: quantity.doubt.map((term) => ({
      ...term,
      u: term.u * 2,
      what: `${term.what}, before the work that made it void`,
    })),
  };
}

function isQuantity(value: object): value is Quantity {
  return "known" in value && "path" in value;
}

/** A copy in which every quantity went through `change`; subtrees without a change stay the same object. */
function mapQuantities(value: unknown, change: (quantity: Quantity) => Quantity): unknown {
  if (typeof value !== "object" || value === null) return value;
  if (isQuantity(value)) return change(value);
  if (Array.isArray(value)) {
    const mapped = value.map((item) => mapQuantities(item, change));
    return mapped.some((item, index) => item !== value[index]) ? mapped : value;
  }
  const entries = Object.entries(value).map(([key, item]) => [key, mapQuantities(item, change)] as const);
  return entries.some(([key, item]) => item !== (value as Record<string, unknown>)[key])
    ? Object.fromEntries(entries)
    : value;
}
