/** What the traveller has to know of the bridge's place, so that its steps say what the sheet and the list say. */
import type { Instrument } from "../job/index.ts";
import type { PlanPlaces } from "../plan/index.ts";
import { type KnownPlacement, registerOf } from "./context.ts";

export function planPlaces(placed: KnownPlacement, instrument: Instrument): PlanPlaces {
  const { frame } = placed.model;
  const { words, xMm } = registerOf(placed, instrument);
  return { register: { words, uMm: xMm + frame.offsetMm }, fromNut: frame.fromNut, fanned: frame.multiScale };
}
