/** How heavy the body's wood is, for lead holes and pull-out. */
import { findWood } from "../../data/woods.ts";
import type { Instrument } from "../job/index.ts";
import { type Quantity, unknown } from "../quantity/index.ts";

export interface Gravity {
  readonly quantity: Quantity;
  /** In words, e.g. "red alder, G 0.41". */
  readonly words: string;
}

/** Doubt of one board against its species' mean: about a tenth (common practice, no source). */
const BOARD_U = 0.1;

/** The owner's own figure, else the species table by the name of the wood. */
export function gravityOf({ body }: Instrument): Gravity {
  if (body.gravity.known)
    return { quantity: body.gravity, words: `${body.wood || "wood"}, G ${body.gravity.value.toFixed(2)} as stated` };
  const wood = findWood(body.wood);
  const path = "body.specificGravity";
  if (!wood) return { quantity: unknown(path, "ratio"), words: body.wood || "wood not named" };
  const u = Math.max(BOARD_U * wood.gravity, (wood.high - wood.low) / Math.sqrt(12));
  return {
    quantity: {
      known: true,
      path,
      kind: "ratio",
      value: wood.gravity,
      origin: "assumed",
      said: body.wood,
      doubt: [
        { id: `${path}:table`, u, shape: "normal", what: `${wood.name}, one board against its species (${wood.mark})` },
      ],
    },
    words: `${wood.name}, G ${wood.gravity.toFixed(2)}`,
  };
}
