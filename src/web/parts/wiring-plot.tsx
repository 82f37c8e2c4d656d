/** Curves on a logarithmic scale of frequency, drawn by hand: line types and labels tell them apart, no colour. */
import { createMemo, createSignal, For, Index, onCleanup, Show } from "solid-js";
import {
  CURVE_LINES,
  curvePath,
  FLOOR_DB,
  labelHeights,
  NARROW_PLOT,
  type Plot,
  type ShownLine,
  TOP_DB,
  WIDE_PLOT,
  xOf,
  yOf,
} from "../state/wiring-curves.ts";

const LINE_WIDTH = 2;
const LABEL_APART = 17;
const LONGEST_LABEL = 10;
const FREQUENCIES = [20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000];
const WORDS_AT: Readonly<Record<number, string>> = { 20: "20", 100: "100", 1000: "1 k", 10000: "10 k" };
const LEVELS = [20, 10, 0, -10, -20, -30, -40, -50, -60];

function dashes(slot: number): string {
  return CURVE_LINES[slot] ?? "";
}

export function LineSample(props: { readonly slot: number }) {
  return (
    <svg class="line-sample" viewBox="0 0 76 10" width="76" height="10" aria-hidden="true">
      <path d="M0 5H76" stroke-dasharray={dashes(props.slot)} />
    </svg>
  );
}

export function CurvePlot(props: { readonly lines: readonly ShownLine[] }) {
  const narrow = matchMedia("(max-width: 40rem)");
  const [plot, setPlot] = createSignal<Plot>(narrow.matches ? NARROW_PLOT : WIDE_PLOT);
  const change = () => setPlot(narrow.matches ? NARROW_PLOT : WIDE_PLOT);
  narrow.addEventListener("change", change);
  onCleanup(() => narrow.removeEventListener("change", change));
  const drawn = createMemo(() => {
    const lines = props.lines.map((line) => ({ ...line, ...curvePath(plot(), line.line.curve) }));
    const foot = plot().height - plot().bottom;
    const heights = labelHeights(
      lines.map(({ end }) => end?.y ?? foot),
      LABEL_APART,
      foot,
    );
    return lines.map((line, index) => ({ ...line, labelY: heights[index] ?? foot }));
  });
  const spoken = () =>
    props.lines.length === 0
      ? "No curve is chosen"
      : `Response from 20 Hz to 20 kHz of ${props.lines.map(({ title }) => title).join(", ")}; the peaks stand below in words`;
  return (
    <svg class="curve-plot" viewBox={`0 0 ${plot().width} ${plot().height}`} role="img" aria-label={spoken()}>
      <Grid plot={plot()} />
      <Index each={drawn()}>{(line) => <OneCurve plot={plot()} line={line()} />}</Index>
    </svg>
  );
}

interface DrawnLine extends ShownLine {
  readonly path: string;
  readonly end?: { readonly x: number; readonly y: number };
  readonly labelY: number;
}

function OneCurve(props: { readonly plot: Plot; readonly line: DrawnLine }) {
  const peak = () => {
    const { peak: highest } = props.line.line.curve;
    return highest && highest.dB > FLOOR_DB ? highest : undefined;
  };
  const margin = () => props.plot.width - props.plot.right;
  return (
    <g class="curve" data-state={props.line.id}>
      <path class="line" d={props.line.path} stroke-width={LINE_WIDTH} stroke-dasharray={dashes(props.line.slot)} />
      <Show when={peak()}>
        {(highest) => (
          <circle
            cx={xOf(props.plot, highest().frequencyHz)}
            cy={yOf(props.plot, Math.min(TOP_DB, highest().dB))}
            r="4"
          />
        )}
      </Show>
      <Show when={props.line.end}>
        {(end) => <path class="leader" d={`M${end().x} ${end().y}L${margin() + 10} ${props.line.labelY}`} />}
      </Show>
      <text x={margin() + 13} y={props.line.labelY + 4}>
        {props.line.title.length <= LONGEST_LABEL ? props.line.title : props.line.id}
      </text>
    </g>
  );
}

function Grid(props: { readonly plot: Plot }) {
  const right = () => props.plot.width - props.plot.right;
  const foot = () => props.plot.height - props.plot.bottom;
  return (
    <g class="grid">
      <For each={FREQUENCIES}>
        {(frequency) => (
          <>
            <path
              classList={{ strong: frequency in WORDS_AT }}
              d={`M${xOf(props.plot, frequency)} ${props.plot.top}V${foot()}`}
            />
            <text x={xOf(props.plot, frequency)} y={foot() + 16} text-anchor="middle">
              {WORDS_AT[frequency] ?? ""}
            </text>
          </>
        )}
      </For>
      <For each={LEVELS}>
        {(level) => (
          <>
            <path classList={{ strong: level === 0 }} d={`M${props.plot.left} ${yOf(props.plot, level)}H${right()}`} />
            <text x={props.plot.left - 6} y={yOf(props.plot, level) + 4} text-anchor="end">
              {level % 20 === 0 ? String(level).replace("-", "−") : ""}
            </text>
          </>
        )}
      </For>
      <text x={right() + 4} y={foot() + 16}>
        Hz
      </text>
      <text x={props.plot.left + 4} y={props.plot.top + 14}>
        dB
      </text>
    </g>
  );
}
