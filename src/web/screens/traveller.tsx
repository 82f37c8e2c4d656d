/** The traveller: the steps in order, one in hand; what it wants before it may start, and what is read while it is done. */
import { createEffect, createMemo, createSignal, For, Show } from "solid-js";
import type { Gate, Step } from "../../core/plan/index.ts";
import { Words } from "../parts/phrase.tsx";
import { ScreenLit } from "../parts/screen-lit.tsx";
import { StepInHand } from "../parts/step-in-hand.tsx";
import { StepMark, type StepState } from "../parts/step-mark.tsx";
import type { Desk } from "../state/desk.ts";
import { goTo, route, toSheet } from "../state/route.ts";
import { gatesOn, travellerOn } from "../state/steps.ts";
import "../style/traveller.css";

export function TravellerSheet(props: { readonly desk: Desk }) {
  const steps = () => travellerOn(props.desk)?.steps ?? [];
  const done = () => (props.desk.job()?.parsed.file.record?.done ?? {}) as Readonly<Record<string, string>>;
  const stateOf = (step: Step): StepState => stepState(step, done(), gatesOn(props.desk).get(step.id));
  const next = createMemo(() => steps().find((step) => stateOf(step) !== "done"));
  const chosen = () => {
    const here = route();
    return here.at === "job" && here.rest !== "" ? here.rest : next()?.id;
  };
  const step = createMemo(() => steps().find(({ id }) => id === chosen()) ?? next() ?? steps()[0]);
  const at = () => steps().findIndex(({ id }) => id === step()?.id);
  const [listed, setListed] = createSignal(false);
  const choose = (id: string | undefined): void => {
    const job = props.desk.jobId();
    if (id === undefined || job === undefined) return;
    setListed(false);
    goTo(toSheet(job, "traveller", id));
  };
  createEffect(() => {
    step();
    scrollTo(0, 0);
  });
  return (
    <main class="traveller" classList={{ listed: listed() }} aria-labelledby="traveller-title">
      <header>
        <h1 id="traveller-title">Traveller</h1>
        <ScreenLit />
      </header>
      <nav class="step-list" aria-label="All steps">
        <p class="summary">
          {steps().filter((one) => stateOf(one) === "done").length} of {steps().length} steps done
        </p>
        <ol>
          <For each={steps()}>
            {(one) => (
              <li>
                <button
                  type="button"
                  class="quiet"
                  aria-current={one.id === step()?.id ? "step" : undefined}
                  onClick={() => choose(one.id)}
                >
                  <StepMark state={stateOf(one)} />
                  <span>
                    <Words of={one.title} />
                    <Show when={one.permanence === "permanent"}>
                      <b class="for-good"> cannot be undone</b>
                    </Show>
                  </span>
                </button>
              </li>
            )}
          </For>
        </ol>
        <Lists desk={props.desk} />
      </nav>
      <Show when={step()} keyed>
        {(one) => (
          <section class="in-hand" aria-label="Step in hand">
            <div class="turn">
              <button type="button" disabled={at() <= 0} onClick={() => choose(steps()[at() - 1]?.id)}>
                Before
              </button>
              <button type="button" class="to-list" onClick={() => setListed(!listed())}>
                Step {at() + 1} of {steps().length}
                <small>{listed() ? "back to the step" : "all steps"}</small>
              </button>
              <button type="button" disabled={at() >= steps().length - 1} onClick={() => choose(steps()[at() + 1]?.id)}>
                Next
              </button>
            </div>
            <StepInHand desk={props.desk} step={one} state={stateOf(one)} onGoTo={choose} />
          </section>
        )}
      </Show>
    </main>
  );
}

function stepState(step: Step, done: Readonly<Record<string, string>>, gate: Gate | undefined): StepState {
  if (done[step.id] !== undefined) return "done";
  if (!gate || gate.state === "open") return "open";
  if (gate.state === "overridden") return "overridden";
  return gate.reasons.some(({ ok, opens }) => !ok && opens?.join("").startsWith("wait")) ? "waiting" : "shut";
}

function Lists(props: { readonly desk: Desk }) {
  const traveller = () => travellerOn(props.desk);
  return (
    <>
      <Show when={(traveller()?.shopping.length ?? 0) > 0}>
        <details>
          <summary>To have on the bench before the first step</summary>
          <ul>
            <For each={traveller()?.shopping}>
              {({ what, quantity }) => (
                <li>
                  {quantity} × <Words of={what} />
                </li>
              )}
            </For>
          </ul>
        </details>
      </Show>
      <Show when={(traveller()?.keep.length ?? 0) > 0}>
        <details>
          <summary>Parts to keep, and their bags</summary>
          <ul>
            <For each={traveller()?.keep}>
              {({ label, what }) => (
                <li>
                  <b>{label}</b>: <Words of={what} />
                </li>
              )}
            </For>
          </ul>
        </details>
      </Show>
    </>
  );
}
