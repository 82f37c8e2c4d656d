/** How low a pickup can be set, and what gap that leaves to the open strings. Rule FT4. */
import { lowestSetting, pickupGap } from "../fit/index.ts";
import type { Cavity, Instrument, Pickup } from "../job/index.ts";
import type { Asking } from "../ledger/index.ts";
import { mm, type Phrase, say } from "../quantity/index.ts";
import { saddleHeight } from "../setup/index.ts";
import { xOf } from "./bridge-model.ts";
import { neededHeights } from "./needed-heights.ts";
import { scaleFrame } from "./scale-frame.ts";

/** Wires and the squashed spring below a pickup. Common practice, no source. */
const ROOM_BELOW_MM = 2;
/** Open string to pole, the least of one maker's table (3/32 in); the bass side of a neck pickup wants twice that. */
const LEAST_GAP_MM = 2.4;

/** Said only of a pickup that cannot be lowered until it is level with the top. */
export function lowestLines(asking: Asking<Instrument>, pickup: Pickup, cavity: Cavity | undefined): Phrase[] {
  const { depth } = pickup.body;
  if (!depth.known || !cavity?.depth.known) return [];
  const lowest = lowestSetting({ partMm: depth.value, routMm: cavity.depth.value, roomBelowMm: ROOM_BELOW_MM });
  if (lowest.proudMm === 0) return [];
  const tight = say`Tight when lowered: ${mm(lowest.gapBelowMm)} below it, and wires and a squashed spring want about ${mm(ROOM_BELOW_MM)}. At its lowest it stands ${mm(lowest.proudMm)} proud of the top.`;
  const stringHeightMm = lowestString(asking, pickup);
  if (stringHeightMm === undefined) return [tight];
  const gap = pickupGap({ stringHeightMm, proudMm: lowest.proudMm, wantedMm: LEAST_GAP_MM });
  if (gap.marginMm >= 0)
    return [tight, say`The open strings then pass ${mm(gap.widestGapMm, 1)} above it: room enough.`];
  return [
    tight,
    say`The open strings then pass only ${mm(gap.widestGapMm, 1)} above it, and ${mm(LEAST_GAP_MM, 1)} is usual at the least: rout ${mm(gap.routDeeperMm, 1)} deeper, or take a shallower pickup.`,
  ];
}

/** Height of the lowest open string of the pickup above the body top, at the pickup's middle. */
function lowestString(asking: Asking<Instrument>, pickup: Pickup): number | undefined {
  const frame = scaleFrame(asking);
  const heights = neededHeights(asking);
  if (!frame.known || !heights.known || !pickup.centre.u.known) return undefined;
  const xMm = xOf(frame, pickup.centre.u.value);
  const over = pickup.strings.flatMap((string) => {
    const line = heights.lines[string - 1];
    const contactMm = heights.contactsMm[string - 1];
    if (!line || contactMm === undefined) return [];
    const { zMm, zNutMm } = saddleHeight(line);
    return [zNutMm + ((zMm - zNutMm) * xMm) / contactMm];
  });
  return over.length === 0 ? undefined : Math.min(...over);
}
