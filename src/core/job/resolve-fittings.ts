/** Pickups, controls, lever, tuners, strap buttons, battery: each a part on its place. */
import { InputError } from "../errors.ts";
import { exact, type Quantity, unknown } from "../quantity/index.ts";
import type { Battery, Control, Lever, MassChange, Pickup, Shaft, StrapButton, Tuners } from "./instrument-parts.ts";
import type { Body } from "./instrument-wood.ts";
import type { PlaceReader } from "./resolve-body.ts";
import type { Amount, FilePart, JobFile } from "./schema.ts";
import type { Taker } from "./taker.ts";

type FileFit = NonNullable<JobFile["fit"]>;
type Places = NonNullable<JobFile["instrument"]["controls"]>;
type Kind = FilePart["kind"];

/** Lugs and the wire bent over them need this much more depth (common practice). */
const LUGS = { value: 2, u: 0.3, why: "bent lugs and wire, common practice" };

/** The part of the wanted kind with this id. @throws InputError naming the place that asks for it */
export function partOf<K extends Kind>(
  parts: JobFile["parts"],
  id: string,
  kind: K,
  asker: string,
): Extract<FilePart, { kind: K }> {
  const part = parts?.[id];
  if (part === undefined)
    throw new InputError(
      asker,
      `names the part "${id}", which is not in parts`,
      `Add parts.${id}, or correct the name${parts ? ` (there are: ${Object.keys(parts).join(", ")})` : ""}`,
    );
  if (part.kind !== kind)
    throw new InputError(asker, `names "${id}", which is a ${part.kind}`, `Name a part of kind ${kind}`);
  return part as Extract<FilePart, { kind: K }>;
}

export function resolvePickups(
  file: JobFile,
  body: Body,
  strings: number,
  taker: Taker,
  places: PlaceReader,
): Pickup[] {
  return Object.entries(file.fit?.pickups ?? {}).map(([id, fit]): Pickup => {
    const asker = `fit.pickups.${id}`;
    const part = partOf(file.parts, fit.part, "pickup", `${asker}.part`);
    const cavityId = fit.cavity ?? id;
    const cavity = body.cavities.find((item) => item.id === cavityId);
    if (!cavity && fit.cavity !== undefined)
      throw new InputError(
        `${asker}.cavity`,
        `names the cavity "${cavityId}", which is not in instrument.body.cavities`,
        "Describe it there, or leave the name out",
      );
    const path = `parts.${fit.part}`;
    const take = (raw: Amount | undefined, key: string) => taker.take(raw, `${path}.${key}`);
    const own = fit.u !== undefined || fit.x !== undefined;
    return {
      id,
      name: part.name ?? id,
      cavityId,
      centre: own || !cavity ? places.point(fit, asker) : cavity.centre,
      strings: fit.strings ?? Array.from({ length: strings }, (_, index) => index + 1),
      body: { length: take(part.length, "length"), width: take(part.width, "width"), depth: take(part.depth, "depth") },
      ...(part.ears === undefined
        ? {}
        : {
            ears: {
              length: take(part.ears.length, "ears.length"),
              width: take(part.ears.width, "ears.width"),
              bottom: take(part.ears.bottom, "ears.bottom"),
            },
          }),
      poles: part.poles ?? "one a string",
      poleSpread:
        fit.poleSpread === undefined
          ? take(part.poleSpread, "poleSpread")
          : taker.take(fit.poleSpread, `${asker}.poleSpread`),
      poleDiameter: take(part.poleDiameter, "poleDiameter"),
      polePair: take(part.polePair, "polePair"),
      slant:
        fit.slant === undefined && cavity
          ? cavity.angle
          : taker.take(fit.slant, `${asker}.slant`, {
              kind: "angle",
              assume: { value: 0, u: 0, why: "square to the centre line" },
            }),
    };
  });
}

export function resolveControls(
  file: JobFile,
  taker: Taker,
  places: PlaceReader,
): { readonly controls: Control[]; readonly lever?: Lever } {
  const rooms: Places = file.instrument.controls ?? {};
  const controls: Control[] = [];
  let lever: Lever | undefined;
  let leverAt: string | undefined;
  for (const [id, fit] of Object.entries(file.fit?.controls ?? {})) {
    const part = file.parts?.[fit.part];
    const room = rooms[id];
    if (part?.kind === "lever") {
      if (leverAt !== undefined) throw twoLevers(leverAt, id);
      leverAt = id;
      lever = resolveLever(id, fit.part, part, room, taker);
    } else if (part?.kind === "pot" || part?.kind === "jack" || part?.kind === "switch")
      controls.push(resolveControl(file, id, fit, part, room, taker, places));
    else partOf(file.parts, fit.part, "pot", `fit.controls.${id}.part`);
  }
  return lever === undefined ? { controls } : { controls, lever };
}

/** The sums know one slot: a second lever would go unasked, and that is worse than being refused. */
function twoLevers(first: string, second: string): InputError {
  return new InputError(
    `fit.controls.${second}`,
    `"${first}" is a lever switch too, and a job holds one`,
    `Keep one of "${first}" and "${second}" here, and ask about the other in a copy of the job`,
  );
}

type FileControl = NonNullable<FileFit["controls"]>[string];
type Room = Places[string] | undefined;

function resolveControl(
  file: JobFile,
  id: string,
  fit: FileControl,
  part: Extract<FilePart, { kind: "pot" | "jack" | "switch" }>,
  room: Room,
  taker: Taker,
  places: PlaceReader,
): Control {
  const path = `parts.${fit.part}`;
  const here = `instrument.controls.${id}`;
  const take = (raw: Amount | undefined, key: string) => taker.take(raw, `${path}.${key}`);
  const pot = part.kind === "pot" ? part : undefined;
  const ohmsOf = (raw: Amount | undefined, key: string): Quantity =>
    pot ? taker.take(raw, `${path}.${key}`, { kind: "resistance" }) : unknown(`${path}.${key}`, "resistance");
  const spare =
    fit.alternative === undefined
      ? undefined
      : partOf(file.parts, fit.alternative, "pot", `fit.controls.${id}.alternative`);
  return {
    id,
    name: part.name ?? fit.part,
    kind: part.kind === "pot" ? (pot?.stacked ? "stacked pot" : "pot") : part.kind,
    wood: taker.take(room?.wood, `${here}.wood`),
    hole: taker.take(room?.hole, `${here}.hole`),
    threadLength: take(part.threadLength, "threadLength"),
    threadDiameter: take(part.threadDiameter, "threadDiameter"),
    ...(spare === undefined || fit.alternative === undefined
      ? {}
      : {
          alternative: {
            name: spare.name ?? fit.alternative,
            threadLength: taker.take(spare.threadLength, `parts.${fit.alternative}.threadLength`),
          },
        }),
    depth: take(part.depth, "depth"),
    lugs: taker.take(part.lugs, `${path}.lugs`, { assume: LUGS }),
    freeDepth: taker.take(room?.freeDepth, `${here}.freeDepth`),
    shafts: shafts(file, fit, pot, path, taker),
    ...(room && (room.u !== undefined || room.x !== undefined) ? { at: places.point(room, here) } : {}),
    taper: pot?.taper ?? "unknown",
    ohms: ohmsOf(pot?.ohms, "ohms"),
    ohmsAtHalfTurn: ohmsOf(pot?.ohmsAtHalfTurn, "ohmsAtHalfTurn"),
    rises: fit.rises ?? "clockwise",
    otherHand: pot?.otherHand ?? "",
  };
}

function shafts(
  file: JobFile,
  fit: FileControl,
  pot: Extract<FilePart, { kind: "pot" }> | undefined,
  path: string,
  taker: Taker,
): Shaft[] {
  const knob = fit.knob === undefined ? undefined : partOf(file.parts, fit.knob, "knob", "fit.controls.knob");
  const none = unknown("", "count");
  return (pot?.shafts ?? []).map(
    (shaft, index): Shaft => ({
      diameter: taker.take(shaft.diameter, `${path}.shafts[${index}].diameter`),
      kind: shaft.kind ?? "unknown",
      knobBore: taker.take(knob?.bores?.[index], `parts.${fit.knob ?? "knob"}.bores[${index}]`),
      knobKind: knob?.fixing ?? "unknown",
      splines:
        shaft.splines === undefined
          ? none
          : taker.take(shaft.splines, `${path}.shafts[${index}].splines`, { kind: "count", decided: true }),
      knobSplines:
        knob?.splines?.[index] === undefined
          ? none
          : taker.take(knob.splines[index], `parts.${fit.knob}.splines[${index}]`, { kind: "count", decided: true }),
    }),
  );
}

function resolveLever(
  id: string,
  partId: string,
  part: Extract<FilePart, { kind: "lever" }>,
  room: Room,
  taker: Taker,
): Lever {
  const here = `instrument.controls.${id}`;
  const there = (raw: Amount | undefined, key: string) => taker.take(raw, `${here}.${key}`);
  const take = (raw: Amount | undefined, key: string) => taker.take(raw, `parts.${partId}.${key}`);
  return {
    name: part.name ?? partId,
    oldSlot: there(room?.slot, "slot"),
    slot: take(part.slot, "slot"),
    slotWidth: there(room?.slotWidth, "slotWidth"),
    oldScrews: there(room?.screws, "screws"),
    screws: take(part.screws, "screws"),
    oldScrewHole: there(room?.screwHole, "screwHole"),
    screwHole: take(part.screwHole, "screwHole"),
    depth: take(part.depth, "depth"),
    lugs: taker.take(part.lugs, `parts.${partId}.lugs`, { assume: LUGS }),
    freeDepth: there(room?.freeDepth, "freeDepth"),
    width: take(part.width, "width"),
    freeWidth: there(room?.freeWidth, "freeWidth"),
    cover: part.cover ?? "",
  };
}

export function resolveTuners(file: JobFile, strings: number, taker: Taker): Tuners | undefined {
  const fit = file.fit?.tuners;
  if (!fit) return undefined;
  const part = partOf(file.parts, fit.part, "tuners", "fit.tuners.part");
  const path = `parts.${fit.part}`;
  const head = file.instrument.headstock ?? {};
  const take = (raw: Amount | undefined, key: string) => taker.take(raw, `${path}.${key}`);
  const screw = (item: NonNullable<typeof part.screw>, at: string) => ({
    distance: taker.take(item.distance, `${at}.distance`),
    angle: taker.take(item.angle, `${at}.angle`, { kind: "angle" }),
    diameter: taker.take(item.diameter, `${at}.diameter`),
  });
  return {
    name: part.name ?? fit.part,
    count: strings,
    hole: take(part.hole, "hole"),
    oldHole: taker.take(head.hole, "instrument.headstock.hole"),
    headstockThickness: taker.take(head.thickness, "instrument.headstock.thickness"),
    thinnest: take(part.thinnest, "thinnest"),
    thickest: take(part.thickest, "thickest"),
    postSlot: take(part.postSlot, "postSlot"),
    ...(part.screw === undefined ? {} : { screw: screw(part.screw, `${path}.screw`) }),
    oldScrews: (head.screws ?? []).map((item, index) => screw(item, `instrument.headstock.screws[${index}]`)),
    pitch: taker.take(head.tunerPitch, "instrument.headstock.tunerPitch"),
    mass: taker.take(part.mass, `${path}.mass`, { kind: "mass" }),
    oldMass: taker.take(part.oldMass, `${path}.oldMass`, { kind: "mass" }),
  };
}

export function resolveStrapButtons(file: JobFile, taker: Taker, places: PlaceReader): StrapButton[] {
  return Object.entries(file.fit?.strapButtons ?? {}).map(([id, fit]) => {
    const part = partOf(file.parts, fit.part, "strap button", `fit.strapButtons.${id}.part`);
    return {
      id,
      holeDiameter: taker.take(fit.hole, `fit.strapButtons.${id}.hole`),
      screwGauge: taker.take(part.screwGauge, `parts.${fit.part}.screwGauge`, { kind: "count", decided: true }),
      screwLength: taker.take(part.screwLength, `parts.${fit.part}.screwLength`),
      at: places.point(fit, `fit.strapButtons.${id}`),
    };
  });
}

export function resolveBattery(file: JobFile, taker: Taker): Battery | undefined {
  const fit = file.fit?.battery;
  if (!fit) return undefined;
  const part = partOf(file.parts, fit.part, "battery", "fit.battery.part");
  const take = (raw: Amount | undefined, key: string) => taker.take(raw, `parts.${fit.part}.${key}`);
  const room = (raw: Amount | undefined, key: string): Quantity => taker.take(raw, `fit.battery.room.${key}`);
  return {
    length: take(part.length, "length"),
    width: take(part.width, "width"),
    thickness: take(part.thickness, "thickness"),
    room: {
      length: room(fit.room.length, "length"),
      width: room(fit.room.width, "width"),
      depth: room(fit.room.depth, "depth"),
    },
  };
}

export function resolveMasses(file: JobFile, taker: Taker): MassChange[] {
  return (file.fit?.masses ?? []).map((row, index) => ({
    what: row.what,
    x: taker.take(row.x, `fit.masses[${index}].x`),
    off:
      row.off === undefined
        ? exact(0, `fit.masses[${index}].off`, "mass")
        : taker.take(row.off, `fit.masses[${index}].off`, { kind: "mass" }),
    on:
      row.on === undefined
        ? exact(0, `fit.masses[${index}].on`, "mass")
        : taker.take(row.on, `fit.masses[${index}].on`, { kind: "mass" }),
  }));
}
