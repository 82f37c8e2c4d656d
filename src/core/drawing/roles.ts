/**
 * What each thing on a drawing is, and the one table that says how it is drawn.
 *
 * Line kinds follow ISO 128 as remembered: 01 continuous, 02 dashed, 04 long-dashed dotted, 05 long-dashed
 * double-dotted, 07 dotted; dash lengths in multiples of the line width (dash 12, long dash 24, gap 3, dot 0.5); two
 * widths in the ratio 1 : 2, here 0.25 and 0.5 mm. From memory of ISO 128; the figures have not been read in it.
 *
 * Nothing is told by colour: every role differs from its neighbours by line kind, width, hatch or symbol.
 */

export type LineType = "continuous" | "dashed" | "long-dashed dotted" | "long-dashed double-dotted" | "dotted";

export type Hatch = "none" | "single" | "cross" | "sparse cross";

export type HoleSymbol = "drill here" | "filled old" | "plugged" | "keeps" | "post" | "string through";

export interface RoleStyle {
  readonly line: LineType;
  readonly widthMm: number;
  readonly hatch: Hatch;
  /** How a hole with this role is marked; other geometry ignores it. */
  readonly hole: HoleSymbol;
  /** Name of its layer in a DXF file and of its group in SVG: capitals and hyphens only. */
  readonly layer: string;
  /** Said in the drawing's key. */
  readonly says: string;
  /** Letter that numbers its holes; codes avoid I, O and l. */
  readonly letter: string;
  /** Where a line's own label stands unless the item says otherwise. */
  readonly labelAt: LabelPlace;
}

export type LabelPlace = "from" | "to" | "both" | "along" | "none";

export const THIN_MM = 0.25;
export const WIDE_MM = 0.5;

function style(
  says: string,
  layer: string,
  line: LineType,
  widthMm: number,
  more: Partial<Pick<RoleStyle, "hatch" | "hole" | "letter" | "labelAt">> = {},
): RoleStyle {
  return { says, layer, line, widthMm, hatch: "none", hole: "keeps", letter: "S", labelAt: "along", ...more };
}

/** Draw order is the order of this table: what stands later lies on top. */
export const ROLE_STYLE = {
  "rework area": style("cut away here", "REWORK-AREA", "continuous", WIDE_MM, { hatch: "single" }),
  "keep-out": style("keep clear", "KEEP-OUT", "long-dashed double-dotted", WIDE_MM, { hatch: "sparse cross" }),
  "body edge": style("edge of the body", "BODY-EDGE", "continuous", 0.7),
  "neck outline": style("neck", "NECK-OUTLINE", "continuous", 0.35),
  "cavity outline": style("edge of a rout", "CAVITY-OUTLINE", "continuous", WIDE_MM),
  "hidden outline": style("hidden edge", "HIDDEN-OUTLINE", "dashed", THIN_MM),
  "plate outline": style("new plate", "PLATE-OUTLINE", "continuous", WIDE_MM),
  "old outline": style("old part stood here", "OLD-OUTLINE", "long-dashed double-dotted", THIN_MM),
  "part outline": style("part beside it", "PART-OUTLINE", "continuous", 0.35),
  "reference object": style("object of known size", "REFERENCE-OBJECT", "continuous", 0.35),
  "cut line": style("cut", "CUT-LINE", "continuous", WIDE_MM),
  "fold line": style("fold", "FOLD-LINE", "dashed", 0.35),
  "string line": style("string", "STRING-LINE", "continuous", 0.18, { labelAt: "both" }),
  "centre line": style("centre line", "CENTRE-LINE", "long-dashed dotted", THIN_MM, { labelAt: "from" }),
  "scale line": style("scale line", "SCALE-LINE", "long-dashed dotted", WIDE_MM, { labelAt: "along" }),
  "register line": style("register line", "REGISTER-LINE", "continuous", 0.35, { labelAt: "along" }),
  "marking-out row": style("scribe this line", "MARKING-OUT", "continuous", THIN_MM, { labelAt: "to" }),
  screw: style("screw that stays", "SCREW", "continuous", THIN_MM, { hole: "keeps", letter: "S" }),
  "old hole": style("old hole, open", "OLD-HOLE", "dashed", 0.35, { hatch: "single", hole: "filled old", letter: "X" }),
  plug: style("plugged hole", "PLUG", "continuous", 0.35, { hatch: "cross", hole: "plugged", letter: "P" }),
  post: style("post", "POST", "continuous", WIDE_MM, { hole: "post", letter: "T" }),
  "string hole": style("string hole to drill", "STRING-HOLE", "continuous", WIDE_MM, {
    hole: "string through",
    letter: "Y",
  }),
  "new hole": style("hole to drill", "NEW-HOLE", "continuous", WIDE_MM, { hole: "drill here", letter: "H" }),
  dimension: style("dimension", "DIMENSION", "continuous", THIN_MM),
  note: style("note", "NOTE", "continuous", THIN_MM),
  datum: style("datum", "DATUM", "continuous", 0.35),
} as const satisfies Record<string, RoleStyle>;

export type Role = keyof typeof ROLE_STYLE;

export const ROLES = Object.keys(ROLE_STYLE) as readonly Role[];

/** Roles whose holes are still to be made: they get the drill call-outs. */
export const TO_DRILL: readonly Role[] = ["post", "string hole", "new hole"];

export function styleOf(role: Role): RoleStyle {
  return ROLE_STYLE[role];
}

/** Dash pattern in mm (dash, gap, …) of a line kind; empty for a continuous line. ISO 128, from memory. */
export function dashPattern(line: LineType, widthMm: number): number[] {
  const d = widthMm;
  switch (line) {
    case "continuous":
      return [];
    case "dashed":
      return [12 * d, 3 * d];
    case "long-dashed dotted":
      return [24 * d, 3 * d, 0.5 * d, 3 * d];
    case "long-dashed double-dotted":
      return [24 * d, 3 * d, 0.5 * d, 3 * d, 0.5 * d, 3 * d];
    case "dotted":
      return [0.5 * d, 3 * d];
    default:
      return line satisfies never;
  }
}
