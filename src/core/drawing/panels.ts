/** What stands beside the drawing on a sheet: drill call-outs, the table of holes, notes, and the key of line kinds. */
import { mm, type Phrase, say } from "../quantity/index.ts";
import type { PagePoint } from "./geometry.ts";
import { hatchOutlines } from "./hatch.ts";
import { type DrillGroup, depthCell, drillGroups, holeTable, markRuns, tenths } from "./holes.ts";
import { lineMark, type Mark, rectMark, textMark, thin } from "./marks.ts";
import { fitted, lineMarks, type Run, runsOfFigure, type TextSetting, textBlock, widthOfRuns } from "./rich-text.ts";
import { dashPattern, ROLES, type Role, styleOf } from "./roles.ts";
import type { Scene, Words } from "./scene.ts";
import { shifted } from "./shift.ts";
import { circleStroke, holeMarks, registerEnds } from "./symbols.ts";
import { layTable } from "./table.ts";

export interface PanelBlock {
  readonly id: string;
  readonly role: string;
  readonly title: string;
  readonly marks: readonly Mark[];
  readonly heightMm: number;
  /** What it takes of the width offered, where it may take less. */
  readonly widthMm?: number;
}

const BIG_MM = 8;
const CALLOUT_HEIGHT_MM = 20;
const GAP_MM = 2;
const TABLE_TEXT_MM = 2;
const NOTE_TEXT_MM = 2.1;

/** One box a drill and stop, figures big enough for arm's length, as many to a row as fit. */
export function calloutBlock(scene: Scene, widthMm: number, setting: TextSetting): PanelBlock | undefined {
  const groups = drillGroups(scene);
  if (groups.length === 0) return undefined;
  const perRow = widthMm > 150 ? 2 : 1;
  const boxWidth = (widthMm - (perRow - 1) * GAP_MM) / perRow;
  const marks = groups.flatMap((group, index) => {
    const right = (index % perRow) * (boxWidth + GAP_MM);
    const down = Math.floor(index / perRow) * (CALLOUT_HEIGHT_MM + GAP_MM);
    return shifted(calloutMarks(group, boxWidth, setting), right, down);
  });
  const rows = Math.ceil(groups.length / perRow);
  return {
    id: "drill-callouts",
    role: "callout",
    title: "drill sizes and stops",
    marks,
    heightMm: rows * CALLOUT_HEIGHT_MM + (rows - 1) * GAP_MM,
  };
}

function calloutMarks(group: DrillGroup, widthMm: number, setting: TextSetting): Mark[] {
  const { measure } = setting;
  const count = group.marks.length;
  const head = fitted(
    `${markRuns(group.marks)}  ·  ${count} ${count === 1 ? "hole" : "holes"}  ·  ${styleOf(group.role).says}`,
    2.4,
    "bold",
    widthMm - 4,
    measure,
  );
  const marks: Mark[] = [
    rectMark({ left: 0, top: 0, right: widthMm, bottom: CALLOUT_HEIGHT_MM }, { stroke: thin(0.5) }),
    textMark({ right: 2, down: 4.4 }, head.text, { heightMm: head.heightMm, weight: "bold" }),
  ];
  const baseline = CALLOUT_HEIGHT_MM - 2.2;
  const stop = widthMm * 0.46;
  const add = (left: number, room: number, says: string, words: Phrase | string) => {
    const label = fitted(says, 1.9, "bold", room, measure);
    const runs = bigRuns(words, room, setting);
    marks.push(
      textMark({ right: left, down: baseline - BIG_MM - 1.3 }, label.text, {
        heightMm: label.heightMm,
        weight: "bold",
      }),
    );
    marks.push(...lineMarks({ runs, widthMm: 0 }, { right: left, down: baseline }, measure));
  };
  add(2, stop - 4, group.bit ? "DRILL BIT" : "DRILL", group.bit ?? [mm(group.diameterMm, tenths(group.diameterMm))]);
  const through = group.depthMm === "through";
  add(
    stop,
    widthMm - stop - 2,
    `${through ? "DEPTH" : "SET THE STOP"}, from ${group.datum}`,
    typeof group.depthMm === "number" ? [depthCell(group.depthMm)] : group.depthMm,
  );
  return marks;
}

/** A figure in large type with its unit small, as large as the room allows; words somewhat smaller. */
function bigRuns(words: Phrase | string, roomMm: number, { units, measure }: TextSetting): Run[] {
  const part = words[0];
  if (typeof words === "string" || typeof part === "string" || part === undefined) {
    const line = fitted(String(words), BIG_MM * 0.6, "bold", roomMm, measure);
    return [{ text: line.text, heightMm: line.heightMm, weight: "bold" }];
  }
  const runs = runsOfFigure(part, { heightMm: BIG_MM, weight: "bold" }, units).map((run, index) =>
    index === 0 ? run : { ...run, heightMm: 2.6 },
  );
  const shrink = Math.min(1, roomMm / widthOfRuns(runs, measure));
  return runs.map((run) => ({ ...run, heightMm: run.heightMm * shrink }));
}

/** The same call-outs as one line, for tiles. */
export function calloutLines(scene: Scene): Phrase[] {
  return drillGroups(scene).map(({ marks, diameterMm, bit, depthMm }) => {
    const drill = bit ?? mm(diameterMm, tenths(diameterMm));
    return depthMm === "through"
      ? say`${markRuns(marks)}: DRILL ${drill} through`
      : say`${markRuns(marks)}: DRILL ${drill} STOP ${depthCell(depthMm)}`;
  });
}

export function holeTableBlock(scene: Scene, widthMm: number, setting: TextSetting): PanelBlock | undefined {
  const table = holeTable(scene);
  if (table.rows.length === 0) return undefined;
  const laid = layTable(table, widthMm, TABLE_TEXT_MM, setting);
  const marks: Mark[] = [...laid.head.marks];
  let down = laid.head.heightMm;
  for (const row of laid.rows) {
    marks.push(...shifted(row.marks, 0, down));
    down += row.heightMm;
  }
  return {
    id: "hole-table",
    role: "table",
    title: "places of the holes from the datum",
    marks,
    heightMm: down,
    widthMm: laid.widthMm,
  };
}

export function notesBlock(notes: readonly Words[], widthMm: number, setting: TextSetting): PanelBlock | undefined {
  if (notes.length === 0) return undefined;
  const marks: Mark[] = [];
  let down = 0;
  for (const note of notes) {
    const block = textBlock(note, { heightMm: NOTE_TEXT_MM }, widthMm - 3, setting);
    marks.push({
      kind: "circle",
      centre: { right: 0.9, down: down + NOTE_TEXT_MM * 0.75 },
      radiusMm: 0.45,
      fill: "ink",
    });
    marks.push(...shifted(block.marks, 3, down));
    down += block.heightMm + 0.8;
  }
  return { id: "notes", role: "notes", title: "notes", marks, heightMm: down };
}

const KEY_SAMPLE_MM = 9;
const KEY_ROW_MM = 4.6;
const KEY_HOLE_RADIUS_MM = 1.3;
/** Arms of a key symbol stop inside its row. */
const KEY_ARM_MM = 2;

/** Key of the line kinds and hole symbols that this scene uses. */
export function keyBlock(scene: Scene, widthMm: number, setting: TextSetting): PanelBlock | undefined {
  const used = ROLES.filter(
    (role) => role !== "dimension" && role !== "note" && scene.items.some((item) => item.role === role),
  );
  const columns = Math.max(1, Math.floor(widthMm / 33));
  const rows = Math.ceil(used.length / columns);
  if (rows === 0) return undefined;
  const columnMm = widthMm / columns;
  const marks = used.flatMap((role, index) => {
    const sample = sampleMarks(role, isHoleRole(scene, role));
    const text = fitted(styleOf(role).says, 1.9, "regular", columnMm - KEY_SAMPLE_MM - 4, setting.measure);
    const label = textMark({ right: KEY_SAMPLE_MM + 2, down: KEY_ROW_MM / 2 + 0.95 }, text.text, {
      heightMm: text.heightMm,
    });
    return shifted([...sample, label], Math.floor(index / rows) * columnMm, (index % rows) * KEY_ROW_MM);
  });
  return { id: "key", role: "key", title: "key of lines and symbols", marks, heightMm: rows * KEY_ROW_MM };
}

function isHoleRole(scene: Scene, role: Role): boolean {
  return scene.items.some((item) => item.role === role && item.geometry.kind === "hole");
}

function sampleMarks(role: Role, isHole: boolean): Mark[] {
  const style = styleOf(role);
  const middle: PagePoint = { right: KEY_SAMPLE_MM / 2, down: KEY_ROW_MM / 2 };
  if (isHole) return holeMarks(middle, KEY_HOLE_RADIUS_MM, style, KEY_ARM_MM - KEY_HOLE_RADIUS_MM);
  const stroke = { widthMm: style.widthMm, dashMm: dashPattern(style.line, style.widthMm) };
  if (role === "register line") {
    const [a, b] = [
      { right: 2.5, down: middle.down },
      { right: KEY_SAMPLE_MM - 2.5, down: middle.down },
    ];
    return [lineMark(a, b, stroke), ...registerEnds(a, b)];
  }
  if (style.hatch === "none")
    return [lineMark({ right: 0, down: middle.down }, { right: KEY_SAMPLE_MM, down: middle.down }, stroke)];
  const box = { left: 1, top: 0.7, right: KEY_SAMPLE_MM - 1, bottom: KEY_ROW_MM - 0.7 };
  const ring: PagePoint[] = [
    { right: box.left, down: box.top },
    { right: box.right, down: box.top },
    { right: box.right, down: box.bottom },
    { right: box.left, down: box.bottom },
  ];
  return [...hatchOutlines([ring], style.hatch), rectMark(box, { stroke: circleStroke(style, 2) })];
}
