/** The readings a step asks for. What was expected is shown only when it is in: who knows the answer reads the answer. */
import { createSignal, For, Show } from "solid-js";
import { gateReadings } from "../../core/index.ts";
import { type AskedReading, type TakenReading, viewReading } from "../../core/plan/index.ts";
import { showPhrase } from "../../core/quantity/index.ts";
import type { NextReading } from "../../core/verdict/index.ts";
import { lastOperation } from "../state/bench-work.ts";
import type { Desk } from "../state/desk.ts";
import { addReading } from "../state/readings.ts";
import { units } from "../state/settings.ts";
import { MeasureSlip } from "./measure-slip.tsx";
import { Words } from "./phrase.tsx";

/** The readings that hold, as gates see them. */
export function takenOf(desk: Desk): TakenReading[] {
  const job = desk.job();
  return job ? gateReadings(job) : [];
}

interface ReadingsProps {
  readonly desk: Desk;
  readonly readings: readonly AskedReading[];
}

export function StepReadings(props: ReadingsProps) {
  const [measuring, setMeasuring] = createSignal<AskedReading>();
  return (
    <Show when={props.readings.length > 0}>
      <section class="step-readings" aria-label="Readings of this step">
        <h3>Read, and keep</h3>
        <ul>
          <For each={props.readings}>
            {(asked) => <OneReading desk={props.desk} asked={asked} onMeasure={() => setMeasuring(asked)} />}
          </For>
        </ul>
        <Show when={measuring()}>
          {(asked) => (
            <MeasureSlip
              desk={props.desk}
              reading={asNext(asked())}
              placing={`${asked().subject} ${new Date().toISOString()}`}
              onClose={() => setMeasuring(undefined)}
            />
          )}
        </Show>
      </section>
    </Show>
  );
}

function asNext({ subject, what, tool, how }: AskedReading): NextReading {
  return { path: subject, what: showPhrase(what), tool, how: showPhrase(how), minutes: 2, settles: "" };
}

interface OneProps {
  readonly desk: Desk;
  readonly asked: AskedReading;
  readonly onMeasure: () => void;
}

function OneReading(props: OneProps) {
  const view = () => viewReading(props.asked, takenOf(props.desk));
  const again = () => props.asked.twice && view().taken.length > 0 && !view().complete;
  const confirm = (): void => {
    const { desk, asked } = props;
    const after = lastOperation(desk.fold());
    const reading = {
      of: asked.subject,
      value: "1",
      at: new Date().toISOString(),
      ...(after === undefined ? {} : { after }),
    };
    void desk.writeIfRead(`confirmed: ${showPhrase(asked.what)}`, ...addReading(desk.fold(), reading));
  };
  return (
    <li classList={{ in: view().complete, odd: view().within === false }}>
      <p>
        <b>
          <Words of={props.asked.what} />
        </b>
        <Show when={props.asked.answer === "value"}>
          <small>
            {" "}
            {props.asked.tool}
            {props.asked.twice ? ", twice: lift the tool and lay it again between the two" : ""}
          </small>
        </Show>
      </p>
      <p class="how">
        <Words of={props.asked.how} />
      </p>
      <Show when={props.asked.answer === "value" && view().taken.length > 0}>
        <p class="taken">
          Read:{" "}
          <For each={view().taken}>
            {(one, index) => (
              <>
                {index() > 0 ? ", " : ""}
                <Words of={[{ value: one.value, unit: props.asked.unit, digits: 2 }]} />
              </>
            )}
          </For>
          <Show when={view().expected}>
            {(expected) => (
              <small>
                {" "}
                expected{" "}
                <Words
                  of={[
                    { value: expected().value, unit: props.asked.unit, digits: 2 },
                    " ± ",
                    { value: expected().tolerance, unit: props.asked.unit, digits: 2 },
                  ]}
                />
              </small>
            )}
          </Show>
        </p>
      </Show>
      <Show when={view().taken.length > 0 && view().problem}>
        {(problem) => (
          <p class="wrong" role="status">
            {showPhrase(problem(), units())}. It is kept; read again, or see what changed.
          </p>
        )}
      </Show>
      <Show
        when={props.asked.answer === "confirm"}
        fallback={
          <button type="button" class={view().complete ? "" : "main"} onClick={() => props.onMeasure()}>
            {again() ? "Read again" : view().complete ? "Read once more" : "Enter the reading"}
          </button>
        }
      >
        <button type="button" disabled={view().complete} onClick={confirm}>
          {view().complete ? "Confirmed" : "Confirm"}
        </button>
      </Show>
    </li>
  );
}
