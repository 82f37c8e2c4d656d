/**
 * A page as SVG: width and height in mm, view box in mm, so that a browser shows and prints it true. Every thing on it
 * keeps its id and role; screen readers get titles. Ink is `currentColor` and paper has a class, so a page can turn it
 * to its night side without touching the drawing.
 */
import {
  CAPITAL_HEIGHT,
  type Mark,
  type MarkGroup,
  type Page,
  type Stroke,
  type TextMark,
} from "../core/drawing/index.ts";

export interface SvgOptions {
  /** Put before every id where several drawings stand on one page. */
  readonly idPrefix?: string;
}

interface Context {
  readonly across: number;
  readonly down: number;
  readonly id: (name: string) => string;
}

export function writeSvg(page: Page, { idPrefix = "" }: SvgOptions = {}): string {
  const context: Context = { ...page.factors, id: idMaker(idPrefix) };
  const [width, height] = [number(page.widthMm), number(page.heightMm)];
  const title = context.id(`${page.id}-title`);
  const description = context.id(`${page.id}-description`);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="${title} ${description}" color="#000" font-family="'DejaVu Sans', sans-serif" text-rendering="optimizeSpeed" xml:space="preserve">`,
    `<title id="${title}">${escapeText(page.title)}</title>`,
    `<desc id="${description}">${escapeText(page.description)}</desc>`,
    `<rect class="paper" width="${width}" height="${height}" fill="#fff"/>`,
    ...page.groups.map((group) => groupSvg(group, context)),
    "</svg>",
    "",
  ].join("\n");
}

function groupSvg(group: MarkGroup, context: Context): string {
  const id = context.id(group.id);
  const data = Object.entries(group.data ?? {}).map(
    ([key, value]) => ` data-${kebab(key)}="${escapeText(String(value))}"`,
  );
  const clip = group.clip ? context.id(`${group.id}-clip`) : undefined;
  const { left = 0, top = 0, right = 0, bottom = 0 } = group.clip ?? {};
  const { across, down } = context;
  const clipPath = clip
    ? `<clipPath id="${clip}"><rect x="${number(left * across)}" y="${number(top * down)}" width="${number((right - left) * across)}" height="${number((bottom - top) * down)}"/></clipPath>`
    : "";
  const title = group.title === undefined ? "" : `<title>${escapeText(group.title)}</title>`;
  const open = `<g id="${id}" data-id="${escapeText(group.id)}" data-role="${escapeText(group.role)}"${data.join("")}${clip ? ` clip-path="url(#${clip})"` : ""}>`;
  return `${open}${title}${clipPath}${group.marks.map((mark) => markSvg(mark, context)).join("")}</g>`;
}

function markSvg(mark: Mark, context: Context): string {
  const { across, down } = context;
  if (mark.kind === "text") return textSvg(mark, context);
  const paint = paintSvg(mark.stroke, mark.fill);
  if (mark.kind === "circle") {
    const place = `cx="${number(mark.centre.right * across)}" cy="${number(mark.centre.down * down)}"`;
    return across === down
      ? `<circle ${place} r="${number(mark.radiusMm * across)}"${paint}/>`
      : `<ellipse ${place} rx="${number(mark.radiusMm * across)}" ry="${number(mark.radiusMm * down)}"${paint}/>`;
  }
  const at = (point: { right: number; down: number }) => `${number(point.right * across)} ${number(point.down * down)}`;
  const d = mark.path
    .map((segment) => {
      if (segment.to === "close") return "Z";
      if (segment.to === "curve") return `C${at(segment.first)} ${at(segment.second)} ${at(segment.at)}`;
      return `${segment.to === "move" ? "M" : "L"}${at(segment.at)}`;
    })
    .join("");
  return `<path d="${d}"${paint}/>`;
}

function textSvg(mark: TextMark, { across, down }: Context): string {
  const size = (mark.heightMm / CAPITAL_HEIGHT) * Math.min(across, down);
  const [x, y] = [number(mark.at.right * across), number(mark.at.down * down)];
  const anchor = mark.anchor === "start" ? "" : ` text-anchor="${mark.anchor}"`;
  const weight = mark.weight === "bold" ? ' font-weight="700"' : "";
  const turn = mark.turnDegrees === 0 ? "" : ` transform="rotate(${number(-mark.turnDegrees)} ${x} ${y})"`;
  const ink = mark.ink === "ink" ? ' fill="currentColor"' : ' class="paper" fill="#fff"';
  // Some browsers do not hand the root's word on spaces down to its texts.
  const spaces = /^\s|\s$|\s\s/.test(mark.text) ? ' xml:space="preserve"' : "";
  return `<text x="${x}" y="${y}" font-size="${number(size)}"${anchor}${weight}${turn}${ink}${spaces}>${escapeText(mark.text)}</text>`;
}

function paintSvg(stroke: Stroke | undefined, fill: "ink" | "paper" | undefined): string {
  const inside =
    fill === "ink" ? ' fill="currentColor"' : fill === "paper" ? ' class="paper" fill="#fff"' : ' fill="none"';
  if (stroke === undefined) return inside;
  const dash = stroke.dashMm.length === 0 ? "" : ` stroke-dasharray="${stroke.dashMm.map(number).join(" ")}"`;
  return `${inside} stroke="${stroke.colour ?? "currentColor"}" stroke-width="${number(stroke.widthMm)}"${dash}`;
}

/** Ids in the letters that XML allows, each once. */
function idMaker(prefix: string): (name: string) => string {
  const seen = new Map<string, number>();
  return (name) => {
    const base = `${prefix}${name}`.replace(/[^A-Za-z0-9_.-]/g, "_").replace(/^(?![A-Za-z_])/, "_");
    const count = (seen.get(base) ?? 0) + 1;
    seen.set(base, count);
    return count === 1 ? base : `${base}-${count}`;
  };
}

/** To a tenth of a micrometre, without trailing noughts. */
function number(value: number): string {
  return String(Math.round(value * 1e4) / 1e4 || 0);
}

function kebab(key: string): string {
  return key.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
}

function escapeText(text: string): string {
  return text.replace(
    /[&<>"']/g,
    (letter) => ({ "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" })[letter] ?? letter,
  );
}
