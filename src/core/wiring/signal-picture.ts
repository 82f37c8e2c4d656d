/**
 * The signal of one state drawn with the symbols of IEC 60617 (from memory): coils as rows of half circles, resistors as
 * rectangles, pots with an arrow for the wiper, capacitors as two bars, ground as a stroke with shrinking bars, joints as
 * dots. Left out: coils that are not heard, strays, cable and amplifier.
 */
import { type Mark, type MarkGroup, polygonMark, textMark, thin } from "../drawing/index.ts";
import type { CoilTree, Hop, SignalPart, SignalPlan } from "./signal-plan.ts";

const LINE = thin(0.35);
const TEXT_MM = 1.6;
const COIL_HIGH_MM = 15;
const COIL_WIDE_MM = 35;
const HUMP_MM = 1.6;
const ROW_GAP_MM = 12;
const SHUNT_MM = 22;
const TOP_MM = 17;
const EDGE_MM = 4;
const POT_MM = { long: 9, across: 3.6 } as const;

export interface SignalPicture {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly groups: readonly MarkGroup[];
}

/** @param about value in words of a pot or part, by its id */
export function signalPicture(plan: SignalPlan, title: string, about: ReadonlyMap<string, string>): SignalPicture {
  const marks: Mark[] = [];
  const drawn = new Set<string>();
  let [down, right] = [TOP_MM, 0];
  const ends: { x: number; y: number }[] = [];
  for (const row of plan.rows) {
    const high = Math.max(treeHigh(row.tree), 30);
    const base = down + high;
    const x = EDGE_MM + treeWide(row.tree) / 2;
    drawTree(row.tree, { x, top: down, base }, marks);
    groundAt(x, base, marks);
    let at = EDGE_MM + treeWide(row.tree) + 2;
    line(marks, [x, down], [at, down]);
    at = drawShunts(plan, row.node, { at, top: down, base }, { drawn, about, marks });
    for (const hop of row.hops) {
      at = drawHop(hop, plan.ground, { at, top: down, base }, about, marks);
      if (hop.to !== plan.output) at = drawShunts(plan, hop.to, { at, top: down, base }, { drawn, about, marks });
    }
    ends.push({ x: at, y: down });
    right = Math.max(right, at);
    down = base + ROW_GAP_MM;
  }
  const [first] = ends;
  const last = ends.at(-1);
  if (!first || !last) return { widthMm: 0, heightMm: 0, groups: [] };
  // Rows meet where the output is; what hangs on it is drawn once, on the first row.
  const meet = right + 4;
  for (const end of ends) line(marks, [end.x, end.y], [meet, end.y]);
  if (ends.length > 1) {
    line(marks, [meet, first.y], [meet, last.y]);
    for (const end of ends.slice(0, -1)) dot(marks, meet, end.y);
  }
  const base = first.y + Math.max(treeHigh(plan.rows[0]?.tree), 30);
  const out = drawShunts(plan, plan.output, { at: meet, top: first.y, base }, { drawn, about, marks });
  terminal(marks, out + 8, first.y, "tip");
  line(marks, [out, first.y], [out + 7, first.y]);
  terminal(marks, out + 8, base, "sleeve");
  line(marks, [out + 2, base], [out + 7, base]);
  groundAt(out + 2, base, marks);
  marks.push(textMark({ right: EDGE_MM, down: 5 }, title, { heightMm: 2, weight: "bold" }));
  return {
    widthMm: out + 22,
    heightMm: down - ROW_GAP_MM + 8,
    groups: [{ id: "signal", role: "signal", title, marks }],
  };
}

interface Span {
  readonly x: number;
  readonly top: number;
  readonly base: number;
}

function treeHigh(tree: CoilTree | undefined): number {
  if (!tree || tree.kind === "coil") return COIL_HIGH_MM;
  const parts = tree.parts.map(treeHigh);
  return tree.kind === "series" ? parts.reduce((sum, high) => sum + high, 0) : Math.max(...parts);
}

function treeWide(tree: CoilTree): number {
  if (tree.kind === "coil") return COIL_WIDE_MM;
  const parts = tree.parts.map(treeWide);
  return tree.kind === "series" ? Math.max(...parts) : parts.reduce((sum, wide) => sum + wide, 0);
}

function drawTree(tree: CoilTree, { x, top, base }: Span, marks: Mark[]): void {
  if (tree.kind === "coil") {
    drawCoil(tree, { x, top, base }, marks);
    return;
  }
  if (tree.kind === "series") {
    // From the ground up: the first part stands lowest.
    const whole = treeHigh(tree);
    let at = base;
    for (const part of tree.parts) {
      const high = (treeHigh(part) / whole) * (base - top);
      drawTree(part, { x, top: at - high, base: at }, marks);
      at -= high;
    }
    return;
  }
  let left = x - treeWide(tree) / 2;
  const middles = tree.parts.map((part) => {
    const middle = left + treeWide(part) / 2;
    drawTree(part, { x: middle, top, base }, marks);
    left += treeWide(part);
    return middle;
  });
  const [first, last] = [middles[0] ?? x, middles.at(-1) ?? x];
  for (const y of [top, base]) {
    line(marks, [first, y], [last, y]);
    for (const middle of middles.slice(1, -1)) dot(marks, middle, y);
  }
  dot(marks, x, base);
}

function drawCoil(tree: Extract<CoilTree, { kind: "coil" }>, { x, top, base }: Span, marks: Mark[]): void {
  const { coil, startBelow } = tree;
  const middle = (top + base) / 2;
  const [from, to] = [middle - 2 * 2 * HUMP_MM, middle + 2 * 2 * HUMP_MM];
  line(marks, [x, top], [x, from]);
  line(marks, [x, to], [x, base]);
  marks.push({ kind: "path", path: humps(x, from), stroke: LINE });
  const end = (lug: string) => lug.slice(lug.indexOf(".") + 1);
  const [above, below] = startBelow ? [coil.finish, coil.start] : [coil.start, coil.finish];
  marks.push(
    textMark({ right: x + 3, down: middle - 0.4 }, coil.name, { heightMm: TEXT_MM, weight: "bold" }),
    textMark({ right: x + 3, down: middle + 2.4 }, `${end(above)} up, ${end(below)} down`, { heightMm: 1.3 }),
    // A dot at the start, as for coupled coils.
    {
      kind: "circle",
      centre: { right: x - 2, down: startBelow ? to - 0.6 : from + 0.6 },
      radiusMm: 0.5,
      fill: "ink",
    },
  );
}

/** Four half circles downward, bulging to the right. */
function humps(x: number, from: number): Extract<Mark, { kind: "path" }>["path"] {
  const KAPPA = 0.5523;
  return [
    { to: "move", at: { right: x, down: from } },
    ...[0, 1, 2, 3].flatMap((index) => {
      const start = from + 2 * HUMP_MM * index;
      const [middle, end] = [start + HUMP_MM, start + 2 * HUMP_MM];
      return [
        {
          to: "curve" as const,
          first: { right: x + KAPPA * HUMP_MM, down: start },
          second: { right: x + HUMP_MM, down: middle - KAPPA * HUMP_MM },
          at: { right: x + HUMP_MM, down: middle },
        },
        {
          to: "curve" as const,
          first: { right: x + HUMP_MM, down: middle + KAPPA * HUMP_MM },
          second: { right: x + KAPPA * HUMP_MM, down: end },
          at: { right: x, down: end },
        },
      ];
    }),
  ];
}

interface Cursor {
  readonly at: number;
  readonly top: number;
  readonly base: number;
}

interface Drawing {
  readonly drawn: Set<string>;
  readonly about: ReadonlyMap<string, string>;
  readonly marks: Mark[];
}

/** Chains to ground at a node, each at its own place along the line. @returns where the line goes on */
function drawShunts(
  plan: SignalPlan,
  node: string,
  { at, top, base }: Cursor,
  { drawn, about, marks }: Drawing,
): number {
  if (drawn.has(node)) return at;
  drawn.add(node);
  let x = at;
  for (const chain of plan.shunts.get(node) ?? []) {
    const here = x + 8;
    line(marks, [x, top], [here, top]);
    dot(marks, here, top);
    const step = (base - top) / chain.length;
    chain.forEach((part, index) => {
      const from = top + index * step;
      drawUpright(part, { x: here, top: from, base: from + step }, about, marks);
    });
    groundAt(here, base, marks);
    x = here + SHUNT_MM - 8;
    line(marks, [here, top], [x, top]);
  }
  return x;
}

function drawUpright(
  part: SignalPart,
  { x, top, base }: Span,
  about: ReadonlyMap<string, string>,
  marks: Mark[],
): void {
  const middle = (top + base) / 2;
  if (part.kind === "capacitor") {
    line(marks, [x, top], [x, middle - 0.8]);
    line(marks, [x, middle + 0.8], [x, base]);
    for (const y of [middle - 0.8, middle + 0.8]) line(marks, [x - 2.5, y], [x + 2.5, y]);
  } else {
    const half = POT_MM.long / 2;
    line(marks, [x, top], [x, middle - half]);
    line(marks, [x, middle + half], [x, base]);
    box(marks, x, middle, POT_MM.across, POT_MM.long);
    if (part.kind === "pot") arrow(marks, [x - 4, middle + 3.4], [x + 3.6, middle - 3.4]);
  }
  label(part, x + 4.4, middle, about, marks);
}

/** @returns where the line goes on */
function drawHop(
  hop: Hop,
  ground: string,
  { at, top, base }: Cursor,
  about: ReadonlyMap<string, string>,
  marks: Mark[],
): number {
  const divider = hop.parts.find((part) => part.kind === "pot" && part.nodes.includes(ground));
  if (divider) return drawDivider(divider, hop, { at, top, base }, about, marks);
  const end = at + 26;
  const middle = (at + end) / 2;
  hop.parts.forEach((part, index) => {
    const y = top - 9 * index;
    if (index > 0) {
      for (const x of [at + 4, end - 4]) {
        line(marks, [x, top], [x, y]);
        dot(marks, x, top);
      }
    }
    const [from, to] = index === 0 ? [at, end] : [at + 4, end - 4];
    if (part.kind === "capacitor") {
      line(marks, [from, y], [middle - 0.8, y]);
      line(marks, [middle + 0.8, y], [to, y]);
      for (const x of [middle - 0.8, middle + 0.8]) line(marks, [x, y - 2.5], [x, y + 2.5]);
    } else {
      const half = POT_MM.long / 2;
      line(marks, [from, y], [middle - half, y]);
      line(marks, [middle + half, y], [to, y]);
      box(marks, middle, y, POT_MM.long, POT_MM.across);
      if (part.kind === "pot") arrow(marks, [middle - 3.4, y + 3.6], [middle + 3.4, y - 3.8]);
    }
    const words = [part.id, about.get(part.id) ?? ""].filter(Boolean).join(" ");
    marks.push(
      textMark({ right: middle, down: index === 0 ? y + 6.4 : y - 3.4 }, words, { heightMm: 1.4, anchor: "middle" }),
    );
  });
  return end;
}

/** A pot as a divider: from an end to the wiper, or from the wiper to an end, the other end at ground. */
function drawDivider(
  part: SignalPart,
  hop: Hop,
  { at, top, base }: Cursor,
  about: ReadonlyMap<string, string>,
  marks: Mark[],
): number {
  const x = at + 9;
  const middle = (top + base) / 2;
  const half = POT_MM.long / 2;
  line(marks, [x, top], [x, middle - half]);
  line(marks, [x, middle + half], [x, base]);
  box(marks, x, middle, POT_MM.across, POT_MM.long);
  groundAt(x, base, marks);
  const end = at + 26;
  if (part.wiper === hop.to) {
    line(marks, [at, top], [x, top]);
    dot(marks, x, top);
    arrow(marks, [x + 7, middle], [x + POT_MM.across / 2, middle]);
    line(marks, [x + 7, middle], [x + 7, top]);
    line(marks, [x + 7, top], [end, top]);
    label(part, x + 8, middle + 6, about, marks);
  } else {
    line(marks, [at, top], [at + 2, top]);
    line(marks, [at + 2, top], [at + 2, middle]);
    arrow(marks, [at + 2, middle], [x - POT_MM.across / 2, middle]);
    line(marks, [x, top], [end, top]);
    label(part, x + 4, middle, about, marks);
  }
  return end;
}

function label(part: SignalPart, right: number, down: number, about: ReadonlyMap<string, string>, marks: Mark[]): void {
  marks.push(textMark({ right, down: down - 0.3 }, part.id, { heightMm: 1.4 }));
  const words = about.get(part.id);
  if (words) marks.push(textMark({ right, down: down + 2.3 }, words, { heightMm: 1.3 }));
}

type Point = readonly [number, number];

function line(marks: Mark[], [x, y]: Point, [toX, toY]: Point): void {
  if (x === toX && y === toY) return;
  marks.push({
    kind: "path",
    path: [
      { to: "move", at: { right: x, down: y } },
      { to: "line", at: { right: toX, down: toY } },
    ],
    stroke: LINE,
  });
}

function box(marks: Mark[], x: number, y: number, wide: number, high: number): void {
  const corners = [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([sx = 0, sy = 0]) => ({ right: x + (sx * wide) / 2, down: y + (sy * high) / 2 }));
  marks.push(polygonMark(corners, { stroke: LINE, fill: "paper" }));
}

function arrow(marks: Mark[], from: Point, to: Point): void {
  line(marks, from, to);
  const angle = Math.atan2(to[1] - from[1], to[0] - from[0]);
  const side = (turn: number) => ({
    right: to[0] - 1.8 * Math.cos(angle + turn),
    down: to[1] - 1.8 * Math.sin(angle + turn),
  });
  marks.push(polygonMark([{ right: to[0], down: to[1] }, side(0.35), side(-0.35)], { fill: "ink" }));
}

function dot(marks: Mark[], x: number, y: number): void {
  marks.push({ kind: "circle", centre: { right: x, down: y }, radiusMm: 0.6, fill: "ink" });
}

function groundAt(x: number, y: number, marks: Mark[]): void {
  line(marks, [x, y], [x, y + 2]);
  [2.6, 1.6, 0.6].forEach((half, index) => {
    line(marks, [x - half, y + 2 + index], [x + half, y + 2 + index]);
  });
}

function terminal(marks: Mark[], x: number, y: number, words: string): void {
  marks.push(
    { kind: "circle", centre: { right: x, down: y }, radiusMm: 1, stroke: LINE, fill: "paper" },
    textMark({ right: x + 2.2, down: y + 0.7 }, words, { heightMm: TEXT_MM }),
  );
}
