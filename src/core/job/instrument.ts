/**
 * The instrument as the sums see it: every dimension a Quantity, at one state (as found, planned, actual).
 *
 * Frames. Body places use u: along the centre line from the end wall of the neck pocket toward the tail, and y: from
 * the centre line, to the right with the head up. Neck places use x: along the centre line from the nut's face.
 * Part places use p: from the part's own front (neck-side) edge, and q: across, from the part's own middle, the same
 * direction as y. Parts are never mirrored. z is up from the body top; depth is down from the face that was cut.
 * Strings are numbered 1 = thinnest.
 */
import type { Known, Quantity } from "../quantity/index.ts";
import type { Battery, Bridge, Control, Lever, MassChange, Pickup, StrapButton, Tuners } from "./instrument-parts.ts";
import type { Wiring } from "./instrument-wiring.ts";
import type { Body } from "./instrument-wood.ts";

/** Height of the plane of the fret tops above the body top, at the neck's stiff end. */
export interface Plane {
  /** From the heel chain: heel thickness - pocket depth + fret height. */
  readonly heelThickness: Quantity;
  readonly fretHeight: Quantity;
  /** From a straightedge on the frets: its height above the top at two places; preferred where given. */
  readonly straightedge: readonly { readonly u: Quantity; readonly z: Quantity }[];
}

/** What was read of the scale and does not agree. */
export type ScaleDispute = TwoScales | FretSlip;

/** Two figures of one scale length that lie further apart than their doubts allow. */
export interface TwoScales {
  readonly about: "two figures";
  readonly usedMm: number;
  /** e.g. "twice nut to fret 12". */
  readonly usedWords: string;
  readonly otherMm: number;
  readonly otherWords: string;
}

/** Frets read with one placing that do not lie on one scale. */
export interface FretSlip {
  readonly about: "frets";
  /** Which may have been misread, the one furthest off first. */
  readonly suspects: readonly { readonly fret: number; readonly path: string; readonly offMm: number }[];
  readonly allOfThem: boolean;
}

export interface Neck {
  readonly name: string;
  readonly boltOn: boolean;
  readonly frets: Quantity;
  /** One scale length per string, string 1 first; all equal unless multi-scale. */
  readonly scaleLengths: readonly Quantity[];
  /** What was read or printed of the scale does not agree: nothing is cut before that is cleared up. */
  readonly scaleDispute?: ScaleDispute;
  /** The fret that stands square to the centre line on a multi-scale neck. */
  readonly squareFret: Quantity;
  readonly nutToHeelEnd: Quantity;
  readonly nutToFret12: Quantity;
  readonly fret12ToHeelEnd: Quantity;
  /** Gap left between heel and end wall. */
  readonly heelGap: Quantity;
  readonly nutWidth: Quantity;
  /** y of each string at the nut, string 1 first. */
  readonly nutY: readonly Quantity[];
  readonly nutSlots: readonly Quantity[];
  readonly radiusAtNut: Quantity;
  readonly radiusAtEnd: Quantity;
  /** x at which `radiusAtEnd` holds; the radius is linear in x and goes on past it. */
  readonly radiusEndX: Quantity;
  readonly plane: Plane;
  readonly relief: Quantity;
  /** From the nut to where the neck becomes stiff. */
  readonly freeLength: Quantity;
  /** Edge to edge, for the outer strings' margin. */
  readonly boardWidthAtLastFret: Quantity;
  /** How far the heel moves sideways in its pocket, wall to wall; 0 once it is bolted for good and lined up. */
  readonly pocketPlay: Quantity;
}

/** The scale line found on the body: where an ideal string of the scale length ends (centre string if multi-scale). */
export interface ScaleLineEvidence {
  /** Carried over or marked on the body: u read directly. One entry for each way it was read. */
  readonly read: readonly Quantity[];
  /** u of the line of the neck that was there before. */
  readonly old: Quantity;
  /** x of the end wall where places are written as x, 0 with a glued neck; left out: u and x are not tied together. */
  readonly endWallX?: Quantity;
}

export interface StringData {
  /** 1 = thinnest. */
  readonly number: number;
  readonly name: string;
  readonly note: string;
  readonly frequency: Quantity;
  readonly gauge: Quantity;
  readonly wound: boolean;
  readonly core: Quantity;
  readonly unitMass: Quantity;
  readonly action: Quantity;
  readonly nutHeight: Quantity;
  readonly setback: SetbackEvidence;
}

/** Ways to know a string's setback, best first. */
export interface SetbackEvidence {
  /** The old saddle as intonated: nut's face to fret 12, and fret 12 to the contact point. */
  readonly nutToFret12: Quantity;
  readonly fret12ToContact: Quantity;
  /** Change that a model or the owner predicts for the new string. */
  readonly change: Quantity;
  /** Cents sharp at `fret` with the contact at `trialSetback` behind the scale line. */
  readonly cents: Quantity;
  readonly fret: Quantity;
  readonly trialSetback: Quantity;
  /** Stated outright. */
  readonly stated: Quantity;
}

export type DrillMethod = "hand drill" | "drill press" | "self-centring bit through the plate";

export interface Limits {
  readonly saddleReserve: Quantity;
  readonly pickupClearance: Quantity;
  readonly holeWall: Quantity;
  readonly woodLeft: Quantity;
  readonly lugToFoil: Quantity;
  readonly windingPastNut: Quantity;
  readonly poleWarn: Quantity;
  readonly foil: Quantity;
  readonly lockWasher: Quantity;
  readonly washer: Quantity;
  readonly nut: Quantity;
  readonly bushingClearance: Quantity;
  readonly slotClearance: Quantity;
  readonly plugDiameter: Quantity;
  /** Of a gate, 0 to 1. */
  readonly gateProbability: Quantity;
}

export interface Workshop {
  readonly drilling: DrillMethod;
  /** Execution doubt of `drilling`, along and across. */
  readonly drillingDoubt: Quantity;
  /** Diameters to hand; empty: not listed. */
  readonly bits: readonly Quantity[];
  /** Free length of the longest bit. */
  readonly bitReach: Quantity;
  readonly nutFiles: readonly Quantity[];
  readonly reamers: readonly Quantity[];
}

export interface Instrument {
  readonly id: string;
  readonly title: string;
  readonly kind: "guitar" | "bass";
  readonly stringCount: number;
  /** Sign of y on the bass side: -1 right-handed, +1 left-handed. */
  readonly bassSide: 1 | -1;
  /** Name of the state these values hold in: "as found", or the id of the last operation done. */
  readonly state: string;
  readonly neck: Neck;
  /** Set when the neck is new to this body. */
  readonly oldNeck?: { readonly name: string; readonly scaleLength: Quantity; readonly nutToHeelEnd: Quantity };
  readonly body: Body;
  readonly scaleLine: ScaleLineEvidence;
  readonly strings: readonly StringData[];
  /** Alternatives to hand for a string of the set. */
  readonly spareStrings: readonly StringData[];
  /** Ball to the end of full winding. */
  readonly windingLength: Quantity;
  readonly oldStrings?: { readonly totalTension: Quantity };
  /** Shim fitted or decided: thickness at the heel's end, full length of the pocket. */
  readonly shim: Quantity;
  readonly bridge?: Bridge;
  readonly pickups: readonly Pickup[];
  /** Of the electrics, where the job describes them. */
  readonly wiring?: Wiring;
  readonly controls: readonly Control[];
  readonly lever?: Lever;
  readonly tuners?: Tuners;
  readonly strapButtons: readonly StrapButton[];
  readonly battery?: Battery;
  readonly masses: readonly MassChange[];
  readonly strapButtonX: Quantity;
  readonly limits: Limits;
  readonly workshop: Workshop;
  /** All as-found readings of a value, by its path, for questions that compare ways of measuring. */
  readonly evidence: Readonly<Record<string, readonly Known[]>>;
  /** What the operations say of each part: on the instrument now, or off it. Parts nobody has touched are not listed. */
  readonly fitted?: Readonly<Record<string, boolean>>;
  /** Places that operations made safe from foil, or bare for the string ground. */
  readonly treated?: readonly { readonly where: string; readonly how: "insulated" | "bare" }[];
}
