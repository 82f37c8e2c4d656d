/** Work that a verdict asks for, in machine-readable form. Lengths in mm, places in body coordinates (u, y). */

export interface BodyPlace {
  readonly u: number;
  readonly y: number;
}

export type Work =
  /** Plug old holes with grain-matched plugs, glue, cure. */
  | { readonly act: "plug"; readonly holes: readonly PlugPlace[]; readonly diameter: number; readonly cause: string }
  /** Drill one set of new holes; the stop is set to `depth`. */
  | {
      readonly act: "drill";
      readonly group: string;
      readonly holes: readonly DrillPlace[];
      readonly intoPlugs: boolean;
    }
  /** Enlarge a rout. Growth of the whole length, width and depth: half of the first two at each end or side. */
  | {
      readonly act: "rout";
      readonly cavity: string;
      readonly what: string;
      readonly lengthBy: number;
      readonly widthBy: number;
      readonly depthBy: number;
    }
  /** Open a round hole to a larger diameter by reamer or step bit. */
  | { readonly act: "ream"; readonly where: string; readonly count: number; readonly from: number; readonly to: number }
  /** Thin the wood from inside so that a bushing reaches. */
  | { readonly act: "spot-face"; readonly where: string; readonly depth: number; readonly leaves: number }
  /** Lengthen a switch slot and drill its screw holes. */
  | {
      readonly act: "slot";
      readonly where: string;
      readonly from: number;
      readonly to: number;
      readonly screwOffset: number;
      readonly cover: string;
    }
  /** Full-length tapered shim in the neck pocket, thick at the heel's end. */
  | { readonly act: "shim"; readonly thickness: number; readonly length: number; readonly angleDegrees: number }
  /** Open nut slots to the new gauges, string 1 first. */
  | {
      readonly act: "nut slots";
      readonly widths: readonly { readonly string: number; readonly from: number; readonly to: number }[];
    }
  /** Keep a metal part or a lug away from foil. */
  | { readonly act: "insulate"; readonly where: string }
  /** Make bare metal for the string ground, or take a lug on a screw. */
  | { readonly act: "bare contact"; readonly where: string }
  /** Another part, or a sleeve, is needed: nothing is cut. */
  | { readonly act: "buy"; readonly what: string; readonly spec: string }
  /** Set or choose something by hand (turn a saddle round, anchor on top, swap a string). */
  | { readonly act: "choose"; readonly what: string }
  | { readonly act: "take off"; readonly part: string }
  | { readonly act: "fit"; readonly part: string }
  | { readonly act: "restring"; readonly set: string };

export interface PlugPlace extends BodyPlace {
  readonly id: string;
  readonly diameter: number;
  readonly depth: number | "through";
}

export interface DrillPlace extends BodyPlace {
  readonly id: string;
  /** Drill size: the pilot or clearance hole. */
  readonly diameter: number;
  /** Thread or shank that ends up in the hole; walls are reckoned to the larger. */
  readonly thread: number;
  /** 0: right through. */
  readonly depth: number;
}
