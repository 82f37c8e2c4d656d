/**
 * What a writer puts on a page: paths, circles and text in true millimetres from the page's top left corner. A page is
 * the same for PDF and SVG; neither decides anything about the look.
 */
import type { PagePoint, PageRect } from "./geometry.ts";
import type { Anchor } from "./scene.ts";

export type Segment =
  | { readonly to: "move"; readonly at: PagePoint }
  | { readonly to: "line"; readonly at: PagePoint }
  | { readonly to: "curve"; readonly first: PagePoint; readonly second: PagePoint; readonly at: PagePoint }
  | { readonly to: "close" };

export interface Stroke {
  readonly widthMm: number;
  /** Dash, gap, …; empty for a continuous line. */
  readonly dashMm: readonly number[];
  /** "#rrggbb" of a thing that has a colour of its own; never the only sign of anything. Ink where left out. */
  readonly colour?: string;
}

export type Fill = "ink" | "paper";

export type Mark =
  | { readonly kind: "path"; readonly path: readonly Segment[]; readonly stroke?: Stroke; readonly fill?: Fill }
  | {
      readonly kind: "circle";
      readonly centre: PagePoint;
      readonly radiusMm: number;
      readonly stroke?: Stroke;
      readonly fill?: Fill;
    }
  | TextMark;

export interface TextMark {
  readonly kind: "text";
  /** On the baseline. */
  readonly at: PagePoint;
  readonly text: string;
  /** Height of the capitals. */
  readonly heightMm: number;
  readonly anchor: Anchor;
  readonly weight: Weight;
  /** Anticlockwise as seen: 90 reads upward. */
  readonly turnDegrees: number;
  readonly ink: Fill;
}

export type Weight = "regular" | "bold";

/** Everything that one thing puts on the page, with its identity kept. */
export interface MarkGroup {
  readonly id: string;
  readonly role: string;
  /** Spoken by a screen reader. */
  readonly title?: string;
  /** Marks outside it are not shown. */
  readonly clip?: PageRect;
  /** Places that a reader of the file may want without undoing the layout: "x", "y", "diameterMm", … */
  readonly data?: Readonly<Record<string, string | number>>;
  readonly marks: readonly Mark[];
}

export interface Page {
  /** The paper itself. */
  readonly widthMm: number;
  readonly heightMm: number;
  /** Drawn / true, to undo what one printer does; 1 and 1 unless corrected. Writers multiply every place by these. */
  readonly factors: { readonly across: number; readonly down: number };
  readonly id: string;
  readonly title: string;
  readonly description: string;
  readonly groups: readonly MarkGroup[];
}

/** Width of a text whose capitals are `heightMm` high, in mm, in the font that will be embedded. */
export type TextMeasure = (text: string, heightMm: number, weight: Weight) => number;

/** Height of the capital H of DejaVu Sans over its size, in font units (a test reads it in the font). */
export const CAPITAL_HEIGHT = 1493 / 2048;
/** Room that a line of text needs below its baseline, in capital heights (descender of DejaVu Sans, "g", "(" ). */
export const DESCENT = 0.32;

export const thin = (widthMm = 0.25): Stroke => ({ widthMm, dashMm: [] });

export function lineMark(from: PagePoint, to: PagePoint, stroke: Stroke): Mark {
  return {
    kind: "path",
    path: [
      { to: "move", at: from },
      { to: "line", at: to },
    ],
    stroke,
  };
}

export function polygonMark(points: readonly PagePoint[], ink: { stroke?: Stroke; fill?: Fill }): Mark {
  const path: Segment[] = points.map((at, index) => ({ to: index === 0 ? "move" : "line", at }));
  return { kind: "path", path: [...path, { to: "close" }], ...ink };
}

export function rectMark(rect: PageRect, ink: { stroke?: Stroke; fill?: Fill }): Mark {
  const { left, top, right, bottom } = rect;
  const corners = [
    { right: left, down: top },
    { right, down: top },
    { right, down: bottom },
    { right: left, down: bottom },
  ];
  return polygonMark(corners, ink);
}

export interface TextOptions {
  readonly heightMm: number;
  readonly anchor?: Anchor;
  readonly weight?: Weight;
  readonly turnDegrees?: number;
  readonly ink?: Fill;
}

export function textMark(at: PagePoint, text: string, options: TextOptions): TextMark {
  const { heightMm, anchor = "start", weight = "regular", turnDegrees = 0, ink = "ink" } = options;
  return { kind: "text", at, text, heightMm, anchor, weight, turnDegrees, ink };
}

/** The room that a text takes on the page, for turns of 0 and 90 degrees exactly, else the box around it. */
export function textBox(mark: TextMark, measure: TextMeasure, padMm = 0): PageRect {
  const width = measure(mark.text, mark.heightMm, mark.weight);
  const start = mark.anchor === "start" ? 0 : mark.anchor === "middle" ? -width / 2 : -width;
  const angle = (mark.turnDegrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const box = { left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity };
  for (const along of [start - padMm, start + width + padMm]) {
    for (const above of [-DESCENT * mark.heightMm - padMm, mark.heightMm + padMm]) {
      const right = mark.at.right + along * cos - above * sin;
      const down = mark.at.down - along * sin - above * cos;
      box.left = Math.min(box.left, right);
      box.right = Math.max(box.right, right);
      box.top = Math.min(box.top, down);
      box.bottom = Math.max(box.bottom, down);
    }
  }
  return box;
}
