/**
 * Reads holes back from a DXF file by its conventions (docs/spec/paper.md), sharing no code with the writer: circles
 * that carry extended data "id=", "mark=", "depth=", "datum=", and the bar of 100 mm.
 */
import { type DxfEntity, parseDxf } from "./dxf-parser.ts";

export interface DxfHole {
  readonly id: string;
  readonly mark: string;
  readonly layer: string;
  readonly x: number;
  readonly y: number;
  readonly diameterMm: number;
  readonly depth: number | "through";
  readonly datum: string;
  /** What the text beside the circle says. */
  readonly text: string;
}

export interface RecoveredDxf {
  readonly holes: readonly DxfHole[];
  readonly barMm: number;
  readonly unit: unknown;
  readonly notes: readonly string[];
  readonly complaints: readonly string[];
}

export function recoverDxf(source: string): RecoveredDxf {
  const { entities, header } = parseDxf(source);
  const texts = entities.filter(({ type }) => type === "TEXT");
  const holes = entities
    .filter(({ type, extendedData }) => type === "CIRCLE" && extendedData !== undefined)
    .map((one) => holeOf(one, texts));
  const bar = entities
    .filter(({ type, layer }) => type === "LINE" && layer === "SCALE-BAR")
    .map(({ vertices: [a, b] = [] }) => (a && b ? Math.hypot(b.x - a.x, b.y - a.y) : 0));
  const barMm = Math.max(...bar);
  const notes = texts.filter(({ layer }) => layer === "SCALE-BAR").map(({ text = "" }) => text);
  const complaints: string[] = [];
  if (Math.abs(barMm - 100) > 1e-6) complaints.push(`the bar is ${barMm} mm`);
  const statement = notes.find((text) => /^seen from/i.test(text)) ?? "";
  checkDatum(entities, /behind/i.test(statement), complaints);
  return { holes, barMm, unit: header.$INSUNITS, notes, complaints };
}

/** Arms of the datum: 20 mm along x, 12 mm along y. y is a left turn from x, unless the file shows the back. */
function checkDatum(entities: readonly DxfEntity[], behind: boolean, complaints: string[]): void {
  const arms = entities
    .filter(({ type, layer }) => type === "LINE" && layer === "DATUM")
    .map(({ vertices: [a, b] = [] }) => (a && b ? { x: b.x - a.x, y: b.y - a.y } : { x: 0, y: 0 }));
  const arm = (length: number) => arms.find(({ x, y }) => Math.abs(Math.hypot(x, y) - length) < 1e-6);
  const [long, short] = [arm(20), arm(12)];
  if (!long || !short) {
    complaints.push("no datum arms of 20 and 12 mm");
    return;
  }
  if (long.x * short.y - long.y * short.x > 0 === behind) complaints.push("the drawing is mirrored");
}

function holeOf({ center, radius = 0, layer, extendedData }: DxfEntity, texts: readonly DxfEntity[]): DxfHole {
  if (!center) throw new Error("circle without a centre");
  // The writer's library ends each string with a space or drops one: the data itself has none at its ends.
  const data = new Map(extendedData?.customStrings.map((one) => one.trim().split("=") as [string, string]));
  const depth = data.get("depth") ?? "";
  const mark = data.get("mark") ?? "";
  const beside = texts.find(({ text = "", layer: on }) => on === `${layer}-TEXT` && text.startsWith(`${mark} `));
  return {
    id: data.get("id") ?? "",
    mark,
    layer,
    x: center.x,
    y: center.y,
    diameterMm: 2 * radius,
    depth: depth === "through" ? depth : Number(depth),
    datum: data.get("datum") ?? "",
    text: beside?.text ?? "",
  };
}
