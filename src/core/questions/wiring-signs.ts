/** Kicks that nobody has read, as readings to take: what ohms cannot show. */
import { unknown } from "../quantity/index.ts";
import type { NextReading } from "../verdict/index.ts";
import type { StateCheck } from "../wiring/index.ts";
import { missingReading } from "./how-to-measure.ts";
import type { Checked } from "./wiring-check.ts";

/** Of the coils heard together in a state, those whose kick is not known. */
export function unreadSigns({ wiring }: Checked, { coils }: Pick<StateCheck, "coils">): NextReading[] {
  if (coils.length < 2) return [];
  return wiring.coils
    .filter(({ id, kick }) => kick === undefined && coils.some((heard) => heard.id === id))
    .map(({ ohms, name, start, finish }): NextReading => {
      const path = ohms.path.replace(/\.ohms$/, ".kick");
      const { how, ...way } = missingReading(unknown(path, "ratio"), "whether the coils help one another");
      return { ...way, what: `which way ${name} kicks`, how: `${how}; red on ${finish}, black on ${start}` };
    });
}
