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

export interface BodyPoint {
  readonly u: Quantity;
  readonly y: Quantity;
}

export type HolePurpose = "screw" | "string-through" | "post" | "wire" | "control" | "jack" | "other";

/** A round hole square to the top (or back). */
export interface Hole {
  /** e.g. "old-screws#3", counted from the most negative y. */
  readonly id: string;
  readonly group: string;
  readonly purpose: HolePurpose;
  readonly at: BodyPoint;
  readonly diameter: Quantity;
  readonly depth: Quantity | "through";
  readonly state: "open" | "plugged" | "new";
  /** Thread or shank that stands in it, where that is larger than the drilled hole; see `wallDiameter`. */
  readonly thread?: Quantity;
  /** Set once plugged; walls are then reckoned to it. */
  readonly plug?: { readonly diameter: Quantity; readonly matched: boolean; readonly cured: boolean };
}

/** A drilled way for a wire, inclined: from a point at depth `fromDepth` to a point at `toDepth` below the top. */
export interface Channel {
  readonly id: string;
  readonly from: BodyPoint;
  readonly to: BodyPoint;
  readonly fromDepth: Quantity;
  readonly toDepth: Quantity;
  readonly diameter: Quantity;
}

/** A cavity cut square to a face. Length is across (along y), width along u, unless `angle` turns it. */
export interface Cavity {
  readonly id: string;
  readonly face: "top" | "back";
  readonly centre: BodyPoint;
  readonly length: Quantity;
  readonly width: Quantity;
  readonly depth: Quantity;
  readonly cornerRadius: Quantity;
  /** Degrees, turned so that positive moves the y > 0 end toward the tail. */
  readonly angle: Quantity;
  readonly ears?: { readonly length: Quantity; readonly width: Quantity; readonly depth: Quantity };
}

export interface Body {
  readonly wood: string;
  /** Specific gravity, if the owner states it; else from the wood's table. */
  readonly gravity: Quantity;
  readonly finish: string;
  readonly thickness: Quantity;
  readonly pocket: { readonly depth: Quantity; readonly length: Quantity; readonly width: Quantity };
  /** u of the body's tail edge on the centre line. */
  readonly tailEdge: Quantity;
  readonly holes: readonly Hole[];
  readonly channels: readonly Channel[];
  readonly cavities: readonly Cavity[];
  /** Bare end of the string-ground wire. */
  readonly groundWire?: BodyPoint;
  /** Screws that hold the neck, as holes from the back. */
  readonly neckScrews: readonly Hole[];
  /** Footprint of the bridge that stood there, for "is the old mark covered". */
  readonly oldPlate?: { readonly length: Quantity; readonly width: Quantity; readonly front: Quantity };
}

/** Height of the plane of the fret tops above the body top, at the neck's stiff end. */
export interface Plane {
  /** From the heel chain: heel thickness - pocket depth + fret height. */
  readonly heelThickness: Quantity;
  readonly fretHeight: Quantity;
  /** From a straightedge on the frets: its height above the top at two places; preferred where given. */
  readonly straightedge: readonly { readonly u: Quantity; readonly z: Quantity }[];
}

export interface Neck {
  readonly name: string;
  readonly boltOn: boolean;
  readonly frets: Quantity;
  /** One scale length per string, string 1 first; all equal unless multi-scale. */
  readonly scaleLengths: readonly Quantity[];
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
  /** Half width of the board at the last fret, for the outer strings' margin. */
  readonly boardWidthAtLastFret: Quantity;
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

export interface PartHole {
  readonly p: Quantity;
  readonly q: Quantity;
}

export interface Saddle {
  readonly string: number;
  /** Contact range, from the part's front edge. */
  readonly from: Quantity;
  readonly to: Quantity;
  readonly q: Quantity;
}

/** One rigid piece of a bridge: a whole plate, one single-string unit, or the bar on its two posts. */
export interface BridgePiece {
  readonly id: string;
  /** Where the piece's middle is meant to stand, from the centre line: 0 for a plate, the string's y for a unit. */
  readonly side: Quantity;
  /** Along the strings. */
  readonly length: Quantity;
  /** Across the strings. */
  readonly width: Quantity;
  readonly saddles: readonly Saddle[];
  readonly screws: readonly (PartHole & {
    readonly thread: Quantity;
    readonly pilot: Quantity;
    readonly depth: Quantity;
  })[];
  readonly stringHoles: readonly (PartHole & { readonly diameter: Quantity })[];
}

export interface Bridge {
  readonly partId: string;
  readonly name: string;
  readonly kind: "flat plate" | "single units" | "two posts";
  readonly pieces: readonly BridgePiece[];
  /** Separate piece that holds the ball ends on a two-post bridge. */
  readonly tailpiece?: BridgePiece & { readonly distance: Quantity };
  readonly lowest: Quantity;
  readonly highest: Quantity;
  /** Contact moves by this when a saddle is turned round; unknown or 0 if it cannot be. */
  readonly turnedRound: Quantity;
  readonly coated: boolean;
  /** Ball stop when loaded from the top: p and z. */
  readonly topAnchor?: { readonly p: Quantity; readonly z: Quantity };
  /** Through the body: corner p and z, then straight down by `down` to the ball. */
  readonly throughAnchor?: { readonly p: Quantity; readonly z: Quantity; readonly down: Quantity };
  readonly anchor: "top" | "through" | "unknown";
  /** Thread pitch of the saddle height screw. */
  readonly heightScrewPitch: Quantity;
  readonly mass: Quantity;
  /** Place chosen by the owner; unknown: the search chooses. u of the front edge (first piece). */
  readonly chosenPlace: Quantity;
  /** Printed in inches on the maker's drawing: the same dimensions as read there, for the rounding check. */
  readonly inchDrawing: readonly { readonly what: string; readonly declared: Quantity; readonly drawn: Quantity }[];
}

export interface Pickup {
  readonly id: string;
  readonly name: string;
  readonly cavityId: string;
  readonly centre: BodyPoint;
  /** Strings over this pickup (a half of a split pickup covers two of four). */
  readonly strings: readonly number[];
  readonly body: { readonly length: Quantity; readonly width: Quantity; readonly depth: Quantity };
  readonly ears?: { readonly length: Quantity; readonly width: Quantity; readonly bottom: Quantity };
  readonly poles: "one a string" | "two a string" | "none";
  /** Outer pole to outer pole, or between the two pair centres of a half. */
  readonly poleSpread: Quantity;
  readonly poleDiameter: Quantity;
  /** Two poles a string: distance between them. */
  readonly polePair: Quantity;
  /** Degrees, same sense as Cavity.angle. */
  readonly slant: Quantity;
}

export interface Control {
  readonly id: string;
  readonly name: string;
  readonly kind: "pot" | "stacked pot" | "switch" | "jack";
  readonly wood: Quantity;
  /** Hole there now. */
  readonly hole: Quantity;
  readonly threadLength: Quantity;
  readonly threadDiameter: Quantity;
  /** Another version of the same part, with its thread length. */
  readonly alternative?: { readonly name: string; readonly threadLength: Quantity };
  /** Depth below the wood's inner face. `lugs` is added. */
  readonly depth: Quantity;
  readonly lugs: Quantity;
  /** Free depth from the inner face of the top to the inside of the cover. */
  readonly freeDepth: Quantity;
  readonly shafts: readonly Shaft[];
  readonly at?: BodyPoint;
  readonly taper: "audio" | "linear" | "reverse audio" | "unknown";
  /** Which way it is to rise, seen from the front. */
  readonly rises: "clockwise" | "anticlockwise";
  /** A version made for the other direction, e.g. "Contra Twin, 3 weeks, +9 cu". */
  readonly otherHand: string;
}

export interface Shaft {
  readonly diameter: Quantity;
  readonly kind: "solid" | "split" | "unknown";
  readonly knobBore: Quantity;
  readonly knobKind: "set screw" | "push-on" | "unknown";
  readonly splines: Quantity;
  readonly knobSplines: Quantity;
}

export interface Lever {
  readonly name: string;
  readonly oldSlot: Quantity;
  readonly slot: Quantity;
  readonly slotWidth: Quantity;
  /** Screws at plus and minus this from the slot's middle. */
  readonly oldScrews: Quantity;
  readonly screws: Quantity;
  readonly oldScrewHole: Quantity;
  readonly screwHole: Quantity;
  readonly depth: Quantity;
  readonly lugs: Quantity;
  readonly freeDepth: Quantity;
  readonly width: Quantity;
  readonly freeWidth: Quantity;
  readonly cover: string;
}

export interface Tuners {
  readonly name: string;
  readonly count: number;
  readonly hole: Quantity;
  readonly oldHole: Quantity;
  readonly headstockThickness: Quantity;
  readonly thinnest: Quantity;
  readonly thickest: Quantity;
  readonly postSlot: Quantity;
  readonly screw?: { readonly distance: Quantity; readonly angle: Quantity; readonly diameter: Quantity };
  readonly oldScrews: readonly { readonly distance: Quantity; readonly angle: Quantity; readonly diameter: Quantity }[];
  readonly pitch: Quantity;
  readonly mass: Quantity;
  readonly oldMass: Quantity;
}

/** Other fittings that are checked: strap buttons, battery. */
export interface StrapButton {
  readonly id: string;
  readonly holeDiameter: Quantity;
  readonly screwGauge: Quantity;
  readonly screwLength: Quantity;
  readonly at: BodyPoint;
}

export interface Battery {
  readonly length: Quantity;
  readonly width: Quantity;
  readonly thickness: Quantity;
  readonly room: { readonly length: Quantity; readonly width: Quantity; readonly depth: Quantity };
}

/** Mass taken off and put on, for balance about the strap button. */
export interface MassChange {
  readonly what: string;
  readonly x: Quantity;
  readonly off: Quantity;
  readonly on: Quantity;
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
