/** Measure between any two points: pressed on the drawing, or chosen from the lists. */
import { For, Show } from "solid-js";
import { mm } from "../../core/quantity/index.ts";
import { type MarkPoint, measureBetween } from "../../core/sheets/index.ts";
import { type Snapped, toScreen, type View } from "../state/marking-view.ts";
import { Reading } from "./phrase.tsx";

export interface MeasureState {
  readonly from?: Snapped;
  readonly to?: Snapped;
}

export function MeasurePanel(props: {
  readonly points: readonly MarkPoint[];
  readonly state: MeasureState;
  readonly onChange: (state: MeasureState) => void;
  readonly onClose: () => void;
}) {
  const between = () =>
    props.state.from && props.state.to ? measureBetween(props.state.from, props.state.to) : undefined;
  const choose = (which: "from" | "to", id: string): void => {
    const point = props.points.find((one) => one.id === id);
    props.onChange({ ...props.state, [which]: point });
  };
  return (
    <section class="measure-panel" aria-label="Measure between two points">
      <p>Press two points on the drawing, or choose them here. A press takes hold of holes, ends, corners and edges.</p>
      <div class="row">
        <PointList name="From" points={props.points} chosen={props.state.from} onChoose={(id) => choose("from", id)} />
        <PointList name="To" points={props.points} chosen={props.state.to} onChoose={(id) => choose("to", id)} />
        <button type="button" onClick={() => props.onChange({})}>
          Clear
        </button>
        <button type="button" onClick={() => props.onClose()}>
          Put the rule away
        </button>
      </div>
      <div role="status">
        <Show when={between()} fallback={<p class="after">No distance yet.</p>}>
          {(found) => (
            <>
              <dl class="distances">
                <div>
                  <dt>Straight</dt>
                  <dd>
                    <Reading figure={mm(found().straightMm, 2, found().u?.straightMm)} />
                  </dd>
                </div>
                <div>
                  <dt>Along the strings</dt>
                  <dd>
                    <Reading figure={mm(found().alongMm, 2, found().u?.alongMm)} />
                  </dd>
                </div>
                <div>
                  <dt>Across</dt>
                  <dd>
                    <Reading figure={mm(found().acrossMm, 2, found().u?.acrossMm)} />
                  </dd>
                </div>
              </dl>
              <Show
                when={found().u}
                fallback={<p class="after">As drawn: how sure it is, is not known for one of these points.</p>}
              >
                <p class="after">One distance in twenty is further off than its ±.</p>
              </Show>
            </>
          )}
        </Show>
      </div>
    </section>
  );
}

function PointList(props: {
  readonly name: string;
  readonly points: readonly MarkPoint[];
  readonly chosen: Snapped | undefined;
  readonly onChoose: (id: string) => void;
}) {
  const id = () => props.points.find((one) => one === props.chosen)?.id ?? "";
  return (
    <label class="point-list">
      {props.name}
      <select value={id()} onChange={(event) => props.onChoose(event.currentTarget.value)}>
        <option value="">{props.chosen?.name ?? "not chosen"}</option>
        <For each={props.points}>{(point) => <option value={point.id}>{point.name}</option>}</For>
      </select>
    </label>
  );
}

/** The two points and the way between them. */
export function MeasureLine(props: {
  readonly view: View;
  readonly state: MeasureState;
  readonly hover: Snapped | undefined;
}) {
  const from = () => props.state.from && toScreen(props.view, props.state.from);
  const to = () => props.state.to && toScreen(props.view, props.state.to);
  const hover = () => props.hover && toScreen(props.view, props.hover);
  return (
    <g class="measure-line">
      <Show when={hover()}>{(at) => <circle class="hover" cx={at().left} cy={at().top} r="9" />}</Show>
      <Show when={from()}>{(at) => <circle cx={at().left} cy={at().top} r="7" />}</Show>
      <Show when={to()}>{(at) => <circle cx={at().left} cy={at().top} r="7" />}</Show>
      <Show when={from() && to()}>
        <path d={`M${from()?.left} ${from()?.top}L${to()?.left} ${to()?.top}`} />
      </Show>
    </g>
  );
}
