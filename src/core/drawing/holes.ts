/**
 * What a scene says about its holes, in the forms the bench needs: groups that share a drill and a stop, a table of
 * places, and a marking-out list for working without a printed template.
 */
import { type Figure, mm } from "../quantity/index.ts";
import { ROLES, type Role, styleOf, TO_DRILL } from "./roles.ts";
import type { HoleDepth, HoleShape, Item, Scene } from "./scene.ts";
import type { Cell, Table } from "./table.ts";

export interface SceneHole extends HoleShape {
  readonly id: string;
  readonly mark: string;
  readonly role: Role;
  readonly label?: Item["label"];
  /** Place from the scene's datum. */
  readonly fromDatum: { readonly x: number; readonly y: number };
}

/** Holes in the order in which they are listed: to drill first, then the rest. */
export function sceneHoles(scene: Scene): SceneHole[] {
  const holes = scene.items.flatMap((item): SceneHole[] => {
    const { geometry } = item;
    if (geometry.kind !== "hole") return [];
    const { kind: _, ...shape } = geometry;
    const fromDatum = { x: shape.centre.x - scene.datum.at.x, y: shape.centre.y - scene.datum.at.y };
    const base = { ...shape, id: item.id, mark: item.mark ?? item.id, role: item.role, fromDatum };
    return [item.label === undefined ? base : { ...base, label: item.label }];
  });
  const rank = (role: Role) => -ROLES.indexOf(role);
  return holes
    .map((hole, index) => ({ hole, index }))
    .sort((a, b) => rank(a.hole.role) - rank(b.hole.role) || a.index - b.index)
    .map(({ hole }) => hole);
}

export interface DrillGroup {
  readonly role: Role;
  readonly diameterMm: number;
  readonly bit?: "not settled";
  readonly depthMm: HoleDepth;
  readonly datum: string;
  readonly marks: readonly string[];
}

/** Holes still to be made, by drill and stop: one big call-out each. */
export function drillGroups(scene: Scene): DrillGroup[] {
  const groups = new Map<string, DrillGroup & { marks: string[] }>();
  for (const hole of sceneHoles(scene)) {
    if (!TO_DRILL.includes(hole.role)) continue;
    const key = [hole.role, hole.diameterMm.toFixed(4), hole.bit ?? "", String(hole.depthMm), hole.datum].join("|");
    const group = groups.get(key);
    if (group) group.marks.push(hole.mark);
    else
      groups.set(key, {
        role: hole.role,
        diameterMm: hole.diameterMm,
        ...(hole.bit === undefined ? {} : { bit: hole.bit }),
        depthMm: hole.depthMm,
        datum: hole.datum,
        marks: [hole.mark],
      });
  }
  return [...groups.values()];
}

/** "H1–H5", "H1, H3": runs of consecutive marks drawn together. */
export function markRuns(marks: readonly string[]): string {
  const runs: { first: string; last: string; next: string }[] = [];
  for (const mark of marks) {
    const [, letters = "", digits] = /^(\D*)(\d+)$/.exec(mark) ?? [];
    const next = digits === undefined ? "" : `${letters}${Number(digits) + 1}`;
    const run = runs.at(-1);
    if (run && run.next === mark) Object.assign(run, { last: mark, next });
    else runs.push({ first: mark, last: mark, next });
  }
  return runs.map(({ first, last }) => (first === last ? first : `${first}–${last}`)).join(", ");
}

/** Places, sizes and depths of every hole, counted from the datum. */
export function holeTable(scene: Scene): Table {
  const [x, y] = scene.frame.axes;
  const rows = sceneHoles(scene).map((hole): Cell[] => [
    hole.mark,
    mm(hole.fromDatum.x),
    mm(hole.fromDatum.y),
    mm(hole.diameterMm),
    depthCell(hole.depthMm),
    hole.datum,
    hole.bit === undefined ? styleOf(hole.role).says : `${styleOf(hole.role).says}, bit ${hole.bit}`,
  ]);
  return {
    columns: [
      { head: "hole", align: "text", bold: true },
      { head: x, unit: "mm", align: "figure" },
      { head: y, unit: "mm", align: "figure" },
      { head: "⌀", unit: "mm", align: "figure" },
      { head: "depth", unit: "mm", align: "figure" },
      { head: "from", align: "text" },
      { head: "what", align: "text" },
    ],
    rows,
  };
}

export function depthCell(depthMm: HoleDepth): Figure | string {
  return typeof depthMm === "number" ? mm(depthMm, tenths(depthMm)) : depthMm;
}

/** Where the words stand alone, without a head "depth" over them. */
export function depthInWords(depthMm: Exclude<HoleDepth, number>): string {
  return depthMm === "through" ? depthMm : `depth ${depthMm}`;
}

/** Decimals that a size needs: tenths, or hundredths where tenths would not say it. */
export function tenths(valueMm: number): 1 | 2 {
  return Math.abs(valueMm * 10 - Math.round(valueMm * 10)) < 1e-6 ? 1 : 2;
}

export interface MarkingOutOptions {
  /** Only these roles; the holes still to be made unless given. */
  readonly roles?: readonly Role[];
}

/**
 * Marking out without a printer: every place as two running dimensions from the datum, in the order in which a rule
 * laid along x meets them, with a tick for "marked" and one for "checked".
 */
export function markingOutTable(scene: Scene, { roles = TO_DRILL }: MarkingOutOptions = {}): Table {
  const [x, y] = scene.frame.axes;
  const holes = sceneHoles(scene)
    .filter((hole) => roles.includes(hole.role))
    .sort((a, b) => a.fromDatum.x - b.fromDatum.x || a.fromDatum.y - b.fromDatum.y);
  return {
    columns: [
      { head: "hole", align: "text", bold: true },
      { head: `${x} from datum`, unit: "mm", align: "figure", bold: true },
      { head: `${y} from centre line`, unit: "mm", align: "figure", bold: true },
      { head: "⌀", unit: "mm", align: "figure" },
      { head: "stop", unit: "mm", align: "figure" },
      { head: "marked", align: "tick" },
      { head: "checked", align: "tick" },
    ],
    rows: holes.map((hole): Cell[] => [
      hole.mark,
      mm(hole.fromDatum.x),
      mm(hole.fromDatum.y),
      hole.bit ?? mm(hole.diameterMm),
      depthCell(hole.depthMm),
      undefined,
      undefined,
    ]),
  };
}
