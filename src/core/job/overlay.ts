/**
 * Readings on their way through the fold: what an operation makes void is no longer `measured` when the operation
 * starts, and what was read after it stands before the next one starts. So each act works on what was last read, and
 * not on what was planned before the reading.
 */
import type { Known, Quantity } from "../quantity/index.ts";
import type { Instrument } from "./instrument.ts";
import type { Operation } from "./operation.ts";
import { bestValue, type TakenReading } from "./readings.ts";
import { coversSteps, stepsOf, voidsOf } from "./voids.ts";

export interface VoidReading {
  readonly reading: string;
  readonly by: string;
  readonly why: string;
}

export interface Overlay {
  /** The instrument as the operation finds it. */
  before(instrument: Instrument, operation: Operation): Instrument;
  /** What the operation left, as it was read. */
  after(instrument: Instrument, operation: Operation): Instrument;
  /** Readings made void so far, in the order of the readings. */
  voided(): readonly VoidReading[];
}

interface InForce {
  readonly steps: readonly string[];
  readonly readings: readonly TakenReading[];
}

export function createOverlay(readings: readonly TakenReading[]): Overlay {
  const inForce = new Map<string, InForce>();
  const later = new Map<string, TakenReading[]>();
  const voided = new Map<TakenReading, VoidReading>();

  function enter(reading: TakenReading): void {
    const { subject } = reading;
    const known = inForce.get(subject);
    inForce.set(subject, {
      steps: known?.steps ?? stepsOf(subject),
      readings: [...(known?.readings ?? []), reading],
    });
  }

  for (const reading of readings) {
    if (reading.after === undefined) enter(reading);
    else later.set(reading.after, [...(later.get(reading.after) ?? []), reading]);
  }

  return {
    before(instrument, { id, work }) {
      if (inForce.size === 0) return instrument;
      const rules = voidsOf(work).map((rule) => ({ steps: stepsOf(rule.subject), why: rule.why }));
      if (rules.length === 0) return instrument;
      const subjects = new Set<string>();
      for (const [subject, { steps, readings: gone }] of inForce) {
        const rule = rules.find((one) => coversSteps(one.steps, steps));
        if (!rule) continue;
        for (const reading of gone) voided.set(reading, { reading: reading.id, by: id, why: rule.why });
        inForce.delete(subject);
        subjects.add(subject);
      }
      // A drill states its own figures, and the plugged hole that stays where it was is as well read as before.
      if (subjects.size === 0 || work.act === "drill") return instrument;
      return changed(instrument, (quantity) =>
        subjects.has(quantity.path) && quantity.known && quantity.origin === "measured"
          ? asAssumed(quantity)
          : quantity,
      );
    },
    after(instrument, { id }) {
      const read = later.get(id);
      if (!read) return instrument;
      for (const reading of read) enter(reading);
      const best = new Map(
        [...new Set(read.map(({ subject }) => subject))].map((subject) => [
          subject,
          // What was read as found is in the instrument already.
          (inForce.get(subject)?.readings ?? []).filter((reading) => reading.after !== undefined),
        ]),
      );
      return changed(instrument, (quantity) => bestValue(best.get(quantity.path) ?? [], quantity).quantity);
    },
    voided: () => readings.flatMap((reading) => voided.get(reading) ?? []),
  };
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

function changed(instrument: Instrument, change: (quantity: Quantity) => Quantity): Instrument {
  // Quantities are replaced by quantities, so the shape stays.
  return mapQuantities(instrument, change) as Instrument;
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
