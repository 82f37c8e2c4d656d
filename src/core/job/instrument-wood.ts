/** The body as the sums see it: holes, wire channels, cavities, pocket. Frames: see instrument.ts. */
import type { Quantity } from "../quantity/index.ts";

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
  /** Thread of the bushing in it, by name. */
  readonly bushing?: string;
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
