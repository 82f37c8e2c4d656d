/**
 * From a checked job file to the instrument as the sums see it.
 *
 * `resolveAsFound` gives the instrument before anything moved. `resolveActual` folds the operations done over it and
 * lays the later readings on top; readings that an operation made void are no longer `measured`.
 */
import { exact, type Kind, type Quantity } from "../quantity/index.ts";
import { takeDrilledHoles } from "./drilled.ts";
import { type FoldOptions, foldReadings } from "./fold.ts";
import { requireFewHoles } from "./hole-count.ts";
import type { DrillMethod, Instrument, Limits, ScaleLineEvidence, Workshop } from "./instrument.ts";
import { logOf } from "./log.ts";
import type { Conflict, TakenReading } from "./readings.ts";
import { createPlaceReader, type PlaceReader, resolveBody } from "./resolve-body.ts";
import { resolveBridge } from "./resolve-bridge.ts";
import {
  partOf,
  resolveBattery,
  resolveControls,
  resolveMasses,
  resolvePickups,
  resolveStrapButtons,
  resolveTuners,
} from "./resolve-fittings.ts";
import { resolveNeck, resolveStrings } from "./resolve-neck.ts";
import { resolveWiring } from "./resolve-wiring.ts";
import type { Amount, JobFile } from "./schema.ts";
import { createTaker, freeKind, subjectOf, type Taker } from "./taker.ts";

export interface Resolved {
  readonly instrument: Instrument;
  /** All readings, valid or not, in the order of the file. */
  readonly readings: readonly TakenReading[];
  /** Readings that hold in the instrument's state. */
  readonly valid: readonly TakenReading[];
  readonly voided: readonly { readonly reading: string; readonly by: string; readonly why: string }[];
  readonly conflicts: readonly Conflict[];
  /** Ids of the operations that hold, in the order in which they were done. */
  readonly applied: readonly string[];
  /** Kind of every value of the job, by its subject. */
  readonly kinds: ReadonlyMap<string, Kind>;
}

/**
 * The kind under which a reading of a subject is read, so that a bare number can be given its unit.
 *
 * @param path as a reading names it, with or without `instrument.` before it
 * @returns undefined where the job has no such value
 * @example
 * kindOfSubject(job, "strings.1.cents"); // "cents"
 */
export function kindOfSubject({ resolved }: { readonly resolved: Resolved }, path: string): Kind | undefined {
  const subject = subjectOf(path);
  return resolved.kinds.get(subject) ?? freeKind(subject);
}

/** Reach of each way of drilling, mm along and across (common practice, no source). */
const DRILLING_U_MM: Readonly<Record<DrillMethod, number>> = {
  "hand drill": 0.45,
  "drill press": 0.15,
  "self-centring bit through the plate": 0.1,
};

export function resolveAsFound(file: JobFile): Resolved {
  const head = file.job ?? {};
  const taker = createTaker(file.readings ?? [], head.units);
  const source = file.instrument;
  const bassSide = source.bassSide === "y > 0" ? 1 : -1;
  const endWall = taker.take(source.body?.endWallX, "instrument.body.endWallX", { decided: true });
  // A glued neck has no end wall to measure from: places count from the nut unless the file says otherwise.
  const glued = source.neck?.boltOn === false;
  const endWallX = endWall.known ? endWall : glued ? exact(0, "body.endWallX") : undefined;
  const places = createPlaceReader(taker, endWallX?.value);
  const body = resolveBody(source.body, taker, places);
  const stringsId = file.fit?.strings?.part;
  const set = stringsId === undefined ? undefined : partOf(file.parts, stringsId, "strings", "fit.strings.part");
  const setup = file.fit?.setup;
  const bridgeFit = file.fit?.bridge;
  const { controls, lever } = resolveControls(file, taker, places);
  const tuners = resolveTuners(file, source.strings, taker);
  const battery = resolveBattery(file, taker);
  const wiring = resolveWiring(file, taker);
  const instrument: Instrument = {
    id: head.id ?? "",
    title: head.title ?? "",
    kind: source.kind,
    stringCount: source.strings,
    bassSide,
    state: "as found",
    neck: resolveNeck(source.neck, source.strings, bassSide, taker, places),
    ...(source.oldNeck === undefined
      ? {}
      : {
          oldNeck: {
            name: source.oldNeck.name ?? "old neck",
            scaleLength: taker.take(source.oldNeck.scaleLength, "instrument.oldNeck.scaleLength"),
            nutToHeelEnd: taker.take(source.oldNeck.nutToHeelEnd, "instrument.oldNeck.nutToHeelEnd"),
          },
        }),
    body,
    scaleLine: { ...resolveScaleLine(file, taker, places), ...(endWallX === undefined ? {} : { endWallX }) },
    strings: resolveStrings(set, stringsId ?? "strings", setup, "strings", source.strings, taker),
    spareStrings: set ? resolveStrings(set, stringsId ?? "strings", setup, "spares", source.strings, taker) : [],
    windingLength: taker.take(set?.winding, `parts.${stringsId ?? "strings"}.winding`),
    ...(source.oldStrings === undefined
      ? {}
      : {
          oldStrings: {
            totalTension: taker.take(source.oldStrings.totalTension, "instrument.oldStrings.totalTension", {
              kind: "force",
            }),
          },
        }),
    shim: taker.take(setup?.shim, "fit.setup.shim", { decided: true }),
    ...(bridgeFit === undefined
      ? {}
      : {
          bridge: resolveBridge(
            partOf(file.parts, bridgeFit.part, "bridge", "fit.bridge.part"),
            bridgeFit,
            source.strings,
            bassSide,
            taker,
            places,
          ),
        }),
    pickups: resolvePickups(file, body, source.strings, taker, places),
    controls,
    ...(wiring === undefined ? {} : { wiring }),
    ...(lever === undefined ? {} : { lever }),
    ...(tuners === undefined ? {} : { tuners }),
    strapButtons: resolveStrapButtons(file, taker, places),
    ...(battery === undefined ? {} : { battery }),
    masses: resolveMasses(file, taker),
    strapButtonX: taker.take(source.strapButtonX, "instrument.strapButtonX"),
    limits: resolveLimits(file.settings, taker),
    workshop: resolveWorkshop(file.settings, taker),
    evidence: {},
  };
  requireFewHoles(instrument, file);
  takeDrilledHoles(file, taker, endWallX?.value);
  const readings = taker.finish();
  return {
    instrument: { ...instrument, evidence: taker.evidence() },
    readings,
    valid: readings.filter((reading) => reading.after === undefined),
    voided: [],
    conflicts: taker.conflicts,
    kinds: taker.kinds(),
    applied: [],
  };
}

/** @throws InputError for an operation or reading that does not fit the state it was entered in */
export function resolveActual(file: JobFile, options: FoldOptions = {}): Resolved {
  const found = resolveAsFound(file);
  const log = logOf(file);
  if (log.length === 0 && found.readings.every((reading) => reading.after === undefined)) return found;
  const { instrument, valid, voidReadings, applied } = foldReadings(found.instrument, log, found.readings, options);
  return {
    instrument: withLaterOhms(withLaterLine(instrument, valid), valid),
    readings: found.readings,
    valid,
    voided: voidReadings,
    conflicts: found.conflicts,
    kinds: found.kinds,
    applied,
  };
}

/** A scale line carried over after work takes the place of what the work made void, beside what still holds. */
function withLaterLine(instrument: Instrument, valid: readonly TakenReading[]): Instrument {
  const read = valid.filter(({ subject }) => subject === "scaleLine.u");
  if (read.every(({ after }) => after === undefined)) return instrument;
  return { ...instrument, scaleLine: { ...instrument.scaleLine, read: read.map(({ quantity }) => quantity) } };
}

/** What the meter shows at the jack after work takes the place of what it showed before. */
function withLaterOhms(instrument: Instrument, valid: readonly TakenReading[]): Instrument {
  const { wiring } = instrument;
  if (!wiring) return instrument;
  const states = wiring.states.map(({ read: _, ...state }) => {
    const read = valid.filter(({ subject }) => subject === `ohms.${state.id}`).at(-1)?.quantity;
    return read === undefined ? state : { ...state, read };
  });
  return { ...instrument, wiring: { ...wiring, states } };
}

function resolveScaleLine(file: JobFile, taker: Taker, places: PlaceReader): ScaleLineEvidence {
  const line = file.instrument.scaleLine ?? {};
  const written = places.along(line, "instrument.scaleLine");
  const readings = taker.evidence()["scaleLine.u"] ?? [];
  // What stands beside the line itself is one more way in which it was read.
  const beside =
    written.known &&
    !readings.some((one) => Math.abs(one.value - written.value) < NOISE_MM && one.tool === written.tool)
      ? [written]
      : [];
  return {
    read: [...beside, ...readings],
    old: taker.take(line.old, "instrument.scaleLine.old"),
  };
}

/** Counted from the nut and back again, a place moves by its rounding. */
const NOISE_MM = 1e-9;

const LIMIT_DEFAULTS = {
  saddleReserve: 0.5,
  pickupClearance: 0.5,
  holeWall: 1.5,
  woodLeft: 3,
  lugToFoil: 2,
  windingPastNut: 3,
  poleWarn: 1,
  foil: 0.1,
  lockWasher: 0.9,
  washer: 0.8,
  nut: 2.4,
  bushingClearance: 0.1,
  slotClearance: 0.05,
  plugDiameter: 6,
} as const;

/** Limits are decisions: exact, common practice unless the owner set them. */
function resolveLimits(settings: JobFile["settings"], taker: Taker): Limits {
  const one = (key: keyof typeof LIMIT_DEFAULTS): Quantity =>
    taker.take(settings?.[key], `settings.${key}`, {
      decided: true,
      assume: { value: LIMIT_DEFAULTS[key], u: 0, why: "common practice" },
    });
  const entries = Object.keys(LIMIT_DEFAULTS).map((key) => [key, one(key as keyof typeof LIMIT_DEFAULTS)] as const);
  const limits = Object.fromEntries(entries) as Record<keyof typeof LIMIT_DEFAULTS, Quantity>;
  return {
    ...limits,
    gateProbability: taker.take(settings?.gateProbability, "settings.gateProbability", {
      kind: "ratio",
      decided: true,
      assume: { value: 0.95, u: 0, why: "one in twenty" },
    }),
  };
}

function resolveWorkshop(settings: JobFile["settings"], taker: Taker): Workshop {
  const drilling = settings?.drilling ?? "hand drill";
  const list = (raw: readonly Amount[] | undefined, key: string) =>
    (raw ?? []).map((amount, index) => taker.take(amount, `settings.${key}[${index}]`, { decided: true }));
  const stated = taker.take(settings?.drillingDoubt, "settings.drillingDoubt", { decided: true });
  return {
    drilling,
    drillingDoubt: stated.known ? stated : exact(DRILLING_U_MM[drilling], "settings.drillingDoubt"),
    bits: list(settings?.bits, "bits"),
    bitReach: taker.take(settings?.bitReach, "settings.bitReach", { decided: true }),
    nutFiles: list(settings?.nutFiles, "nutFiles"),
    reamers: list(settings?.reamers, "reamers"),
  };
}

export { DRILLING_U_MM };
