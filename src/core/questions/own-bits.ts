/** The owner's own drill bits, and what to say of them beside a lead hole. Rule FT26. */
import type { Instrument } from "../job/index.ts";
import { mm, type Phrase, say } from "../quantity/index.ts";

export function bitsOf({ workshop }: Instrument): number[] {
  return workshop.bits.flatMap((bit) => (bit.known ? [bit.value] : []));
}

/** Nothing if no bits are listed: then nobody can say that one is missing. */
export function ownBitLine(bitMm: number | undefined, bitsMm: readonly number[], leadMm: number): Phrase[] {
  if (bitsMm.length === 0) return [];
  if (bitMm !== undefined) return [say`Your nearest bit not above the core: ${mm(bitMm)}. Try it in scrap first.`];
  return [
    say`None of your bits suits: they are wider than the core, or so thin that the screw could snap or split the wood. Buy or borrow one of ${mm(leadMm, 1)}.`,
  ];
}
