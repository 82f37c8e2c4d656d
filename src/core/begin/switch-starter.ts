/** A beginning about a lever switch: its slot and screws, room below, room beside. */
import { mm, say } from "../quantity/index.ts";
import type { Draft, Grower } from "./draft.ts";
import { type Reading, writtenScaled } from "./reading.ts";
import { NOT_ASKED } from "./scale-entries.ts";
import type { Entry } from "./types.ts";

const OLD_SLOT: Entry = {
  id: "old-slot",
  prompt: "How long is the slot that is there, and how far apart are its two screw holes?",
  lay: "With the calliper's inside jaws end to end of the slot, then middle to middle of the screw holes.",
  kind: "lengths",
  example: "26 41.3",
  more: "Two figures: slot, then screws.",
  tool: "calliper",
  unknown: "whether the slot suits will be: measure",
};

const NEW_SLOT: Entry = {
  id: "new-slot",
  prompt: "What does the new switch want: slot length, and distance of its screws?",
  lay: "From its sheet, or with a calliper on the switch: travel of the lever at the level of the wood, and middle to middle of its screw holes.",
  kind: "lengths",
  example: "30.5 46",
  more: "Two figures: slot, then screws. From a sheet: write (data sheet) behind them.",
  tool: "calliper",
  unknown: "whether the slot suits will be: measure",
};

const SCREW_HOLES: Entry = {
  id: "screw-holes",
  prompt: "How wide are the screw holes, the old ones and the new ones?",
  lay: "With the largest drill shank that goes in without force, or a calliper on the screw.",
  kind: "lengths",
  example: "3.2 3.2",
  more: "Two figures, old then new; one figure if they are alike.",
  tool: "drill shank",
  unknown: "3.2 mm for both is assumed, with its doubt",
};

const SWITCH_SIZE: Entry = {
  id: "size",
  prompt: "How far does the switch reach below the wood, and how wide is it?",
  lay: "With the calliper on the switch: from its mounting face to its lowest point, lugs left out, then across its body.",
  kind: "lengths",
  example: "27.5 21",
  more: "Two figures: depth, then width. 2 mm are added for lugs and wires (common practice).",
  tool: "calliper",
  unknown: "room below and at the sides will be: measure",
};

const SWITCH_ROOM: Entry = {
  id: "room",
  prompt: "How deep and how wide is the cavity there?",
  lay: "With the calliper: from the inner face of the top to the inside of the cover, then wall to wall across the switch.",
  kind: "lengths",
  example: "33 24",
  more: "Two figures: free depth, then free width.",
  tool: "calliper",
  unknown: "room below and at the sides will be: measure",
};

const SIZE = { what: "a size of a switch", minMm: 1, maxMm: 80 } as const;
/** Screws of lever switches are M3 or near it. Common practice, no source. */
const USUAL_SCREW_HOLE_MM = 3.2;

export const SWITCH_STARTER: Grower = {
  id: "switch",
  title: "Does this lever switch fit? (A round toggle: take the pot's beginning)",
  entries: [OLD_SLOT, NEW_SLOT, SCREW_HOLES, SWITCH_SIZE, SWITCH_ROOM],
  questions: ["lever.slot", "lever.depth", "lever.width"],
  grow: growSwitch,
};

function growSwitch(draft: Draft): ReturnType<Grower["grow"]> {
  const range = { what: "a size of a slot", minMm: 5, maxMm: 120 };
  const old = draft.lengths("old-slot", { ...range, counts: [2], form: "slot, then screw to screw" });
  const wanted = draft.lengths("new-slot", { ...range, counts: [2], form: "slot, then screw to screw" });
  const size = draft.lengths("size", { ...SIZE, counts: [2], form: "depth, then width" });
  const room = draft.lengths("room", {
    what: "a size of a cavity",
    minMm: 5,
    maxMm: 150,
    counts: [2],
    form: "free depth, then free width",
  });
  const slotWords = (list: readonly Reading[]) =>
    say`Slot ${mm(list[0]?.valueMm ?? 0, 1)} long, screws ${mm(list[1]?.valueMm ?? 0, 1)} apart.`;
  if (old) draft.read("old-slot", slotWords(old));
  if (wanted) draft.read("new-slot", slotWords(wanted));
  if (size)
    draft.read("size", say`Reaches ${mm(size[0]?.valueMm ?? 0, 1)} below, ${mm(size[1]?.valueMm ?? 0, 1)} wide.`);
  if (room)
    draft.read("room", say`Cavity ${mm(room[0]?.valueMm ?? 0, 1)} deep, ${mm(room[1]?.valueMm ?? 0, 1)} wide there.`);
  const holes = readScrewHoles(draft);
  return draft.finish({
    job: { title: "Guitar, new lever switch", notes: `Begun with: Does this lever switch fit? ${NOT_ASKED}` },
    instrument: {
      kind: "guitar",
      strings: 6,
      controls: {
        lever: {
          ...(old ? slotOf(old) : {}),
          screwHole: holes.old,
          ...(room ? { freeDepth: room[0]?.written, freeWidth: room[1]?.written } : {}),
        },
      },
    },
    parts: {
      "new-switch": {
        kind: "lever",
        name: "new lever switch",
        ...(wanted ? slotOf(wanted) : {}),
        screwHole: holes.new,
        ...(size ? { depth: size[0]?.written, width: size[1]?.written } : {}),
      },
    },
    fit: { controls: { lever: { part: "new-switch" } } },
  });
}

/** A job counts screws from the slot's middle. */
function slotOf(list: readonly Reading[]): { slot?: string; screws?: string } {
  const [slot, apart] = list;
  return {
    ...(slot ? { slot: slot.written } : {}),
    ...(apart ? { screws: writtenScaled(apart, { factor: 0.5 }) } : {}),
  };
}

function readScrewHoles(draft: Draft): { readonly old: string; readonly new: string } {
  const list = draft.lengths("screw-holes", {
    what: "a screw hole",
    minMm: 1,
    maxMm: 8,
    counts: [1, 2],
    form: "the old one, then the new one",
  });
  const [old, fresh = old] = list ?? [];
  if (!old || !fresh) {
    const usual = draft.assume(USUAL_SCREW_HOLE_MM, 0.4, "Screw holes of the switch, old and new");
    return { old: usual, new: usual };
  }
  draft.read("screw-holes", say`Screw holes ${mm(old.valueMm, 1)} and ${mm(fresh.valueMm, 1)}.`);
  return { old: old.written, new: fresh.written };
}
