/** Marking-out: the instrument true to scale, on which values are changed, the plate is moved and distances are taken. */
import { createMemo, createSignal, For, Show } from "solid-js";
import { type Job, markingOut } from "../../core/index.ts";
import { mm, say } from "../../core/quantity/index.ts";
import type { EditableDimension, MarkingOut as Sheet } from "../../core/sheets/index.ts";
import { DimensionSlip } from "../parts/dimension-slip.tsx";
import { DimensionTable } from "../parts/dimension-table.tsx";
import { MarkingDrawing } from "../parts/marking-drawing.tsx";
import { MarkingKey } from "../parts/marking-key.tsx";
import { MeasurePanel, type MeasureState } from "../parts/marking-measure.tsx";
import { Readout } from "../parts/marking-readout.tsx";
import { Words } from "../parts/phrase.tsx";
import type { Desk } from "../state/desk.ts";
import { createPlateHand, type PlateHand } from "../state/marking-plate.ts";
import { createSight } from "../state/marking-sight.ts";
import "../style/marking-out.css";

export function MarkingOut(props: { readonly desk: Desk }) {
  return <Show when={props.desk.job()}>{(job) => <Marking desk={props.desk} job={job()} />}</Show>;
}

function Marking(props: { readonly desk: Desk; readonly job: Job }) {
  const sheet = createMemo(() => markingOut(props.job, props.desk.verdicts()));
  const sight = createSight(sheet);
  const hand = createPlateHand(props.desk, () => props.job, sheet);
  const [pressed, setPressed] = createSignal<EditableDimension>();
  const [measuring, setMeasuring] = createSignal(false);
  const [measured, setMeasured] = createSignal<MeasureState>({});
  const openMeasure = (open: boolean): void => {
    setMeasuring(open);
    if (!open) setMeasured({});
  };
  return (
    <main class="marking" aria-labelledby="marking-title">
      <h1 id="marking-title">Marking-out</h1>
      <div class="marking-bar">
        <button type="button" onClick={() => sight.lookAt("whole")}>
          Whole instrument
        </button>
        <Show when={sheet().bridge !== sheet().whole}>
          <button type="button" onClick={() => sight.lookAt("bridge")}>
            The bridge
          </button>
        </Show>
        <LookAt sight={sight} />
        <span class="zoom">
          <button type="button" aria-label="Smaller" onClick={() => sight.zoom(1 / 1.4)}>
            −
          </button>
          <button type="button" aria-label="Larger" onClick={() => sight.zoom(1.4)}>
            +
          </button>
        </span>
        <button type="button" aria-pressed={measuring()} onClick={() => openMeasure(!measuring())}>
          Measure between two points
        </button>
      </div>
      <Show when={measuring()}>
        <MeasurePanel
          points={sheet().points}
          state={measured()}
          onChange={setMeasured}
          onClose={() => openMeasure(false)}
        />
      </Show>
      <Show when={hand.trial()}>
        {(trial) => (
          <Readout
            trial={trial()}
            from={hand.dimension()?.what.replace(/ to the plate's front edge$/, "") ?? ""}
            placeMm={hand.fromDatum(hand.placeMm())}
            window={{
              minMm: hand.fromDatum(sheet().plate?.window.minMm ?? 0),
              maxMm: hand.fromDatum(sheet().plate?.window.maxMm ?? 0),
            }}
            moving={hand.moving()}
            onNudge={(by) => hand.move(hand.placeMm() + by, true)}
          />
        )}
      </Show>
      <Choice sheet={sheet()} job={props.job} hand={hand} />
      <MarkingDrawing
        job={props.job}
        sheet={sheet()}
        sight={sight}
        hand={hand}
        measuring={measuring()}
        measured={measured()}
        onMeasured={setMeasured}
        onDimension={setPressed}
        onEscape={() => openMeasure(false)}
      />
      <Show when={sheet().left.length > 0}>
        <p class="after">Not drawn, because not measured: {sheet().left.join(", ")}.</p>
      </Show>
      <DimensionTable dimensions={sheet().dimensions} onPress={setPressed} />
      <MarkingKey scene={sheet().scene} />
      <Show when={pressed()}>
        {(dimension) => (
          <DimensionSlip desk={props.desk} dimension={dimension()} onClose={() => setPressed(undefined)} />
        )}
      </Show>
    </main>
  );
}

function LookAt(props: { readonly sight: ReturnType<typeof createSight> }) {
  const { sight } = props;
  return (
    <label class="look-at">
      Look at{" "}
      <select
        onChange={(event) => {
          sight.lookAt(event.currentTarget.value);
          event.currentTarget.value = "";
        }}
      >
        <option value="">a rout or a hole …</option>
        <optgroup label="Routs">
          <For each={sight.sights().routs}>{({ id, name }) => <option value={id}>{name}</option>}</For>
        </optgroup>
        <optgroup label="Holes">
          <For each={sight.sights().holes}>{({ id, name }) => <option value={id}>{name}</option>}</For>
        </optgroup>
      </select>
    </label>
  );
}

/** Whose place it is: the owner's, or the search's; and what became of one that the papers do not go by. */
function Choice(props: { readonly sheet: Sheet; readonly job: Job; readonly hand: PlateHand }) {
  const wished = () => props.sheet.plate?.wishedMm;
  const own = () => props.job.instrument.bridge?.chosenPlace.known === true && props.sheet.plate !== undefined;
  return (
    <Show when={own()}>
      <p class="choice">
        <Show when={wished()} fallback="You put the plate here.">
          {(at) => (
            <Words
              of={say`You put the front edge at ${mm(props.hand.fromDatum(at()), 1)} (drawn with broken lines). That place cannot be kept as well as this one, so the papers go by ${mm(props.hand.fromDatum(props.sheet.plate?.placeMm ?? 0), 1)}.`}
            />
          )}
        </Show>{" "}
        <button type="button" class="quiet" onClick={() => void props.hand.leaveToSearch()}>
          Leave the place to the search
        </button>
      </p>
    </Show>
  );
}
