/** A scene alone, without a sheet round it: for the screen. The page is as large as the drawing. */
import type { LengthUnit } from "../quantity/index.ts";
import { heightOf, widthOf } from "./geometry.ts";
import type { Page, TextMeasure } from "./marks.ts";
import { type Turn, viewStatement } from "./placing.ts";
import { presentScene } from "./present.ts";
import type { Scene } from "./scene.ts";

export interface SceneFigureOptions {
  readonly measure: TextMeasure;
  readonly units?: LengthUnit;
  readonly turn?: Turn;
  /** Page mm per frame mm; sizes of text and lines stay. */
  readonly scale?: number;
  readonly marginMm?: number;
}

export function sceneFigure(scene: Scene, options: SceneFigureOptions): Page {
  const { measure, units = "mm", turn = 0, scale = 1, marginMm = 4 } = options;
  const at = (right: number, down: number) =>
    presentScene(scene, { placing: { view: scene.view, turn, origin: { right, down }, scale }, units, measure });
  const { bounds } = at(0, 0);
  const shown = at(marginMm - bounds.left, marginMm - bounds.top);
  return {
    id: scene.id,
    title: scene.title,
    description: `${scene.title}, ${viewStatement(scene.frame, scene.view, turn)}`,
    widthMm: widthOf(bounds) + 2 * marginMm,
    heightMm: heightOf(bounds) + 2 * marginMm,
    factors: { across: 1, down: 1 },
    groups: shown.groups,
  };
}
