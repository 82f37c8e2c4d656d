/**
 * Reads a finished drawing sheet back from its PDF bytes, as a stranger with a ruler would: by the conventions of
 * docs/spec/paper.md, sharing no code with the program that wrote it.
 *
 * Conventions used: the frame is the largest stroked rectangle; "PRINT CHECK" names its true lengths; the datum is two
 * rings of 3 and 6 mm with a 20 mm arm along x and a 12 mm arm along y; the table of holes names place, diameter, depth
 * and depth datum of each mark; strings are labelled "number name" and the highest number is the bass side.
 */
import { type DrawnPage, type Painted, readPdf, type Spot, type Subpath, type Written } from "./pdf-content.ts";

export interface RecoveredHole {
  readonly mark: string;
  readonly x: number;
  readonly y: number;
  readonly diameterMm: number;
  readonly depth: number | "through";
  readonly datum: string;
  readonly dashed: boolean;
}

export interface RecoveredSheet {
  readonly paper: { readonly widthMm: number; readonly heightMm: number };
  readonly statement: string;
  /** Frame as drawn over frame as named (times the factors that the sheet states). */
  readonly scale: { readonly across: number; readonly down: number };
  readonly corrected: { readonly across: number; readonly down: number } | undefined;
  readonly holes: readonly RecoveredHole[];
  /** Rows of the table without a circle in the drawing. */
  readonly missing: readonly string[];
  readonly strings: ReadonlyMap<number, number>;
  /** What is wrong with the sheet, in words; empty for a sound one. */
  readonly complaints: readonly string[];
}

interface Circle {
  readonly centre: Spot;
  readonly across: number;
  readonly down: number;
  readonly stroked: boolean;
  readonly filled: boolean;
  readonly dashed: boolean;
  readonly widthMm: number;
}

/** Distance from the datum, along the frame's axes, in true mm. */
type Locate = (spot: Spot) => { x: number; y: number };

export function recoverSheets(bytes: Uint8Array): RecoveredSheet {
  const { pages } = readPdf(bytes);
  const drawings = pages.filter((page) => page.written.some(({ text }) => text === "PRINT CHECK"));
  const [first] = drawings;
  if (first === undefined) throw new Error("no drawing sheet");
  const rows = pages.flatMap(tableRows);
  const complaints: string[] = [];
  const corrected = factorsOf(first);
  const scale = scaleOf(first, corrected);
  for (const [axis, value] of Object.entries(scale)) {
    if (Math.abs(value - 1) > 0.0005) complaints.push(`scale ${axis} is ${value.toFixed(4)}`);
  }
  for (const { widthMm, heightMm } of pages) {
    const sides = [widthMm, heightMm].sort((a, b) => a - b);
    const known = [
      [210, 297],
      [215.9, 279.4],
    ].some(([a = 0, b = 0]) => Math.abs((sides[0] ?? 0) - a) < 0.01 && Math.abs((sides[1] ?? 0) - b) < 0.01);
    if (!known)
      complaints.push(`the page of ${widthMm.toFixed(2)} × ${heightMm.toFixed(2)} mm is no paper we print on`);
  }
  if (first.userUnit !== 1) complaints.push(`user unit is ${first.userUnit}`);
  if (pages.some((page) => page.written.some(({ mirrored }) => mirrored))) complaints.push("lettering is mirrored");
  const statement = first.written.find(({ text }) => /^seen from/i.test(text))?.text ?? "";
  const located = locateAll(drawings, corrected ?? { across: 1, down: 1 }, statement, complaints);
  const strings = new Map<number, number>();
  const found = located.flatMap(({ page, locate }) => {
    for (const { text, x, y } of page.written) {
      const number = /^(\d+) [A-G][#b♯♭]?\d?$/.exec(text)?.[1] ?? /^string (\d+)$/.exec(text)?.[1];
      if (number !== undefined && !strings.has(Number(number))) strings.set(Number(number), locate({ x, y }).y);
    }
    return circlesOf(page).map((circle) => ({ circle, at: locate(circle.centre) }));
  });
  checkBassSide(statement, strings, complaints);
  const factors = corrected ?? { across: 1, down: 1 };
  const holes: RecoveredHole[] = [];
  const missing: string[] = [];
  for (const row of rows) {
    const match = found
      .filter(({ circle }) => circle.stroked && Math.abs(circle.across / factors.across - row.diameter) < 0.02)
      .sort((a, b) => distance(a.at, row) - distance(b.at, row))[0];
    if (match === undefined || distance(match.at, row) > 0.3) missing.push(row.mark);
    else
      holes.push({
        mark: row.mark,
        ...match.at,
        diameterMm: (match.circle.across / factors.across + match.circle.down / factors.down) / 2,
        depth: row.depth,
        datum: row.datum,
        dashed: match.circle.dashed,
      });
  }
  if (missing.length > 0) complaints.push(`no circle for ${missing.join(", ")}`);
  return {
    paper: { widthMm: first.widthMm, heightMm: first.heightMm },
    statement,
    scale,
    corrected,
    holes,
    missing,
    strings,
    complaints,
  };
}

function distance(a: { x: number; y: number }, b: { x: number; y: number }): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

/** Closed paths of four curves whose ends stand evenly round a centre. */
function circlesOf(page: DrawnPage): Circle[] {
  return page.painted.flatMap((one) => one.subpaths.flatMap((path) => circleOf(one, path)));
}

function circleOf({ stroked, filled, dashed, widthMm }: Painted, { points, curves, lines, closed }: Subpath): Circle[] {
  if (curves !== 4 || lines !== 0 || !closed) return [];
  const [a, b, c, d] = points;
  if (!a || !b || !c || !d) return [];
  const centre = { x: (a.x + b.x + c.x + d.x) / 4, y: (a.y + b.y + c.y + d.y) / 4 };
  const across = Math.hypot(c.x - a.x, c.y - a.y);
  const down = Math.hypot(d.x - b.x, d.y - b.y);
  return [{ centre, across, down, stroked, filled, dashed, widthMm }];
}

function factorsOf(page: DrawnPage): { across: number; down: number } | undefined {
  const found = page.written.map(({ text }) => /drawn × ([\d.]+) across, × ([\d.]+) down/.exec(text)).find(Boolean);
  return found ? { across: Number(found[1]), down: Number(found[2]) } : undefined;
}

function scaleOf(
  page: DrawnPage,
  corrected: { across: number; down: number } | undefined,
): { across: number; down: number } {
  const named = (label: string) => {
    const at = page.written.find(({ text }) => text === label);
    const beside =
      at && page.written.find(({ text, y, bold }) => Math.abs(y - at.y) < 0.2 && bold && /^\d+\.\d$/.test(text));
    return Number(beside?.text);
  };
  const frame = page.painted
    .filter(({ stroked, filled }) => stroked && !filled)
    .flatMap(({ subpaths }) => subpaths)
    .filter(({ points, lines, curves, closed }) => closed && curves === 0 && lines === 3 && points.length === 4)
    .map(({ points }) => ({
      width: Math.max(...points.map((p) => p.x)) - Math.min(...points.map((p) => p.x)),
      height: Math.max(...points.map((p) => p.y)) - Math.min(...points.map((p) => p.y)),
    }))
    .sort((a, b) => b.width * b.height - a.width * a.height)[0];
  if (frame === undefined) throw new Error("no frame");
  return {
    across: frame.width / (named("across the top") * (corrected?.across ?? 1)),
    down: frame.height / (named("down the left side") * (corrected?.down ?? 1)),
  };
}

interface Row {
  readonly mark: string;
  readonly x: number;
  readonly y: number;
  readonly diameter: number;
  readonly depth: number | "through";
  readonly datum: string;
}

/** Rows under the head "hole … depth from what". */
function tableRows(page: DrawnPage): Row[] {
  const head = page.written.find(({ text }) => text === "hole");
  if (head === undefined) return [];
  const onLine = (y: number) => page.written.filter((one) => Math.abs(one.y - y) < 0.3).sort((a, b) => a.x - b.x);
  const heads = onLine(head.y).filter(({ x }) => x >= head.x - 0.1);
  const columns = heads.slice(0, 7);
  if (columns.at(-1)?.text !== "what") return [];
  const left = head.x - 0.5;
  const end = (columns.at(-1)?.x ?? 0) + 40;
  return page.written
    .filter(({ text, x, y }) => y > head.y && Math.abs(x - head.x) < 0.3 && /^[A-Z]\d+$/.test(text))
    .map(({ text, y }): Row => {
      const cells = onLine(y)
        .filter(({ x }) => x > left && x < end)
        .map((one) => one.text);
      const [, along = "", across = "", diameter = "", depth = "", datum = ""] = cells;
      const number = (shown: string) => Number(shown.replace("−", "-"));
      return {
        mark: text,
        x: number(along),
        y: number(across),
        diameter: number(diameter),
        depth: depth === "through" ? depth : number(depth),
        datum,
      };
    });
}

/** Pages located by the datum mark, others by a joining cross that a located page shares. */
function locateAll(
  pages: readonly DrawnPage[],
  factors: { across: number; down: number },
  statement: string,
  complaints: string[],
): { page: DrawnPage; locate: Locate }[] {
  const out: { page: DrawnPage; locate: Locate; crosses: Map<string, Spot> }[] = [];
  const waiting = pages.map((page) => ({ page, crosses: crossesOf(page) }));
  const axes = pages.map((page) => datumOf(page, factors)).find(Boolean);
  if (axes === undefined) throw new Error("no datum mark");
  checkTurn(axes, statement, complaints);
  const locator =
    (zero: Spot): Locate =>
    (spot) => {
      const d = { x: (spot.x - zero.x) / factors.across, y: (spot.y - zero.y) / factors.down };
      return { x: d.x * axes.x.x + d.y * axes.x.y, y: d.x * axes.y.x + d.y * axes.y.y };
    };
  for (let progress = true; progress && waiting.length > 0; ) {
    progress = false;
    for (const one of [...waiting]) {
      const datum = datumOf(one.page, factors);
      const zero = datum?.at ?? zeroByCrosses(one.crosses, out);
      if (zero === undefined) continue;
      out.push({ ...one, locate: locator(zero) });
      waiting.splice(waiting.indexOf(one), 1);
      progress = true;
      // The datum's own place on this page, for its neighbours.
      one.crosses.set("(zero)", zero);
    }
  }
  return out;
}

function zeroByCrosses(
  crosses: ReadonlyMap<string, Spot>,
  located: readonly { crosses: ReadonlyMap<string, Spot> }[],
): Spot | undefined {
  for (const other of located) {
    for (const [name, at] of crosses) {
      const [there, zero] = [other.crosses.get(name), other.crosses.get("(zero)")];
      if (there && zero) return { x: zero.x + at.x - there.x, y: zero.y + at.y - there.y };
    }
  }
  return undefined;
}

/** Rings of 4 mm with a lower-case letter beside them. */
function crossesOf(page: DrawnPage): Map<string, Spot> {
  const out = new Map<string, Spot>();
  for (const { centre, across, stroked } of circlesOf(page)) {
    if (!stroked || Math.abs(across - 4) > 0.2) continue;
    const near = page.written.find(
      ({ text, x, y }: Written) =>
        /^[a-z]{1,2}$/.test(text) && Math.abs(x - centre.x - 2.2) < 0.4 && Math.abs(y - centre.y + 1.8) < 0.4,
    );
    if (near) out.set(near.text, centre);
  }
  return out;
}

interface Axes {
  readonly at: Spot;
  readonly x: Spot;
  readonly y: Spot;
}

function datumOf(page: DrawnPage, factors: { across: number; down: number }): Axes | undefined {
  const rings = circlesOf(page).filter(({ stroked, filled }) => stroked && !filled);
  const size = (circle: Circle) => circle.across / factors.across;
  for (const inner of rings.filter((one) => Math.abs(size(one) - 3) < 0.2)) {
    const outer = rings.find((one) => Math.abs(size(one) - 6) < 0.4 && distance(one.centre, inner.centre) < 0.01);
    if (outer === undefined) continue;
    const arms = page.painted
      .filter(({ stroked }) => stroked)
      .flatMap(({ subpaths }) => subpaths)
      .filter(
        ({ points: [start], lines, curves }) =>
          lines === 1 && curves === 0 && start !== undefined && distance(start, inner.centre) < 0.01,
      );
    const arm = (length: number): Spot | undefined => {
      for (const {
        points: [, end],
      } of arms) {
        if (end === undefined) continue;
        const d = { x: (end.x - inner.centre.x) / factors.across, y: (end.y - inner.centre.y) / factors.down };
        const long = Math.hypot(d.x, d.y);
        if (Math.abs(long - length) < 0.8) return { x: d.x / long, y: d.y / long };
      }
      return undefined;
    };
    const [x, y] = [arm(20), arm(12)];
    if (x && y) return { at: inner.centre, x, y };
  }
  return undefined;
}

/** From the front y lies a quarter turn anticlockwise from x; on a page measured downward that is a negative turn. */
function checkTurn({ x, y }: Axes, statement: string, complaints: string[]): void {
  const turn = x.x * y.y - x.y * y.x;
  const behind = /from behind/i.test(statement);
  if (Math.abs(Math.abs(turn) - 1) > 0.01) complaints.push("the arms of the datum are not square");
  if (turn > 0 !== behind) complaints.push(`the drawing is mirrored: it says "${statement}"`);
  if (/head up/.test(statement) && x.y < 0.99) complaints.push("the head does not point up");
  if (/head left/.test(statement) && x.x < 0.99) complaints.push("the head does not point left");
}

function checkBassSide(statement: string, strings: ReadonlyMap<number, number>, complaints: string[]): void {
  const sign = /\(\w+ ([<>]) 0\)/.exec(statement)?.[1];
  const numbers = [...strings.keys()].sort((a, b) => a - b);
  const [thin, thick] = [strings.get(numbers[0] ?? -1), strings.get(numbers.at(-1) ?? -1)];
  if (sign === undefined || thin === undefined || thick === undefined || numbers.length < 2) return;
  if ((sign === ">") !== thick > thin)
    complaints.push(`string ${numbers.at(-1)} stands on the wrong side: the sheet says "${statement}"`);
}
