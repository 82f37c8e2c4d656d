/** Acts on fittings: holes of controls and tuners, the lever's slot, nut slots, parts on and off, strings. */
import { type Quantity, unknown } from "../quantity/index.ts";
import { type Act, type Doing, grown, made, names, refuse, requireSize } from "./doing.ts";
import type { Instrument } from "./instrument.ts";
import type { Control } from "./instrument-parts.ts";

/** A hole found larger or smaller than the act says by more than this is another hole. Finish in it: about 0.2 mm. */
const FROM_AGREES_MM = 0.3;

const TUNERS = /^(tuner|headstock)/;
const EVERY_CONTROL = /^(controls|pots)$/;

/** Opens a hole of a control, of all of them ("controls"), or of the tuners. */
export function boreAt(instrument: Instrument, work: Act<"ream">, doing: Doing): Instrument {
  if (!(work.to > 0)) refuse(doing, "to", `must be above 0 mm, got ${work.to}`, "State the diameter reached");
  if (TUNERS.test(work.where)) {
    const tuners = instrument.tuners;
    if (!tuners) return refuse(doing, "where", "no tuners are entered", "Enter the tuners first");
    doing.make("hole of the tuners");
    return { ...instrument, tuners: { ...tuners, oldHole: opened(tuners.oldHole, work, doing) } };
  }
  return atControls(instrument, work.where, doing, (control) => {
    doing.make(`hole of ${control.id}`);
    return { ...control, hole: opened(control.hole, work, doing) };
  });
}

function opened(hole: Quantity, work: Act<"ream">, doing: Doing): Quantity {
  if (hole.known && hole.value >= work.to)
    refuse(doing, "to", `the hole is ${hole.value} mm already`, "A reamer only opens a hole");
  if (hole.known && Math.abs(hole.value - work.from) > FROM_AGREES_MM) {
    refuse(doing, "from", `the hole is ${hole.value} mm now, not ${work.from} mm`, "Measure the hole and enter it");
  }
  return made(work.to, hole.path, doing);
}

/** Thins the wood from inside: the part has more free depth by as much. */
export function spotFaceAt(instrument: Instrument, work: Act<"spot-face">, doing: Doing): Instrument {
  const depth = requireSize(work.depth, "depth", doing);
  return atControls(instrument, work.where, doing, (control) => {
    if (control.wood.known && depth >= control.wood.value) {
      refuse(
        doing,
        "depth",
        `${depth} mm goes through the ${control.wood.value} mm of wood at "${control.id}"`,
        "Measure the wood there",
      );
    }
    doing.make(`wood at ${control.id}`);
    const stated = Number.isFinite(work.leaves) ? made(work.leaves, control.wood.path, doing) : control.wood;
    const wood = control.wood.known ? grown(control.wood, -depth, doing) : stated;
    return { ...control, wood, freeDepth: grown(control.freeDepth, depth, doing) };
  });
}

export function cutSlot(instrument: Instrument, work: Act<"slot">, doing: Doing): Instrument {
  const lever = instrument.lever;
  if (!lever) return refuse(doing, "where", "no lever switch is entered", "Enter the lever first");
  if (lever.oldSlot.known && work.to < lever.oldSlot.value) {
    refuse(doing, "to", `the slot is ${lever.oldSlot.value} mm long already`, "A slot only gets longer");
  }
  doing.make("slot of the lever");
  const screws =
    work.screwOffset > 0
      ? {
          oldScrews: made(work.screwOffset, lever.oldScrews.path, doing),
          // Drilled for the lever's own screws, but read from now on as the hole in the body.
          oldScrewHole: { ...lever.screwHole, path: lever.oldScrewHole.path },
        }
      : {};
  return {
    ...instrument,
    lever: {
      ...lever,
      oldSlot: made(work.to, lever.oldSlot.path, doing),
      ...screws,
      ...(work.cover === "" ? {} : { cover: work.cover }),
    },
  };
}

function atControls(
  instrument: Instrument,
  where: string,
  doing: Doing,
  change: (control: Control) => Control,
): Instrument {
  const id = where.replace(/^controls?\./, "");
  const wanted = (control: Control) => EVERY_CONTROL.test(id) || control.id === id;
  if (!instrument.controls.some(wanted))
    refuse(doing, "where", `there is no control "${where}"`, `Controls: ${names(instrument.controls)}`);
  return {
    ...instrument,
    controls: instrument.controls.map((control) => (wanted(control) ? change(control) : control)),
  };
}

export function openNutSlots(instrument: Instrument, work: Act<"nut slots">, doing: Doing): Instrument {
  const slots = [...instrument.neck.nutSlots];
  for (const [index, { string, to }] of work.widths.entries()) {
    const before = slots[string - 1];
    if (!before)
      return refuse(
        doing,
        `widths[${index}].string`,
        `there is no string ${string}`,
        `Strings are numbered 1 to ${slots.length}, 1 the thinnest`,
      );
    if (before.known && to < before.value) {
      refuse(
        doing,
        `widths[${index}].to`,
        `slot ${string} is ${before.value} mm wide already and cannot be filed to ${to} mm`,
        "A slot only gets wider: a new nut is entered as the part nut",
      );
    }
    doing.make(`nut slot ${string}`);
    slots[string - 1] = made(to, before.path, doing);
  }
  return { ...instrument, neck: { ...instrument.neck, nutSlots: slots } };
}

export function movePart(instrument: Instrument, part: string, on: boolean, doing: Doing): Instrument {
  if (instrument.fitted?.[part] === on) {
    refuse(doing, "part", `the ${part} is ${on ? "fitted" : "off"} already`, on ? "Take it off first" : "Fit it first");
  }
  doing.make(`part ${part}`);
  const moved: Instrument = { ...instrument, fitted: { ...instrument.fitted, [part]: on } };
  if (part !== "nut" || !on) return moved;
  // Whatever the old nut's slots were, the new nut's are not known until they are measured.
  return {
    ...moved,
    neck: {
      ...moved.neck,
      nutSlots: moved.neck.nutSlots.map((_, index) => unknown(`neck.nutSlots[${index}]`, "length")),
    },
  };
}

/** Naming a spare string puts it in the set; its number's former string becomes the spare. */
export function restring(instrument: Instrument, set: string, doing: Doing): Instrument {
  doing.make("strings");
  const strung: Instrument =
    instrument.fitted?.strings === false
      ? { ...instrument, fitted: { ...instrument.fitted, strings: true } }
      : instrument;
  const spare = instrument.spareStrings.find((string) => string.name === set);
  const former = spare && instrument.strings.find((string) => string.number === spare.number);
  if (!spare || !former) return strung;
  return {
    ...strung,
    strings: instrument.strings.map((string) => (string === former ? spare : string)),
    spareStrings: instrument.spareStrings.map((string) => (string === spare ? former : string)),
  };
}
