/** A wire in one line: "bridge.blue to lever.p1-1, black, 120 mm". Colour and length may be left out. */
import { InputError } from "../errors.ts";

export interface WireInWords {
  readonly from: string;
  readonly to: string;
  readonly colour: string | undefined;
  readonly length: string | undefined;
}

const JOINS = /^(\S+)\s+to\s+(\S+)$/;
const LENGTH = /^[\d.,/]/;

/** @throws InputError where the two lugs cannot be read */
export function readWire(text: string, where: string): WireInWords {
  const [joins = "", ...more] = text.split(",").map((part) => part.trim());
  const found = JOINS.exec(joins);
  if (!found?.[1] || !found[2])
    throw new InputError(
      where,
      `cannot read "${text}" as a wire`,
      "Write: lug to lug, colour, length; e.g. bridge.blue to lever.p1-1, black, 120 mm",
    );
  const length = more.find((part) => LENGTH.test(part));
  const colour = more.find((part) => part !== "" && !LENGTH.test(part));
  return { from: found[1], to: found[2], colour, length };
}
