/** What keeps its size at any zoom: names, dimensions with their figures to press, and the call-out where it binds. */
import { createMemo, For, Show } from "solid-js";
import type { Item, Scene } from "../../core/drawing/index.ts";
import { mm, showFigure } from "../../core/quantity/index.ts";
import type { EditableDimension, MarkingOut } from "../../core/sheets/index.ts";
import {
  type DimensionLine,
  dimensionLine,
  type Lettering,
  lookedAt,
  type Px,
  type sightsOf,
  toScreen,
  type View,
  withoutOverlap,
} from "../state/marking-view.ts";
import { units } from "../state/settings.ts";

const FEWEST_PX = 34;

interface Dimensioned extends Lettering {
  readonly one: EditableDimension;
  readonly line: DimensionLine;
}

/** The dimensions of what is looked at, in so far as they find room. */
export function shownDimensions(sheet: MarkingOut, sights: ReturnType<typeof sightsOf>, view: View): Dimensioned[] {
  const of = lookedAt(sheet, sights, view);
  const wanted = sheet.dimensions.flatMap((one): Dimensioned[] => {
    const line = one.of === of || (of === "whole" && one.id === "plate-place") ? dimensionLine(view, one) : undefined;
    if (!line) return [];
    const text = showFigure(mm(one.valueMm, 1), units());
    // A diameter is shorter than its figure: it stands beside the line.
    const small = line.seenPx < text.length * 8 + 10;
    if (small && (of === "whole" || line.seenPx < 12)) return [];
    if (!small && line.seenPx < FEWEST_PX) return [];
    const at = small ? { left: line.middle.left, top: line.middle.top - 16 } : line.middle;
    return [{ id: one.id, text, at, one, line }];
  });
  return withoutOverlap(wanted, view);
}

export function DimensionLines(props: { readonly shown: readonly Dimensioned[] }) {
  return (
    <For each={props.shown}>
      {({ line }) => (
        <path
          class="dimension"
          d={`${segment(line.from, line.lineFrom)}${segment(line.to, line.lineTo)}${segment(line.lineFrom, line.lineTo)}${tick(line.lineFrom)}${tick(line.lineTo)}`}
        />
      )}
    </For>
  );
}

function segment(a: Px, b: Px): string {
  return `M${a.left.toFixed(1)} ${a.top.toFixed(1)}L${b.left.toFixed(1)} ${b.top.toFixed(1)}`;
}

/** The slanting stroke that ends a dimension line. */
function tick({ left, top }: Px): string {
  return segment({ left: left - 4, top: top + 4 }, { left: left + 4, top: top - 4 });
}

export function DimensionFigures(props: {
  readonly shown: readonly Dimensioned[];
  readonly onPress: (one: EditableDimension) => void;
}) {
  return (
    <For each={props.shown}>
      {({ one, at, text }) => (
        <button
          type="button"
          class="dimension-figure"
          classList={{ assumed: one.quantity.known && one.quantity.origin === "assumed" && one.edit.by === "reading" }}
          style={{ left: `${at.left}px`, top: `${at.top}px` }}
          aria-label={`${one.what}: ${text}. Change it`}
          title={one.what}
          onClick={() => props.onPress(one)}
        >
          {text}
        </button>
      )}
    </For>
  );
}

/** Names of strings, routs, lines and, from near, of holes. */
export function Names(props: {
  readonly sheet: MarkingOut;
  readonly view: View;
  readonly taken: readonly Lettering[];
}) {
  const names = createMemo(() => withoutOverlap(namesOf(props.sheet, props.view), props.view, props.taken));
  return (
    <For each={names()}>
      {(name) => (
        <text class="name" x={name.at.left} y={name.at.top + 4} text-anchor="middle">
          {name.text}
        </text>
      )}
    </For>
  );
}

const NAMED_HOLE_PX = 18;
const NAME_LETTER_PX = 6.5;

function namesOf({ scene }: MarkingOut, view: View): Lettering[] {
  return scene.items.flatMap((item): Lettering[] => {
    const { id, label } = item;
    if (typeof label !== "string") return [];
    const at = nameAt(item, scene, view);
    return at ? [{ id, text: label, at: withinSheet(at, label, view), letterPx: NAME_LETTER_PX }] : [];
  });
}

function nameAt({ id, label, geometry, labelAt }: Item, scene: Scene, view: View): Px | undefined {
  const across = view.turn === "across";
  if (geometry.kind === "hole" || (geometry.kind === "circle" && labelAt !== "none")) {
    const wide = geometry.diameterMm * view.scale;
    if (id.startsWith("plug-") || (geometry.kind === "hole" && wide < NAMED_HOLE_PX)) return undefined;
    const at = toScreen(view, geometry.centre);
    return { left: at.left, top: at.top + wide / 2 + 13 };
  }
  if (labelAt === "none") return undefined;
  if (geometry.kind === "line" && id.startsWith("string-")) {
    const at = toScreen(view, geometry.from);
    const shift = String(label).length * 4 + 8;
    return across ? { left: at.left - shift, top: at.top } : { left: at.left, top: at.top - 12 };
  }
  if (geometry.kind === "line") {
    const at = toScreen(view, geometry.to);
    // The centre line ends at the tail, the others at their side.
    const on = id === "centre" ? across : !across;
    return on ? { left: at.left, top: at.top - 9 } : { left: at.left, top: at.top + (across ? -9 : 12) };
  }
  if (geometry.kind !== "outline" || !id.startsWith("cavity-")) return undefined;
  const ears = scene.items.find((one) => one.id === `${id}-ears`)?.geometry;
  const corners = [...geometry.corners, ...(ears?.kind === "outline" ? ears.corners : [])];
  const xs = geometry.corners.map(({ x }) => x);
  const at = toScreen(view, { x: (Math.min(...xs) + Math.max(...xs)) / 2, y: Math.min(...corners.map(({ y }) => y)) });
  return across ? { left: at.left, top: at.top + 12 } : { left: at.left - String(label).length * 3.3 - 8, top: at.top };
}

/** A name at the rim comes in far enough to be read whole. */
function withinSheet({ left, top }: Px, text: string, { width, height }: View): Px {
  const half = (text.length * NAME_LETTER_PX) / 2 + 4;
  const near = left > -half && left < width + half && top > -10 && top < height + 10;
  return near
    ? { left: Math.min(width - half, Math.max(half, left)), top: Math.min(height - 9, Math.max(9, top)) }
    : { left, top };
}

export interface CallOutProps {
  readonly view: View;
  /** Where it binds, and the other side of the wood where it is a wall. */
  readonly at: { readonly x: number; readonly y: number };
  readonly to?: { readonly x: number; readonly y: number };
  readonly lines: readonly string[];
  /** Behind it there is room for words. */
  readonly rear: { readonly x: number; readonly y: number } | undefined;
}

/** A ring round the place that binds, and the words on a line led away from it. */
export function CallOut(props: CallOutProps) {
  const at = () => toScreen(props.view, props.at);
  const width = () => Math.max(...props.lines.map((line) => line.length)) * 7.2 + 16;
  const box = () => {
    const { left, top } = at();
    const { width: wide, height: tall, turn } = props.view;
    const high = props.lines.length * 19 + 10;
    const rear = props.rear && toScreen(props.view, props.rear);
    const put = (x: number, y: number) => ({
      x: Math.max(8, Math.min(x, wide - width() - 8)),
      y: Math.max(8, Math.min(y, tall - high - 8)),
      high,
    });
    if (rear && turn === "across" && rear.left + BEHIND_PX + width() < wide)
      return put(rear.left + BEHIND_PX, top - 70);
    if (rear && turn === "down" && rear.top + BEHIND_PX + high < tall)
      return put(left - width() / 2, rear.top + BEHIND_PX);
    return put(
      left + 46 + width() < wide ? left + 46 : left - 46 - width(),
      top - 60 - high > 8 ? top - 60 - high : top + 50,
    );
  };
  const lead = () => {
    const { x, y, high } = box();
    const { left, top } = at();
    const corner = { left: x + width() / 2 < left ? x + width() : x, top: y + high / 2 > top ? y : y + high };
    const apart = Math.max(1, Math.hypot(corner.left - left, corner.top - top));
    const start = {
      left: left + ((corner.left - left) / apart) * RING_PX,
      top: top + ((corner.top - top) / apart) * RING_PX,
    };
    return segment(start, corner);
  };
  return (
    <g class="call-out">
      <circle cx={at().left} cy={at().top} r={RING_PX} />
      <Show when={props.to}>{(to) => <path class="wood" d={segment(at(), toScreen(props.view, to()))} />}</Show>
      <path d={lead()} />
      <rect x={box().x} y={box().y} width={width()} height={box().high} />
      <For each={props.lines}>
        {(line, index) => (
          <text x={box().x + 8} y={box().y + 19 + index() * 19} class={index() === 0 ? "first" : ""}>
            {line}
          </text>
        )}
      </For>
    </g>
  );
}

const RING_PX = 13;
const BEHIND_PX = 84;
