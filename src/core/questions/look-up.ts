/** Reads a shared result (the placement, the needed heights) outside a question: for sheets and the traveller. */
import type { Instrument } from "../job/index.ts";
import type { Asking } from "../ledger/index.ts";

export function lookUp<T>(subject: Instrument, compute: (asking: Asking<Instrument>) => T): T {
  const results = new Map<string, unknown>();
  const asking: Asking<Instrument> = {
    subject,
    derive<R>(key: string, inner: (asking: Asking<Instrument>) => R): R {
      if (!results.has(key)) results.set(key, inner(asking));
      return results.get(key) as R;
    },
  };
  return compute(asking);
}
