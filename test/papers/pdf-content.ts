/**
 * What a PDF file draws, read from its bytes alone. Shares no code with the writer. Only what a drawing needs: paths,
 * strokes, fills, text through ToUnicode; clips are ignored. Coordinates are turned into mm from the page's top left.
 */
import { dictOf, Hex, isDict, Name, objectsOf, Reader, Ref, type Value } from "./pdf-objects.ts";

export interface Spot {
  readonly x: number;
  readonly y: number;
}

export interface Subpath {
  /** Points on the path, in order. */
  readonly points: readonly Spot[];
  readonly curves: number;
  readonly lines: number;
  readonly closed: boolean;
}

export interface Painted {
  readonly subpaths: readonly Subpath[];
  readonly stroked: boolean;
  readonly filled: boolean;
  /** 0 black, 1 white. */
  readonly fillGrey: number;
  readonly widthMm: number;
  readonly dashed: boolean;
}

export interface Written {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly sizeMm: number;
  readonly bold: boolean;
  readonly degrees: number;
  /** The text's own matrix turns it inside out. */
  readonly mirrored: boolean;
}

export interface DrawnPage {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly userUnit: number;
  readonly painted: readonly Painted[];
  readonly written: readonly Written[];
}

export interface PdfFile {
  readonly pages: readonly DrawnPage[];
  readonly info: Readonly<Record<string, string>>;
  readonly printScaling: string | undefined;
  readonly fontNames: readonly string[];
}

const MM = 25.4 / 72;

export function readPdf(bytes: Uint8Array): PdfFile {
  const { objects, trailer } = objectsOf(bytes);
  const follow = (value: Value | undefined): Value =>
    value instanceof Ref ? follow(objects.get(value.number)?.value) : (value ?? null);
  const root = dictOf(follow(trailer.Root));
  const fontNames = new Set<string>();
  const pagesOf = (node: Value): DrawnPage[] => {
    const dict = dictOf(node);
    if (Array.isArray(dict.Kids)) return dict.Kids.flatMap((kid) => pagesOf(follow(kid)));
    const [, , width = 0, height = 0] = (follow(dict.MediaBox) as number[]) ?? [];
    const fonts = new Map<string, Font>();
    const resources = dictOf(follow(dict.Resources));
    for (const [name, ref] of Object.entries(isDict(follow(resources.Font)) ? dictOf(follow(resources.Font)) : {})) {
      const font = dictOf(follow(ref));
      const base = font.BaseFont instanceof Name ? font.BaseFont.name : "";
      fontNames.add(base);
      const map = font.ToUnicode instanceof Ref ? objects.get(font.ToUnicode.number)?.stream : undefined;
      fonts.set(name, {
        bold: /bold/i.test(base),
        letters: map ? toUnicode(Buffer.from(map).toString("latin1")) : new Map(),
      });
    }
    const contents = Array.isArray(dict.Contents) ? dict.Contents : [dict.Contents ?? null];
    const content = contents
      .map((one) => (one instanceof Ref ? Buffer.from(objects.get(one.number)?.stream ?? []).toString("latin1") : ""))
      .join("\n");
    return [
      {
        ...interpret(content, fonts, height),
        widthMm: width * MM,
        heightMm: height * MM,
        userUnit: typeof dict.UserUnit === "number" ? dict.UserUnit : 1,
      },
    ];
  };
  const info: Record<string, string> = {};
  for (const [key, value] of Object.entries(dictOf(follow(trailer.Info)))) info[key] = String(follow(value));
  const preferences = follow(root.ViewerPreferences);
  const scaling = isDict(preferences) ? preferences.PrintScaling : undefined;
  const pages = pagesOf(follow(root.Pages));
  return { pages, info, printScaling: scaling instanceof Name ? scaling.name : undefined, fontNames: [...fontNames] };
}

interface Font {
  readonly bold: boolean;
  readonly letters: ReadonlyMap<number, string>;
}

function toUnicode(cmap: string): Map<number, string> {
  const out = new Map<number, string>();
  for (const [, start = "0", list = ""] of cmap.matchAll(/<([0-9a-fA-F]+)>\s*<[0-9a-fA-F]+>\s*\[([^\]]*)\]/g)) {
    let code = Number.parseInt(start, 16);
    for (const [, hex = ""] of list.matchAll(/<([^>]*)>/g)) {
      const units = hex.replace(/\s/g, "").match(/.{4}/g) ?? [];
      out.set(code, String.fromCharCode(...units.map((unit) => Number.parseInt(unit, 16))));
      code += 1;
    }
  }
  return out;
}

type Matrix = readonly [number, number, number, number, number, number];

function times(a: Matrix, b: Matrix): Matrix {
  return [
    a[0] * b[0] + a[1] * b[2],
    a[0] * b[1] + a[1] * b[3],
    a[2] * b[0] + a[3] * b[2],
    a[2] * b[1] + a[3] * b[3],
    a[4] * b[0] + a[5] * b[2] + b[4],
    a[4] * b[1] + a[5] * b[3] + b[5],
  ];
}

interface State {
  ctm: Matrix;
  widthPt: number;
  dashed: boolean;
  fillGrey: number;
  font: string;
  size: number;
}

function interpret(
  content: string,
  fonts: ReadonlyMap<string, Font>,
  pageHeight: number,
): { painted: Painted[]; written: Written[] } {
  const reader = new Reader(content, true);
  let state: State = { ctm: [1, 0, 0, 1, 0, 0], widthPt: 1, dashed: false, fillGrey: 0, font: "", size: 0 };
  const stack: State[] = [];
  const painted: Painted[] = [];
  const written: Written[] = [];
  let subpaths: { points: Spot[]; curves: number; lines: number; closed: boolean }[] = [];
  let textMatrix: Matrix = [1, 0, 0, 1, 0, 0];
  let args: Value[] = [];
  const n = (index: number) => Number(args[index]);
  const spot = (x: number, y: number): Spot => {
    const [, , , , px, py] = times([1, 0, 0, 1, x, y], state.ctm);
    return { x: px * MM, y: (pageHeight - py) * MM };
  };
  const paint = (stroked: boolean, filled: boolean) => {
    const [a, b] = state.ctm;
    painted.push({
      subpaths,
      stroked,
      filled,
      fillGrey: state.fillGrey,
      widthMm: state.widthPt * Math.hypot(a, b) * MM,
      dashed: state.dashed,
    });
    subpaths = [];
  };
  const show = (hexes: readonly Hex[]) => {
    const font = fonts.get(state.font);
    const codes = hexes.flatMap((hex) => (hex.digits.match(/.{4}/g) ?? []).map((code) => Number.parseInt(code, 16)));
    const full = times(textMatrix, state.ctm);
    written.push({
      text: codes.map((code) => font?.letters.get(code) ?? "\ufffd").join(""),
      x: full[4] * MM,
      y: (pageHeight - full[5]) * MM,
      sizeMm: state.size * Math.hypot(full[2], full[3]) * MM,
      bold: font?.bold ?? false,
      degrees: (Math.atan2(full[1], full[0]) * 180) / Math.PI,
      mirrored: full[0] * full[3] - full[1] * full[2] < 0,
    });
  };
  const last = () => {
    const path = subpaths.at(-1);
    if (path === undefined) throw new Error("path operator without a start");
    return path;
  };
  for (let token = reader.next(); token !== undefined; token = reader.next()) {
    if (typeof token !== "string") {
      args.push(token);
      continue;
    }
    switch (token) {
      case "q":
        stack.push({ ...state });
        break;
      case "Q":
        state = stack.pop() ?? state;
        break;
      case "cm":
        state.ctm = times(args as unknown as Matrix, state.ctm);
        break;
      case "w":
        state.widthPt = n(0);
        break;
      case "d":
        state.dashed = Array.isArray(args[0]) && args[0].length > 0;
        break;
      case "g":
      case "rg":
      case "scn":
      case "sc":
        state.fillGrey = n(0);
        break;
      case "m":
        subpaths.push({ points: [spot(n(0), n(1))], curves: 0, lines: 0, closed: false });
        break;
      case "l":
        last().points.push(spot(n(0), n(1)));
        last().lines += 1;
        break;
      case "c":
        last().points.push(spot(n(4), n(5)));
        last().curves += 1;
        break;
      case "v":
      case "y":
        last().points.push(spot(n(2), n(3)));
        last().curves += 1;
        break;
      case "h":
        last().closed = true;
        break;
      case "re": {
        const [x, y, w, h] = [n(0), n(1), n(2), n(3)];
        subpaths.push({
          points: [spot(x, y), spot(x + w, y), spot(x + w, y + h), spot(x, y + h)],
          curves: 0,
          lines: 3,
          closed: true,
        });
        break;
      }
      case "S":
        paint(true, false);
        break;
      case "s":
        last().closed = true;
        paint(true, false);
        break;
      case "f":
      case "F":
      case "f*":
        paint(false, true);
        break;
      case "B":
      case "B*":
        paint(true, true);
        break;
      case "b":
      case "b*":
        last().closed = true;
        paint(true, true);
        break;
      case "n":
        subpaths = [];
        break;
      case "Tf":
        state.font = args[0] instanceof Name ? args[0].name : "";
        state.size = n(1);
        break;
      case "Tm":
        textMatrix = args as unknown as Matrix;
        break;
      case "Tj":
        show(args.filter((one) => one instanceof Hex));
        break;
      case "TJ":
        show((args[0] as Value[]).filter((one) => one instanceof Hex));
        break;
      case "W":
      case "W*":
      case "BT":
      case "ET":
      case "cs":
      case "CS":
      case "SCN":
      case "SC":
      case "G":
      case "RG":
      case "gs":
      case "M":
      case "j":
      case "J":
      case "Tz":
      case "Tc":
      case "Tw":
      case "Tr":
        break;
      default:
        throw new Error(`unknown operator ${token}`);
    }
    args = [];
  }
  return { painted, written };
}
