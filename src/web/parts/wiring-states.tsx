/** The states of a wiring: what sounds, phase, level, peak, hum, and the ohms to be read; on a phone a block each. */
import { createMemo, createSignal, For, Show } from "solid-js";
import type { StateReport, WiringReport } from "../../core/index.ts";
import type { Desk } from "../state/desk.ts";
import { ohmsRead, ohmsText } from "../state/wiring-edit.ts";
import {
  humInWords,
  kilohms,
  levelInWords,
  limitsInWords,
  peakInWords,
  phaseInWords,
  wantedInstead,
} from "../state/wiring-words.ts";
import { WiringMark } from "./wiring-mark.tsx";

/** Written behind the figure for the person; not part of what was typed. */
const METER = " (meter)";

interface StatesProps {
  readonly desk: Desk;
  readonly report: WiringReport;
  readonly chosen: string | undefined;
  readonly onChoose: (id: string) => void;
}

export function WiringStates(props: StatesProps) {
  const [shown, setShown] = createSignal(false);
  const ids = createMemo(() => props.report.states.map(({ id }) => id));
  return (
    <section aria-labelledby="states-title">
      <h2 id="states-title">What sounds in each state</h2>
      <label class="show-ohms">
        <input type="checkbox" checked={shown()} onChange={(event) => setShown(event.currentTarget.checked)} /> Show the
        expected ohms before they are read
      </label>
      <table class="states">
        <thead>
          <tr>
            <th scope="col">State</th>
            <th scope="col">What sounds</th>
            <th scope="col">Peak</th>
            <th scope="col">Level</th>
            <th scope="col">
              Hum <small>50 / 150 Hz</small>
            </th>
            <th scope="col">Ohms at the jack</th>
          </tr>
        </thead>
        <tbody>
          <For each={ids()}>
            {(id) => (
              <Show when={props.report.states.find((state) => state.id === id)}>
                {(state) => <StateRow {...props} state={state()} shown={shown()} />}
              </Show>
            )}
          </For>
        </tbody>
      </table>
    </section>
  );
}

function StateRow(props: StatesProps & { readonly state: StateReport; readonly shown: boolean }) {
  const hum = () => humInWords(props.state);
  return (
    <tr classList={{ chosen: props.state.id === props.chosen }}>
      <th scope="row">
        <button type="button" class="quiet" onClick={() => props.onChoose(props.state.id)}>
          {props.state.title}
          <span class="visually-hidden"> in full</span>
        </button>
      </th>
      <td class="sounds">
        <Sounds report={props.report} state={props.state} />
      </td>
      <td>
        <span class="label">Peak</span> {peakInWords(props.state)}
      </td>
      <td>
        <span class="label">Level</span> {levelInWords(props.state)}
      </td>
      <td>
        <span class="label">Hum</span> {hum().word} <small class="figure">{hum().figures}</small>
      </td>
      <td class="ohms">
        <span class="label">Ohms at the jack</span>
        <Ohms desk={props.desk} state={props.state} shown={props.shown} />
      </td>
    </tr>
  );
}

export function Sounds(props: { readonly report: WiringReport; readonly state: StateReport }) {
  const phase = () => phaseInWords(props.state);
  return (
    <>
      {props.state.sound}
      <Show when={phase()}>
        {(words) => (
          <Show when={words().wrong} fallback={<small>, {words().words}</small>}>
            {" "}
            <WiringMark grade="fault" words={words().words} />
          </Show>
        )}
      </Show>
      <Show when={wantedInstead(props.report, props.state)}>
        {(wanted) => <small class="wanted">wanted: {wanted()}</small>}
      </Show>
    </>
  );
}

/** What is to be read, hidden until it is; who knows the answer reads the answer. */
export function ExpectedOhms(props: { readonly state: StateReport; readonly shown: boolean }) {
  return (
    <Show when={props.shown || props.state.reading}>
      <span class="expected">
        expected <span class="figure">{kilohms(props.state.ohms.ohms)}</span>{" "}
        <small class="figure">({limitsInWords(props.state.ohms)})</small>
      </span>
    </Show>
  );
}

function Ohms(props: { readonly desk: Desk; readonly state: StateReport; readonly shown: boolean }) {
  const [typed, setTyped] = createSignal("");
  const [wrong, setWrong] = createSignal("");
  const field = () => `ohms-${props.state.id}`;
  const keep = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (typed().trim() === "") return;
    const { desk, state } = props;
    const changes = ohmsRead(desk.fold(), state.id, typed(), new Date().toISOString());
    const refused = await desk.writeIfRead(`read ohms, ${state.title}: ${ohmsText(typed())}`, ...changes);
    setWrong(refused ? `${refused.problem.replace(METER, "")}. ${refused.remedy}.` : "");
    if (!refused) setTyped("");
  };
  return (
    <>
      <Show when={props.state.reading}>
        {(reading) => (
          <span class="read-ohms" role="status">
            <span class="figure">{kilohms(reading().ohms)}</span>{" "}
            <WiringMark grade={reading().agrees ? "agrees" : "differs"} />
          </span>
        )}
      </Show>
      <ExpectedOhms state={props.state} shown={props.shown} />
      <form onSubmit={(event) => void keep(event)}>
        <label class="visually-hidden" for={field()}>
          Ohms read in {props.state.title}, kΩ
        </label>
        <input
          id={field()}
          type="text"
          inputmode="decimal"
          autocomplete="off"
          maxlength="40"
          size="6"
          value={typed()}
          aria-invalid={wrong() !== ""}
          aria-describedby={wrong() === "" ? undefined : `${field()}-wrong`}
          onInput={(event) => {
            setTyped(event.currentTarget.value);
            setWrong("");
          }}
        />
        <span class="unit" aria-hidden="true">
          kΩ
        </span>
        <button type="submit" aria-label={`Keep the ohms of ${props.state.title}`}>
          Keep
        </button>
      </form>
      <Show when={wrong() !== ""}>
        <p class="wrong" role="alert" id={`${field()}-wrong`}>
          {wrong()}
        </p>
      </Show>
    </>
  );
}
