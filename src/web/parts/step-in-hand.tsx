/** One step, large: what it wants before it starts, what to do, what to read, and the one button at its end. */
import { createSignal, For, Show } from "solid-js";
import { type MeasuredPrint, readPrint } from "../../core/index.ts";
import type { Gate, GateReason, Step } from "../../core/plan/index.ts";
import { finishOf } from "../../core/plan/index.ts";
import { markOnly, override, takeStepBack, tickOff } from "../state/bench-work.ts";
import type { Desk, Trouble } from "../state/desk.ts";
import { goTo, toSheet } from "../state/route.ts";
import { gatesOn, travellerOn } from "../state/steps.ts";
import { AsDrilled } from "./as-drilled.tsx";
import { Mishaps } from "./mishap.tsx";
import { Photographs } from "./photographs.tsx";
import { Words } from "./phrase.tsx";
import { PrintAnswer } from "./print-answer.tsx";
import { PrintedRules } from "./printed-rules.tsx";
import { StepMark, type StepState } from "./step-mark.tsx";
import { StepReadings, takenOf } from "./step-readings.tsx";
import { TroubleNote } from "./trouble.tsx";

export interface StepProps {
  readonly desk: Desk;
  readonly step: Step;
  readonly state: StepState;
  readonly onGoTo: (step: string) => void;
}

export function StepInHand(props: StepProps) {
  const [trouble, setTrouble] = createSignal<Trouble>();
  const [otherwise, setOtherwise] = createSignal(false);
  const gate = () => gatesOn(props.desk).get(props.step.id);
  const words = () => props.step.title.map((part) => (typeof part === "string" ? part : part.value)).join("");
  const drilling = () => props.step.work?.act === "drill" && (props.state === "open" || props.state === "overridden");
  const readingsIn = () => {
    const circumstances = { steps: [], verdicts: [], readings: takenOf(props.desk), done: [] };
    return finishOf(props.step, circumstances).state !== "shut";
  };
  const done = async (): Promise<void> => {
    const { desk, step } = props;
    const at = new Date().toISOString();
    const label = `done: ${words()}`;
    let refused = await desk.writeIfRead(label, ...tickOff(desk.fold(), step, at));
    // What only takes off or puts on, the fold may not know by this name: then the mark stands alone.
    if (refused && (step.work?.act === "take off" || step.work?.act === "fit" || step.work?.act === "restring"))
      refused = await desk.writeIfRead(label, ...markOnly(desk.fold(), step, at));
    setTrouble(refused);
  };
  const back = async (): Promise<void> => {
    const { desk, step } = props;
    const at = new Date().toISOString();
    setTrouble(await desk.writeIfRead(`not done after all: ${words()}`, ...takeStepBack(desk.fold(), step.id, at)));
  };
  return (
    <article class="step" classList={{ permanent: props.step.permanence === "permanent" }}>
      <p class="step-state">
        <StepMark state={props.state} />
        <Show when={props.step.permanence === "permanent"}>
          <b class="for-good">This cannot be undone.</b>
        </Show>
        <Show when={props.step.hold}>{(hold) => <span>Hold {hold()}</span>}</Show>
        <span class="minutes">about {props.step.minutes} min</span>
      </p>
      <h2>
        <Words of={props.step.title} />
      </h2>
      <GateNote gate={gate()} step={props.step} desk={props.desk} onGoTo={props.onGoTo} />
      <For each={props.step.cautions}>
        {(caution) => (
          <p class="caution">
            <b>Care:</b> <Words of={caution.text} /> <small>({caution.source.text})</small>
          </p>
        )}
      </For>
      <For each={props.step.tools.filter(({ large }) => large)}>
        {(tool) => (
          <p class="large-figure">
            <Words of={tool.text} />
          </p>
        )}
      </For>
      <Show when={props.step.rehearsal}>
        {(rehearsal) => (
          <p class="rehearsal">
            <b>First in scrap:</b> <Words of={rehearsal()} />
          </p>
        )}
      </Show>
      <ol class="instructions">
        <For each={props.step.instructions}>
          {(line) => (
            <li>
              <Words of={line} />
            </li>
          )}
        </For>
      </ol>
      <Show when={props.step.tools.some(({ large }) => !large)}>
        <p class="tools-line">
          Tools:{" "}
          <For each={props.step.tools.filter(({ large }) => !large)}>
            {(tool, index) => (
              <>
                {index() > 0 ? "; " : ""}
                <Words of={tool.text} />
              </>
            )}
          </For>
        </p>
      </Show>
      <For each={props.step.keeps}>
        {({ label, what }) => (
          <p class="keep">
            Bag <b>{label}</b>: <Words of={what} />
          </p>
        )}
      </For>
      <Show
        when={props.step.kind === "print"}
        fallback={<StepReadings desk={props.desk} readings={props.step.readings} />}
      >
        <Show when={printOf(props.desk, printedSheet(props.step))}>
          {(print) => (
            <>
              <PrintAnswer print={print()} title="this sheet" />
              <Show when={print().factors}>
                <p class="source">The sheet "Papers" draws every print for this printer from now on.</p>
              </Show>
            </>
          )}
        </Show>
        <PrintedRules desk={props.desk} sheet={printedSheet(props.step)} />
      </Show>
      <Photographs desk={props.desk} step={props.step.id} />
      <Mishaps desk={props.desk} step={props.step.id} drills={drilling()} />
      <TroubleNote trouble={trouble()} onClear={() => setTrouble(undefined)} />
      <div class="row finish">
        <Show
          when={props.state !== "done"}
          fallback={
            <button type="button" onClick={() => void back()}>
              Not done after all
            </button>
          }
        >
          <button
            type="button"
            class="main"
            disabled={props.state === "shut" || props.state === "waiting" || !readingsIn()}
            onClick={() => void done()}
          >
            Done
            <Show when={props.state === "shut" || props.state === "waiting"}>
              <small>the gate is shut: see above</small>
            </Show>
            <Show when={props.state !== "shut" && props.state !== "waiting" && !readingsIn()}>
              <small>its readings are not in</small>
            </Show>
          </button>
          <Show when={drilling()}>
            <button type="button" onClick={() => setOtherwise(true)}>
              It went otherwise
            </button>
          </Show>
        </Show>
      </div>
      <Show when={otherwise()}>
        <AsDrilled desk={props.desk} step={props.step} onClose={() => setOtherwise(false)} />
      </Show>
    </article>
  );
}

/** The print on the record, where it is one of this sheet and can be read. */
function printOf(desk: Desk, sheet: string): MeasuredPrint | undefined {
  const job = desk.job();
  const print = job && readPrint(job);
  return print && "check" in print && print.sheet === sheet ? print : undefined;
}

/** "bridge-template" of the reading "print.bridge-template.along". */
function printedSheet(step: Step): string {
  return /^print\.([^.]+)\./.exec(step.readings[0]?.subject ?? "")?.[1] ?? "";
}

interface GateNoteProps {
  readonly gate: Gate | undefined;
  readonly step: Step;
  readonly desk: Desk;
  readonly onGoTo: (step: string) => void;
}

/** What holds and what does not, in the order in which it is met. */
function GateNote(props: GateNoteProps) {
  const isStep = ({ ref }: GateReason) => travellerOn(props.desk)?.steps.some(({ id }) => id === ref) ?? false;
  const wanted = () => props.gate?.reasons.filter(({ ok }) => !ok) ?? [];
  const shut = () => wanted().filter((reason) => !isStep(reason));
  const before = () => wanted().filter(isStep);
  const held = () => props.gate?.reasons.filter(({ ok }) => ok) ?? [];
  return (
    <Show when={props.gate}>
      {(gate) => (
        <section class={`gate ${gate().state}`} aria-label="Gate">
          <h3>
            Gate: {gate().state}
            <Show when={gate().override}>{(one) => <> — “{one().reason}”</>}</Show>
          </h3>
          <ul class="reasons">
            <For each={shut()}>{(reason) => <Reason reason={reason} {...props} />}</For>
            <For each={before().slice(0, 1)}>{(reason) => <Reason reason={reason} {...props} />}</For>
          </ul>
          <Show when={before().length > 1}>
            <details>
              <summary>and {before().length - 1} more steps before this one</summary>
              <ul class="reasons">
                <For each={before().slice(1)}>{(reason) => <Reason reason={reason} {...props} />}</For>
              </ul>
            </details>
          </Show>
          <Show when={held().length > 0}>
            <details>
              <summary>{held().length} hold already</summary>
              <ul class="reasons">
                <For each={held()}>{(reason) => <Reason reason={reason} {...props} />}</For>
              </ul>
            </details>
          </Show>
          <Show when={gate().state === "shut"}>
            <Overriding desk={props.desk} step={props.step} />
          </Show>
        </section>
      )}
    </Show>
  );
}

function Reason(props: { readonly reason: GateReason } & GateNoteProps) {
  const step = () => travellerOn(props.desk)?.steps.find(({ id }) => id === props.reason.ref);
  const verdict = () => props.desk.verdicts().find(({ id }) => id === props.reason.ref);
  return (
    <li class={props.reason.ok ? "holds" : "wants"}>
      <span class="mark" aria-hidden="true">
        {props.reason.ok ? "✓" : "✗"}
      </span>
      <span>
        <span class="visually-hidden">{props.reason.ok ? "holds: " : "wanted: "}</span>
        <Words of={props.reason.text} />
        <Show when={!props.reason.ok && props.reason.opens}>
          {(opens) => (
            <small>
              {" "}
              Opens it: <Words of={opens()} />
            </small>
          )}
        </Show>
      </span>
      <Show when={!props.reason.ok && step() && step()?.id !== props.step.id}>
        <button type="button" class="quiet" onClick={() => props.onGoTo(props.reason.ref)}>
          To that step
        </button>
      </Show>
      <Show when={!props.reason.ok && verdict()}>
        <button type="button" class="quiet" onClick={() => goTo(toSheet(props.desk.jobId() ?? "", "way"))}>
          See why
        </button>
      </Show>
    </li>
  );
}

const LEAST_LETTERS = 10;

function Overriding(props: { readonly desk: Desk; readonly step: Step }) {
  const [reason, setReason] = createSignal("");
  const keep = (event: SubmitEvent): void => {
    event.preventDefault();
    const at = new Date().toISOString();
    void props.desk.writeIfRead(
      `overridden: ${props.step.id}`,
      ...override(props.desk.fold(), props.step.id, reason().trim(), at),
    );
  };
  return (
    <details class="overriding">
      <summary>Go on against the numbers</summary>
      <form onSubmit={keep}>
        <label>
          Why, in writing: it stays on the record
          <textarea rows="2" value={reason()} onInput={(event) => setReason(event.currentTarget.value)} />
        </label>
        <button type="submit" disabled={reason().trim().length < LEAST_LETTERS}>
          Override this gate
        </button>
      </form>
    </details>
  );
}
