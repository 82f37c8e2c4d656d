/**
 * What one act of work does to the instrument. Each function takes the instrument before and returns it after.
 *
 * An act is refused where it cannot have happened to this instrument: plugging a hole that is plugged, drilling where
 * there is no wood. What is only unwise (a hole over a hole, a bit through the top) is not refused here: the actual
 * instrument must be able to carry it. The gates of core/plan are there to prevent it.
 */
import type { Work } from "../verdict/index.ts";
import { boreAt, cutSlot, movePart, openNutSlots, restring, spotFaceAt } from "./acts-fittings.ts";
import { drillHoles, plugHoles, rout } from "./acts-wood.ts";
import { type Doing, made, requireSize } from "./doing.ts";
import type { Instrument } from "./instrument.ts";

export function applyWork(instrument: Instrument, work: Work, doing: Doing): Instrument {
  switch (work.act) {
    case "plug":
      return plugHoles(instrument, work, doing);
    case "drill":
      return drillHoles(instrument, work, doing);
    case "rout":
      return rout(instrument, work, doing);
    case "ream":
      return boreAt(instrument, work, doing);
    case "spot-face":
      return spotFaceAt(instrument, work, doing);
    case "slot":
      return cutSlot(instrument, work, doing);
    case "shim":
      doing.make("shim");
      return {
        ...instrument,
        shim: made(requireSize(work.thickness, "thickness", doing), instrument.shim.path, doing),
      };
    case "nut slots":
      return openNutSlots(instrument, work, doing);
    case "insulate":
    case "bare contact":
      return {
        ...instrument,
        treated: [
          ...(instrument.treated ?? []),
          { where: work.where, how: work.act === "insulate" ? "insulated" : "bare" },
        ],
      };
    case "take off":
      return movePart(instrument, work.part, false, doing);
    case "fit":
      return movePart(instrument, work.part, true, doing);
    case "restring":
      return restring(instrument, work.set, doing);
    case "buy":
    case "choose":
      return instrument;
    default:
      return work satisfies never;
  }
}
