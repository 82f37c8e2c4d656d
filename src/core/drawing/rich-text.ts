/**
 * Lines of text broken to a width, measured in the embedded font. A figure never parts from its unit; units are smaller
 * than their figures and doubts smaller still, so that the number is what the eye finds.
 */
import { type Figure, type LengthUnit, showFigure } from "../quantity/index.ts";
import type { PagePoint } from "./geometry.ts";
import { type Mark, type TextMeasure, textMark, type Weight } from "./marks.ts";
import type { Words } from "./scene.ts";
import { withMinus } from "./words.ts";

export interface TextStyle {
  readonly heightMm: number;
  readonly weight?: Weight;
}

export interface TextSetting {
  readonly units: LengthUnit;
  readonly measure: TextMeasure;
}

export interface Run {
  readonly text: string;
  readonly heightMm: number;
  readonly weight: Weight;
}

export interface TextLine {
  readonly runs: readonly Run[];
  readonly widthMm: number;
}

/** Baseline to baseline, in capital heights. */
export const LEADING = 1.85;
const UNIT_SIZE = 0.8;

/** Runs that stay together on a line, and whether a space may stand before them. */
interface Atom {
  readonly runs: readonly Run[];
  readonly spaced: boolean;
  readonly newLine: boolean;
}

export function runsOfFigure(figure: Figure, style: TextStyle, units: LengthUnit): Run[] {
  const { heightMm, weight = "regular" } = style;
  const shown = withMinus(showFigure(figure, units));
  const parts = /^([−\d.]+)( ±[\d.]+)?(.*)$/.exec(shown);
  if (parts === null) return [{ text: shown, heightMm, weight }];
  const [, number = "", doubt = "", unit = ""] = parts;
  const small = heightMm * UNIT_SIZE;
  return [
    { text: number, heightMm, weight },
    ...(doubt === "" ? [] : [{ text: doubt, heightMm: small, weight: "regular" as const }]),
    // A no-break space in the unit's small size ties it to its number.
    ...(unit === "" ? [] : [{ text: unit.replace(/^ /, "\u00a0"), heightMm: small, weight: "regular" as const }]),
  ];
}

function atomsOf(words: Words, style: TextStyle, units: LengthUnit): Atom[] {
  const { heightMm, weight = "regular" } = style;
  const atoms: { runs: Run[]; spaced: boolean; newLine: boolean }[] = [];
  let [spaced, newLine] = [true, false];
  const add = (runs: Run[]) => {
    const open = atoms.at(-1);
    if (open && !spaced && !newLine) open.runs.push(...runs);
    else atoms.push({ runs, spaced, newLine });
    [spaced, newLine] = [false, false];
  };
  for (const part of typeof words === "string" ? [words] : words) {
    if (typeof part !== "string") {
      add(runsOfFigure(part, style, units));
      continue;
    }
    for (const piece of part.split(/( +|\n)/)) {
      if (piece === "") continue;
      if (piece === "\n") newLine = true;
      else if (piece.startsWith(" ")) spaced = true;
      else add([{ text: piece, heightMm, weight }]);
    }
  }
  return atoms;
}

/** Breaks words into lines no wider than `widthMm`; a word wider than that is broken inside. */
export function wrap(words: Words, style: TextStyle, widthMm: number, setting: TextSetting): TextLine[] {
  const { measure, units } = setting;
  const space = measure(" ", style.heightMm, style.weight ?? "regular");
  const lines: { runs: Run[]; widthMm: number }[] = [{ runs: [], widthMm: 0 }];
  for (const atom of atomsOf(words, style, units).flatMap((one) => breakAtom(one, widthMm, measure))) {
    const width = widthOfRuns(atom.runs, measure);
    let line = lines.at(-1);
    const gap = line && line.runs.length > 0 && atom.spaced ? space : 0;
    if (!line || atom.newLine || (line.runs.length > 0 && line.widthMm + gap + width > widthMm + 1e-6)) {
      line = { runs: [], widthMm: 0 };
      lines.push(line);
    }
    if (line.runs.length > 0 && atom.spaced) {
      line.runs.push({ text: " ", heightMm: style.heightMm, weight: style.weight ?? "regular" });
      line.widthMm += space;
    }
    line.runs.push(...atom.runs);
    line.widthMm += width;
  }
  return lines;
}

function breakAtom(atom: Atom, widthMm: number, measure: TextMeasure): Atom[] {
  if (widthOfRuns(atom.runs, measure) <= widthMm) return [atom];
  const out: Atom[] = [];
  for (const run of atom.runs) {
    let piece = "";
    for (const letter of run.text) {
      if (piece !== "" && measure(piece + letter, run.heightMm, run.weight) > widthMm) {
        out.push({ runs: [{ ...run, text: piece }], spaced: false, newLine: out.length > 0 });
        piece = "";
      }
      piece += letter;
    }
    if (piece !== "") out.push({ runs: [{ ...run, text: piece }], spaced: false, newLine: out.length > 0 });
  }
  return out.map((piece, index) => (index === 0 ? { ...piece, spaced: atom.spaced, newLine: atom.newLine } : piece));
}

export function widthOfRuns(runs: readonly Run[], measure: TextMeasure): number {
  return runs.reduce((sum, run) => sum + measure(run.text, run.heightMm, run.weight), 0);
}

/** Marks of a line whose baseline starts at `at`; neighbouring runs of one style become one text. */
export function lineMarks(line: TextLine, at: PagePoint, measure: TextMeasure): Mark[] {
  const marks: Mark[] = [];
  let right = at.right;
  for (const run of mergeRuns(line.runs)) {
    marks.push(textMark({ right, down: at.down }, run.text, { heightMm: run.heightMm, weight: run.weight }));
    right += measure(run.text, run.heightMm, run.weight);
  }
  return marks;
}

function mergeRuns(runs: readonly Run[]): Run[] {
  const out: Run[] = [];
  for (const run of runs) {
    const last = out.at(-1);
    if (last && last.heightMm === run.heightMm && last.weight === run.weight)
      out[out.length - 1] = { ...last, text: last.text + run.text };
    else out.push(run);
  }
  return out;
}

/** A wrapped text as marks from its top left corner, with the height it takes. */
export function textBlock(
  words: Words,
  style: TextStyle,
  widthMm: number,
  setting: TextSetting,
): { marks: Mark[]; heightMm: number } {
  const lines = wrap(words, style, widthMm, setting);
  const step = style.heightMm * LEADING;
  const marks = lines.flatMap((line, index) =>
    lineMarks(line, { right: 0, down: style.heightMm * 1.25 + index * step }, setting.measure),
  );
  return { marks, heightMm: lines.length * step };
}

/** One line made to fit: set smaller down to 70 %, then cut with "…". */
export function fitted(
  text: string,
  heightMm: number,
  weight: Weight,
  widthMm: number,
  measure: TextMeasure,
): { text: string; heightMm: number } {
  const width = measure(text, heightMm, weight);
  if (width <= widthMm) return { text, heightMm };
  const small = heightMm * Math.max(0.7, widthMm / width);
  if (measure(text, small, weight) <= widthMm + 1e-6) return { text, heightMm: small };
  const letters = [...text];
  while (letters.length > 1 && measure(`${letters.join("").trimEnd()}…`, small, weight) > widthMm) letters.pop();
  return { text: `${letters.join("").trimEnd()}…`, heightMm: small };
}
