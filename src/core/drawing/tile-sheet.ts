/** The sheets of a tiled drawing: each tile with its own rules and print check, its name, its neighbours and its place. */
import { heightOf, overlapArea, type PagePoint, type PageRect, rectAround, unite, widthOf } from "./geometry.ts";
import { sceneHoles } from "./holes.ts";
import { lineMark, type Mark, type MarkGroup, rectMark, type TextMeasure, textBox, textMark, thin } from "./marks.ts";
import { factorsFor, type Orientation, type SheetPaper, sheetPaper } from "./paper.ts";
import { moved, type Turn, toPage } from "./placing.ts";
import { presentScene } from "./present.ts";
import {
  type DrawingSheet,
  drawingRoom,
  drillLine,
  furniture,
  type LayoutSetting,
  type PageDraft,
  pageOf,
} from "./sheet.ts";
import { registrationMarks } from "./symbols.ts";
import { OVERLAP_MM, type Tile, type Tiling, tile } from "./tiles.ts";

interface TilePlan {
  readonly paper: SheetPaper;
  readonly turn: Turn;
  readonly room: PageRect;
  readonly tiling: Tiling;
}

/** The plan with the fewest sheets. */
function planTiles(sheet: DrawingSheet, setting: LayoutSetting): TilePlan {
  const orientations: Orientation[] = sheet.orientation ? [sheet.orientation] : ["portrait", "landscape"];
  const turns: Turn[] = sheet.turn === undefined ? [0, 90] : [sheet.turn];
  const plans = orientations.flatMap((orientation) =>
    turns.map((turn): TilePlan => {
      const paper = sheetPaper(sheet.paper, orientation, factorsFor(orientation, sheet.printFactors));
      const room = drawingRoom(paper, sheet.scene, drillLine(sheet.scene, setting.units) !== undefined);
      const placing = { view: sheet.scene.view, turn, origin: { right: 0, down: 0 }, scale: 1 };
      const { bounds } = presentScene(sheet.scene, { placing, ...setting });
      const keepClear = sceneHoles(sheet.scene).map((one) => toPage(placing, one.centre));
      return {
        paper,
        turn,
        room,
        tiling: tile({ content: bounds, widthMm: widthOf(room), heightMm: heightOf(room), keepClear }),
      };
    }),
  );
  return plans.reduce((best, plan) => (plan.tiling.tiles.length < best.tiling.tiles.length ? plan : best));
}

export function tileSheets(sheet: DrawingSheet, setting: LayoutSetting): PageDraft[] {
  const plan = planTiles(sheet, setting);
  const drill = drillLine(sheet.scene, setting.units);
  return plan.tiling.tiles.map((one) => (number) => {
    const { paper, turn, room } = plan;
    const by = { right: room.left - one.window.left, down: room.top - one.window.top };
    const placing = moved({ view: sheet.scene.view, turn, origin: { right: 0, down: 0 }, scale: 1 }, by);
    const { groups } = presentScene(sheet.scene, { placing, ...setting });
    const windows = plan.tiling.tiles.map(({ window }) => movedRect(window, by));
    const seen = groups
      .filter((group) => isShown(group, room, windows, setting.measure))
      .map((group) => ({ ...group, clip: room }));
    const named = {
      ...sheet,
      id: `${sheet.id}-${one.name}`,
      fields: { ...sheet.fields, title: `${sheet.fields.title}, tile ${one.name}` },
    };
    return pageOf(named, paper, turn, [
      ...furniture({ sheet: named, paper, turn, number, ...(drill === undefined ? {} : { drill }) }, setting),
      ...seen,
      ...joinGroups(one, room, by),
      placeInWhole(plan.tiling, one, room, { behind: sheet.scene.view === "behind", drilled: drill !== undefined }),
    ]);
  });
}

/** Whatever reaches into the window; but lettering and symbols that another tile shows whole are not shown cut. */
function isShown(group: MarkGroup, room: PageRect, windows: readonly PageRect[], measure: TextMeasure): boolean {
  const box = unite(group.marks.map((mark) => boundsOf(mark, measure)));
  const whole = (window: PageRect) =>
    box.left >= window.left && box.right <= window.right && box.top >= window.top && box.bottom <= window.bottom;
  if (["label", "datum", "note"].includes(group.role) && !whole(room) && windows.some(whole)) return false;
  // Lines have boxes without area, so a little is added before asking.
  const grown = { left: box.left - 0.5, top: box.top - 0.5, right: box.right + 0.5, bottom: box.bottom + 0.5 };
  return overlapArea(grown, room) > 0;
}

function movedRect(rect: PageRect, by: PagePoint): PageRect {
  return {
    left: rect.left + by.right,
    top: rect.top + by.down,
    right: rect.right + by.right,
    bottom: rect.bottom + by.down,
  };
}

function boundsOf(mark: Mark, measure: TextMeasure): PageRect {
  if (mark.kind === "text") return textBox(mark, measure);
  if (mark.kind === "circle") return rectAround([mark.centre], mark.radiusMm);
  return rectAround(
    mark.path.flatMap((segment) =>
      segment.to === "close" ? [] : segment.to === "curve" ? [segment.first, segment.second, segment.at] : [segment.at],
    ),
  );
}

/** Crosses, trim lines and the names of the neighbours. */
function joinGroups(one: Tile, room: PageRect, by: { right: number; down: number }): MarkGroup[] {
  const crosses = one.crosses.map(({ name, at }): MarkGroup => {
    const centre = { right: at.right + by.right, down: at.down + by.down };
    const label = textMark({ right: centre.right + 2.2, down: centre.down - 1.8 }, name, {
      heightMm: 2.2,
      weight: "bold",
    });
    return {
      id: `cross-${name}`,
      role: "registration",
      title: `joining cross ${name}`,
      clip: room,
      marks: [...registrationMarks(centre), label],
    };
  });
  const dashed = { widthMm: 0.25, dashMm: [3, 1.5] };
  const half = OVERLAP_MM / 2;
  const { left, right, up, down } = one.neighbours;
  const [middleDown, middleRight] = [(room.top + room.bottom) / 2, (room.left + room.right) / 2];
  const marks: Mark[] = [rectMark(room, { stroke: thin(0.18) })];
  const says = (text: string, at: { right: number; down: number }, turnDegrees: number) =>
    marks.push(textMark(at, text, { heightMm: 2, anchor: "middle", weight: "bold", turnDegrees }));
  if (right) {
    marks.push(
      lineMark({ right: room.right - half, down: room.top }, { right: room.right - half, down: room.bottom }, dashed),
    );
    says(`trim here, lay on ${right}, crosses on crosses`, { right: room.right - 1.5, down: middleDown }, 90);
  }
  if (down) {
    marks.push(
      lineMark({ right: room.left, down: room.bottom - half }, { right: room.right, down: room.bottom - half }, dashed),
    );
    says(`trim here, lay on ${down}, crosses on crosses`, { right: middleRight, down: room.bottom - 1.5 }, 0);
  }
  if (left) says(`joins ${left}`, { right: room.left + 3.5, down: middleDown }, 90);
  if (up) says(`joins ${up}`, { right: middleRight, down: room.top + 3.5 }, 0);
  return [...crosses, { id: "joins", role: "tile-joins", title: "edges shared with neighbours", marks }];
}

/** Small plan of all tiles with this one filled, and its name large, at the right end of the view band. */
function placeInWhole(
  tiling: Tiling,
  one: Tile,
  room: PageRect,
  { behind, drilled }: { behind: boolean; drilled: boolean },
): MarkGroup {
  const cell = Math.min(10 / tiling.rows, 6);
  const width = Math.min(24 / tiling.columns, cell * 1.4);
  const left = room.right - 3 - tiling.columns * width;
  const top = room.top - (behind ? 16 : 12) - (drilled ? 6 : 0) + (behind ? 2 : 0.5);
  const marks: Mark[] = [];
  if (behind)
    marks.push(
      rectMark({ left: left - 17, top: top - 0.7, right: room.right - 2, bottom: top + 10.7 }, { fill: "paper" }),
    );
  for (const other of tiling.tiles) {
    const box = {
      left: left + other.column * width,
      top: top + other.row * cell,
      right: left + (other.column + 1) * width,
      bottom: top + (other.row + 1) * cell,
    };
    marks.push(rectMark(box, other.name === one.name ? { stroke: thin(0.25), fill: "ink" } : { stroke: thin(0.25) }));
  }
  marks.push(textMark({ right: left - 2, down: top + 8 }, one.name, { heightMm: 6, weight: "bold", anchor: "end" }));
  return {
    id: "tile-place",
    role: "tile-place",
    title: `tile ${one.name} of ${tiling.rows} rows and ${tiling.columns} columns`,
    marks,
  };
}
