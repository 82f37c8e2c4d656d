/** Where the label of a line, an outline or a hole may stand: best places first. */
import { textAlong } from "./dimensions.ts";
import type { PagePoint } from "./geometry.ts";
import { type TextMark, textMark } from "./marks.ts";
import { pagePieces } from "./paths.ts";
import { offset, wayFrom } from "./symbols.ts";

const MARK_TEXT_MM = 3;
export const LABEL_TEXT_MM = 2.2;

/** Texts above and below the longest pieces, at several places along each. */
export function alongPieces(points: readonly PagePoint[], text: string): TextMark[] {
  if (text === "") return [];
  const sides = pagePieces(points)
    .map(([a, b]) => ({ a, b, length: Math.hypot(b.right - a.right, b.down - a.down) }))
    .sort((one, two) => two.length - one.length)
    .slice(0, 4);
  const beside = sides.flatMap(({ a, b, length }) =>
    [0.5, 0.25, 0.75, 0.12, 0.88, 0.37, 0.63].flatMap((t) => {
      const way = wayFrom(a, b);
      const above = textAlong(text, offset(a, way, t * length), way, LABEL_TEXT_MM);
      return [above, belowLine(above)];
    }),
  );
  const [first, last] = [points[0], points.at(-1)];
  const isLine = points.length === 2 && first !== undefined && last !== undefined;
  return isLine ? [...beside, textBeyond(text, last, first), textBeyond(text, first, last)] : beside;
}

/** The same text on the other side of its line. */
function belowLine(text: TextMark): TextMark {
  const angle = (text.turnDegrees * Math.PI) / 180;
  const down = { right: Math.sin(angle), down: Math.cos(angle) };
  return { ...text, at: offset(text.at, down, text.heightMm + 2 * 0.9) };
}

/** A text that stands beyond the end `to` of the line from `from`, upright. */
function textBeyond(text: string, from: PagePoint, to: PagePoint, heightMm = LABEL_TEXT_MM): TextMark {
  const way = wayFrom(from, to);
  const upright = Math.abs(way.down) > Math.abs(way.right);
  const anchor = upright ? "middle" : way.right > 0 ? "start" : "end";
  const at = offset(to, way, 1.2);
  const down = upright ? (way.down > 0 ? at.down + heightMm : at.down) : at.down + heightMm / 2;
  return textMark({ right: at.right, down }, text, { heightMm, anchor });
}

/** For the label of a line's end: beyond it, else beside the line just before it. */
export function endPlaces(text: string, from: PagePoint, to: PagePoint): TextMark[] {
  const beyond = textBeyond(text, from, to);
  const way = wayFrom(from, to);
  const further = { ...beyond, at: offset(beyond.at, way, 4) };
  const beside = [8, 16, 24].flatMap((before) => {
    const above = textAlong(text, offset(to, way, -before), way, LABEL_TEXT_MM);
    return [above, belowLine(above)];
  });
  return [beyond, further, ...beside];
}

interface Round {
  readonly radiusMm: number;
  /** How far the arms of its cross reach; 0 without a cross. */
  readonly armMm: number;
  readonly bold: boolean;
}

/** Texts round a circle, between the arms of its cross first. */
export function textsAround(text: string, centre: PagePoint, { radiusMm, armMm, bold }: Round): TextMark[] {
  const heightMm = bold ? MARK_TEXT_MM : LABEL_TEXT_MM;
  const ways: [number, number][] = [
    [1, -1],
    [1, 1],
    [-1, -1],
    [-1, 1],
    [1, 0],
    [-1, 0],
    [0, -1],
    [0, 1],
  ];
  return [1, 2.2, 4].flatMap((gap) =>
    ways.map(([right, down]) => {
      const diagonal = right !== 0 && down !== 0;
      const reach = diagonal ? radiusMm * Math.SQRT1_2 + gap * 0.7 : Math.max(radiusMm, armMm) + gap * 0.7;
      const at = {
        right: centre.right + right * reach,
        down: centre.down + down * reach + (down < 0 ? 0 : down > 0 ? heightMm : heightMm / 2),
      };
      return textMark(at, text, {
        heightMm,
        anchor: right > 0 ? "start" : right < 0 ? "end" : "middle",
        weight: bold ? "bold" : "regular",
      });
    }),
  );
}
