/** Acts on the wood of the body: plugs, holes, routs. */
import { type Known, type Quantity, valueOr } from "../quantity/index.ts";
import type { DrillPlace } from "../verdict/index.ts";
import { type Act, type Doing, grown, made, names, refuse, requireSize } from "./doing.ts";
import { holePath } from "./drilled.ts";
import type { Instrument } from "./instrument.ts";
import type { Cavity, Hole, HolePurpose } from "./instrument-wood.ts";

/** A hole further in than this from every edge of a cavity stands over air. Calliper doubt, common practice. */
const OVER_AIR_MM = 0.1;

/**
 * The diameter to which walls are reckoned: the plug once plugged, else the larger of hole and thread.
 * Source of the rule: the demos' rules for verdicts (common practice).
 */
export function wallDiameter(hole: Hole): Quantity {
  if (hole.state === "plugged" && hole.plug) return hole.plug.diameter;
  if (!hole.thread?.known) return hole.diameter;
  return hole.diameter.known && hole.diameter.value >= hole.thread.value ? hole.diameter : hole.thread;
}

export function plugHoles(instrument: Instrument, work: Act<"plug">, doing: Doing): Instrument {
  const holes = [...instrument.body.holes];
  for (const [index, place] of work.holes.entries()) {
    const at = holes.findIndex((hole) => hole.id === place.id);
    const hole = holes[at];
    const field = `holes[${index}]`;
    if (!hole)
      return refuse(doing, field, `there is no hole "${place.id}" to plug`, `Holes of the body: ${names(holes)}`);
    if (hole.state === "plugged")
      refuse(doing, field, `"${place.id}" is plugged already`, "Plug it once, or drill it out first");
    if (valueOr(hole.diameter, 0) > work.diameter) {
      refuse(
        doing,
        field,
        `a plug of ${work.diameter} mm does not fill "${place.id}" of ${valueOr(hole.diameter, 0)} mm`,
        "Take the next larger plug",
      );
    }
    doing.leanOn(`hole ${place.id}`);
    doing.make(`plug ${place.id}`);
    holes[at] = {
      ...hole,
      state: "plugged",
      plug: { diameter: made(work.diameter, `${holePath(place.id)}.plug`, doing), matched: true, cured: doing.cured },
    };
  }
  return withHoles(instrument, holes);
}

export function drillHoles(instrument: Instrument, work: Act<"drill">, doing: Doing): Instrument {
  // Screws of the tuners stand in the headstock, which has no body coordinates: the log keeps them, the body does not.
  if (/^(tuner|headstock)/.test(work.group)) {
    for (const place of work.holes) doing.make(`hole ${place.id}`);
    return instrument;
  }
  let holes: readonly Hole[] = instrument.body.holes;
  let touchedPlugs = 0;
  for (const [index, place] of work.holes.entries()) {
    requireWood(instrument, place, `holes[${index}]`, doing);
    for (const plug of holes.filter((hole) => hole.state === "plugged" && overlaps(hole, place))) {
      touchedPlugs += 1;
      doing.leanOn(`plug ${plug.id}`);
    }
    holes = placeHole(holes, newHole(instrument, work.group, place, doing), `holes[${index}]`, doing);
    doing.make(`hole ${place.id}`);
  }
  if (work.intoPlugs && touchedPlugs === 0) {
    refuse(
      doing,
      "intoPlugs",
      "no plug stands where these holes are drilled",
      "Plug the old holes first, or leave intoPlugs out",
    );
  }
  return withHoles(instrument, holes);
}

/** Adds the hole; a plugged hole of the same id keeps its place under a name of its own, so the id means the hole now there. */
function placeHole(holes: readonly Hole[], hole: Hole, field: string, doing: Doing): readonly Hole[] {
  const before = holes.find((other) => other.id === hole.id);
  if (!before) return [...holes, hole];
  const others = holes.filter((other) => other !== before);
  if (before.state === "plugged") {
    doing.leanOn(`plug ${before.id}`);
    const name = `${hole.id}@try-${others.filter((other) => other.id.startsWith(`${hole.id}@`)).length + 1}`;
    doing.rename(`plug ${before.id}`, `plug ${name}`);
    return [...others, renamed(before, name), hole];
  }
  const off = Math.hypot(
    valueOr(before.at.u, 0) - valueOr(hole.at.u, 0),
    valueOr(before.at.y, 0) - valueOr(hole.at.y, 0),
  );
  const [was, is] = [valueOr(before.diameter, 0), valueOr(hole.diameter, 0)];
  if (off + was / 2 > is / 2 + OVER_AIR_MM) {
    refuse(
      doing,
      field,
      `"${hole.id}" is drilled already and open, ${off.toFixed(1)} mm away`,
      "Plug it first, or give the second hole an id of its own",
    );
  }
  doing.leanOn(`hole ${hole.id}`);
  const deeper =
    before.depth === "through" || hole.depth === "through"
      ? "through"
      : valueOr(before.depth, 0) > valueOr(hole.depth, 0)
        ? before.depth
        : hole.depth;
  return [...others, { ...hole, purpose: before.purpose, depth: deeper }];
}

/** The plugged hole under its new name: what is read under the old one from now on is the hole drilled there. */
function renamed(hole: Hole, id: string): Hole {
  const own = `${holePath(hole.id)}.`;
  const moved = <Size extends Quantity>(size: Size): Size =>
    size.path.startsWith(own) ? { ...size, path: `${holePath(id)}.${size.path.slice(own.length)}` } : size;
  return {
    ...hole,
    id,
    at: { u: moved(hole.at.u), y: moved(hole.at.y) },
    diameter: moved(hole.diameter),
    depth: hole.depth === "through" ? "through" : moved(hole.depth),
    ...(hole.thread === undefined ? {} : { thread: moved(hole.thread) }),
    ...(hole.plug === undefined ? {} : { plug: { ...hole.plug, diameter: moved(hole.plug.diameter) } }),
  };
}

function newHole(instrument: Instrument, group: string, place: DrillPlace, doing: Doing): Hole {
  const { thickness } = instrument.body;
  const path = holePath(place.id);
  const through = place.depth === 0 || (thickness.known && place.depth >= thickness.value);
  return {
    id: place.id,
    group,
    purpose: purposeOf(group),
    at: {
      u: planned(instrument, place.u, `${path}.u`, doing),
      y: planned(instrument, place.y, `${path}.y`, doing),
    },
    diameter: made(place.diameter, `${path}.diameter`, doing),
    depth: through ? "through" : made(place.depth, `${path}.depth`, doing),
    state: "new",
    ...(place.thread > place.diameter ? { thread: made(place.thread, `${path}.thread`, doing) } : {}),
  };
}

/** A place still to be drilled carries the doubt of the drilling: one shift for the whole set. */
function planned(instrument: Instrument, value: number, path: string, doing: Doing): Known {
  const place = made(value, path, doing);
  const doubt = instrument.workshop.drillingDoubt;
  if (doing.done || !doubt.known || doubt.value === 0) return place;
  const axis = path.endsWith(".u") ? "along" : "across";
  return {
    ...place,
    doubt: [
      {
        id: `operations.${doing.id}.drilling.${axis}`,
        u: doubt.value,
        shape: "normal",
        what: `${instrument.workshop.drilling}, ${axis}`,
      },
    ],
  };
}

function purposeOf(group: string): HolePurpose {
  if (/through/.test(group)) return "string-through";
  if (/post|stud/.test(group)) return "post";
  if (/wire|channel|ground/.test(group)) return "wire";
  if (/jack/.test(group)) return "jack";
  if (/control|pot/.test(group)) return "control";
  return /screw|bridge|strap|lever|pickup/.test(group) ? "screw" : "other";
}

function requireWood(instrument: Instrument, place: DrillPlace, field: string, doing: Doing): void {
  const { tailEdge, cavities } = instrument.body;
  for (const [key, value] of Object.entries({ u: place.u, y: place.y, diameter: place.diameter, depth: place.depth })) {
    if (!Number.isFinite(value))
      refuse(doing, `${field}.${key}`, `must be a number of mm, got ${value}`, "Read it with the calliper or the rule");
  }
  if (!(place.diameter > 0 && place.depth >= 0))
    refuse(doing, field, "a hole needs a diameter above 0 mm and a depth that is not below 0", "Write both as drilled");
  if (tailEdge.known && place.u > tailEdge.value) {
    refuse(
      doing,
      `${field}.u`,
      `${place.u} mm lies behind the body's tail edge at ${tailEdge.value} mm: there is no wood`,
      "Places are read from the end wall of the neck pocket",
    );
  }
  const air = cavities.find((cavity) => cavity.face === "top" && standsOver(cavity, place));
  if (air)
    refuse(
      doing,
      field,
      `"${place.id}" lies over the cavity "${air.id}": there is no wood`,
      "Check u and y of the hole and of the cavity",
    );
}

/** The whole hole inside the cavity's outline (ears left out). */
function standsOver(cavity: Cavity, place: DrillPlace): boolean {
  const { centre, length, width, angle } = cavity;
  if (!(centre.u.known && centre.y.known && length.known && width.known)) return false;
  const turn = (valueOr(angle, 0) * Math.PI) / 180;
  const [du, dy] = [place.u - centre.u.value, place.y - centre.y.value];
  const across = dy * Math.cos(turn) + du * Math.sin(turn);
  const along = du * Math.cos(turn) - dy * Math.sin(turn);
  const room = place.diameter / 2 + OVER_AIR_MM;
  return Math.abs(across) + room < length.value / 2 && Math.abs(along) + room < width.value / 2;
}

function overlaps(plugged: Hole, place: DrillPlace): boolean {
  const distance = Math.hypot(valueOr(plugged.at.u, Number.NaN) - place.u, valueOr(plugged.at.y, Number.NaN) - place.y);
  return distance < (valueOr(wallDiameter(plugged), 0) + Math.max(place.diameter, place.thread)) / 2;
}

export function rout(instrument: Instrument, work: Act<"rout">, doing: Doing): Instrument {
  const cavity = instrument.body.cavities.find((one) => one.id === work.cavity);
  if (!cavity)
    return refuse(
      doing,
      "cavity",
      `there is no cavity "${work.cavity}"`,
      `Cavities of the body: ${names(instrument.body.cavities)}`,
    );
  const by = {
    length: requireSize(work.lengthBy, "lengthBy", doing),
    width: requireSize(work.widthBy, "widthBy", doing),
    depth: requireSize(work.depthBy, "depthBy", doing),
  };
  const ears = /\bears?\b/.test(work.what);
  if (ears && !cavity.ears)
    refuse(
      doing,
      "what",
      `the cavity "${work.cavity}" has no ears`,
      "Say which part is routed, or enter the ears as found",
    );
  const grow = <Shape extends { length: Quantity; width: Quantity; depth: Quantity }>(shape: Shape): Shape => ({
    ...shape,
    length: grown(shape.length, by.length, doing),
    width: grown(shape.width, by.width, doing),
    depth: grown(shape.depth, by.depth, doing),
  });
  const after: Cavity = ears && cavity.ears ? { ...cavity, ears: grow(cavity.ears) } : grow(cavity);
  const deepest = valueOr((ears && after.ears ? after.ears : after).depth, 0);
  const { thickness } = instrument.body;
  if (thickness.known && deepest >= thickness.value) {
    refuse(
      doing,
      "depthBy",
      `a depth of ${deepest.toFixed(1)} mm leaves nothing of a body of ${thickness.value} mm`,
      "Check the depth before and after",
    );
  }
  doing.make(`cavity ${work.cavity}`);
  return {
    ...instrument,
    body: { ...instrument.body, cavities: instrument.body.cavities.map((one) => (one === cavity ? after : one)) },
  };
}

function withHoles(instrument: Instrument, holes: readonly Hole[]): Instrument {
  return { ...instrument, body: { ...instrument.body, holes } };
}
