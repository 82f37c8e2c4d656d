/** The response of the states chosen, and sliders to play with it: shafts, cable, input. Nothing is written to the job. */
import { createMemo, createSignal, For, Index, Show } from "solid-js";
import { stringGroups } from "../../core/circuit/index.ts";
import type { WiringReport } from "../../core/index.ts";
import {
  CABLE_PF,
  CURVE_LINES,
  curveMaker,
  INPUT_STEPS,
  inputAtStep,
  loadPlayed,
  type Played,
  type ShownLine,
  stepOfInput,
  turnsShown,
} from "../state/wiring-curves.ts";
import { decibelsInWords, faradsInWords, hertz, ohmsInWords, stringsInWords } from "../state/wiring-words.ts";
import { CurvePlot, LineSample } from "./wiring-plot.tsx";

const NOTHING_PLAYED: Played = { turns: {} };

/** A state in its line type; the place in the list is the line type. */
type Slots = readonly (string | undefined)[];

interface CurvesProps {
  readonly report: WiringReport;
  /** Drawn first. */
  readonly chosen: string | undefined;
}

export function WiringCurves(props: CurvesProps) {
  const [slots, setSlots] = createSignal<Slots>([props.chosen]);
  const [played, setPlayed] = createSignal<Played>(NOTHING_PLAYED);
  const groups = createMemo(() => stringGroups(props.report.facts.circuit.coils));
  const [group, setGroup] = createSignal(0);
  const string = () => (groups()[group()] ?? groups()[0])?.[0] ?? 1;
  const make = createMemo(() => curveMaker(props.report));
  const lines = createMemo((): ShownLine[] =>
    slots().flatMap((id, slot) => {
      const title = props.report.states.find((state) => state.id === id)?.title;
      const line = id === undefined || title === undefined ? undefined : make()(id, played(), string());
      return id === undefined || title === undefined || !line ? [] : [{ id, title, slot, line }];
    }),
  );
  const shown = () => slots().filter((id) => id !== undefined);
  return (
    <section class="curves" aria-labelledby="curves-title">
      <h2 id="curves-title">Curves to play with</h2>
      <p class="source">Electrical only, equal coils. Turn and try: nothing here changes the job.</p>
      <ShownStates report={props.report} slots={slots()} onSlots={setSlots} />
      <Show when={groups().length > 1}>
        <fieldset class="tools">
          <legend>Heard by</legend>
          <For each={groups()}>
            {(strings, index) => (
              <label>
                <input
                  type="radio"
                  name="curve-strings"
                  checked={group() === index()}
                  onChange={() => setGroup(index())}
                />{" "}
                {stringsInWords(strings)}
              </label>
            )}
          </For>
        </fieldset>
      </Show>
      <div class="play">
        <CurvePlot lines={lines()} />
        <ul class="peaks">
          <Index each={lines()}>{(line) => <li>{peakSentence(line())}</li>}</Index>
        </ul>
        <Sliders report={props.report} played={played()} shown={shown()} onPlay={setPlayed} />
      </div>
    </section>
  );
}

function peakSentence({ title, line: { curve, levelDb } }: ShownLine): string {
  if (decibelsInWords(levelDb) === "silent") return `${title}: silent.`;
  if (!curve.peak) return `${title}: no peak, level ${decibelsInWords(levelDb)}.`;
  const above = decibelsInWords(curve.peak.dB - levelDb).replace("+", "");
  return `${title}: peak at ${hertz(curve.peak.frequencyHz)}, ${decibelsInWords(curve.peak.dB)}, ${above} above its level.`;
}

interface ShownStatesProps {
  readonly report: WiringReport;
  readonly slots: Slots;
  readonly onSlots: (slots: Slots) => void;
}

function ShownStates(props: ShownStatesProps) {
  const full = () => props.slots.filter((id) => id !== undefined).length >= CURVE_LINES.length;
  const slotOf = (id: string) => props.slots.indexOf(id);
  const toggle = (id: string): void => {
    const next = Array.from({ length: CURVE_LINES.length }, (_, slot) => props.slots[slot]);
    const at = slotOf(id);
    next[at >= 0 ? at : next.indexOf(undefined)] = at >= 0 ? undefined : id;
    props.onSlots(next);
  };
  return (
    <fieldset class="shown-states">
      <legend>
        Curves of <small>at most {CURVE_LINES.length}, told apart by their line</small>
      </legend>
      <For each={props.report.states.map(({ id }) => id)}>
        {(id) => (
          <label>
            <input
              type="checkbox"
              checked={slotOf(id) >= 0}
              disabled={full() && slotOf(id) < 0}
              onChange={() => toggle(id)}
            />{" "}
            {props.report.states.find((state) => state.id === id)?.title}
            <Show when={slotOf(id) >= 0}>
              <LineSample slot={slotOf(id)} />
            </Show>
          </label>
        )}
      </For>
    </fieldset>
  );
}

interface SlidersProps {
  readonly report: WiringReport;
  readonly played: Played;
  /** States whose curves are drawn. */
  readonly shown: readonly string[];
  readonly onPlay: (played: Played) => void;
}

function Sliders(props: SlidersProps) {
  const load = () => loadPlayed(props.report, props.played);
  const turnsOf = (track: string) => turnsShown(props.report, props.played, track, props.shown);
  return (
    <fieldset class="sliders">
      <legend>Knobs, cable, input</legend>
      <For each={props.report.facts.circuit.tracks.map(({ id }) => id)}>
        {(track) => (
          <Slider
            label={track}
            min={0}
            max={10}
            step={0.1}
            value={turnsOf(track)[0] ?? 10}
            words={turnsOf(track)
              .map((turn) => turn.toFixed(1))
              .join(" / ")}
            onMove={(value) => props.onPlay({ ...props.played, turns: { ...props.played.turns, [track]: value } })}
          />
        )}
      </For>
      <Slider
        label="cable"
        min={CABLE_PF.least}
        max={CABLE_PF.most}
        step={CABLE_PF.step}
        value={load().cableFarads * 1e12}
        words={faradsInWords(load().cableFarads)}
        onMove={(cablePf) => props.onPlay({ ...props.played, cablePf })}
      />
      <Slider
        label="amplifier input"
        min={0}
        max={INPUT_STEPS}
        step={1}
        value={stepOfInput(load().inputOhms)}
        words={Number.isFinite(load().inputOhms) ? ohmsInWords(load().inputOhms) : "nothing plugged in"}
        onMove={(step) => props.onPlay({ ...props.played, inputOhms: inputAtStep(step) })}
      />
      <button type="button" class="quiet" onClick={() => props.onPlay(NOTHING_PLAYED)}>
        As the job says
      </button>
    </fieldset>
  );
}

interface SliderProps {
  readonly label: string;
  readonly min: number;
  readonly max: number;
  readonly step: number;
  readonly value: number;
  readonly words: string;
  readonly onMove: (value: number) => void;
}

function Slider(props: SliderProps) {
  return (
    <label class="slider">
      <span>{props.label}</span>
      <span class="figure" aria-hidden="true">
        {props.words}
      </span>
      <input
        type="range"
        aria-label={props.label}
        min={props.min}
        max={props.max}
        step={props.step}
        value={props.value}
        aria-valuetext={props.words}
        onInput={(event) => props.onMove(event.currentTarget.valueAsNumber)}
      />
    </label>
  );
}
