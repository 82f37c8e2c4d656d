/** Parts that stand on the instrument: bridge, pickups, controls, tuners, fittings. Frames: see instrument.ts. */
import type { Quantity } from "../quantity/index.ts";
import type { BodyPoint } from "./instrument-wood.ts";

export interface PartHole {
  readonly p: Quantity;
  readonly q: Quantity;
}

export interface Saddle {
  readonly string: number;
  /** Strings on the same saddle, this one among them; left out: a saddle of its own. */
  readonly sharedBy?: readonly number[];
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
    /** Of the screw, as measured. */
    readonly core: Quantity;
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
  /** Thread of the posts, by name; empty: not said. */
  readonly postThread: string;
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
  /** Between the outer lugs, and from the lug of the anticlockwise stop to the wiper at half turn. */
  readonly ohms: Quantity;
  readonly ohmsAtHalfTurn: Quantity;
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
