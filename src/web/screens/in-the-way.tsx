/** What stands in the way: the worst three in full, the rest a line each; what goes folds away; the next action last. */
import { createSignal, For, Show } from "solid-js";
import { workInWords } from "../../core/briefing/index.ts";
import { chanceFigure, oddsInWords } from "../../core/ledger/index.ts";
import type { NextReading, Permanence, Remedy, Verdict } from "../../core/verdict/index.ts";
import { MeasureSlip } from "../parts/measure-slip.tsx";
import { Words } from "../parts/phrase.tsx";
import { StatusWord } from "../parts/status.tsx";
import { SumSlip } from "../parts/sum-slip.tsx";
import { capital } from "../parts/trouble.tsx";
import type { Desk } from "../state/desk.ts";

export function InTheWay(props: { readonly desk: Desk }) {
  const brief = () => props.desk.brief();
  const [summed, setSummed] = createSignal<Verdict>();
  const [reading, setReading] = createSignal<NextReading>();
  const press = { onSum: setSummed, onMeasure: setReading };
  return (
    <main class="way" aria-labelledby="way-title">
      <h1 id="way-title">
        <Show when={brief().inFull.length > 0} fallback="Nothing stands in the way">
          What stands in the way, worst first
        </Show>
      </h1>
      <ol class="worst">
        <For each={brief().inFull}>
          {(verdict) => (
            <li>
              <InFull verdict={verdict} {...press} />
            </li>
          )}
        </For>
      </ol>
      <Show when={brief().inBrief.length > 0}>
        <h2>Also in the way</h2>
        <ul class="brief">
          <For each={brief().inBrief}>{(verdict) => <InBrief verdict={verdict} {...press} />}</For>
        </ul>
      </Show>
      <Next desk={props.desk} onMeasure={setReading} />
      <Show when={brief().go.length > 0}>
        <details class="goes">
          <summary>
            <StatusWord status="go" /> {brief().go.length} {brief().go.length === 1 ? "answer" : "answers"}: nothing to
            do there
          </summary>
          <ul class="brief">
            <For each={brief().go}>{(verdict) => <InBrief verdict={verdict} {...press} />}</For>
          </ul>
        </details>
      </Show>
      <Show when={summed()}>{(verdict) => <SumSlip verdict={verdict()} onClose={() => setSummed(undefined)} />}</Show>
      <Show when={reading()}>
        {(wanted) => <MeasureSlip desk={props.desk} reading={wanted()} onClose={() => setReading(undefined)} />}
      </Show>
    </main>
  );
}

interface Press {
  readonly onSum: (verdict: Verdict) => void;
  readonly onMeasure: (reading: NextReading) => void;
}

/** The readings worth taking, the best first. */
function readingsOf({ next, missing }: Verdict): readonly NextReading[] {
  return next ? [next, ...missing.filter(({ path }) => path !== next.path)] : missing;
}

export function InFull(props: { readonly verdict: Verdict } & Press) {
  const verdict = () => props.verdict;
  return (
    <article class="verdict">
      <p class="asked">
        <StatusWord status={verdict().status} /> {verdict().question}
      </p>
      <h2>
        <Words of={verdict().headline} />
      </h2>
      <Chance verdict={verdict()} />
      <Show when={verdict().work.length > 0}>
        <h3>What to do</h3>
        <ul>
          <For each={verdict().work}>
            {(work) => (
              <li>
                <Words of={workInWords(work)} />
              </li>
            )}
          </For>
        </ul>
      </Show>
      <Show when={verdict().remedies.length > 0}>
        <h3>Ways out</h3>
        <ul>
          <For each={verdict().remedies}>{(remedy) => <WayOut remedy={remedy} />}</For>
        </ul>
      </Show>
      <div class="row">
        <For each={readingsOf(verdict()).slice(0, 3)}>
          {(reading, index) => (
            <button type="button" class={index() === 0 ? "main" : ""} onClick={() => props.onMeasure(reading)}>
              Measure {reading.what}
              <small>
                {reading.tool}, {reading.minutes} min
              </small>
            </button>
          )}
        </For>
        <button type="button" onClick={() => props.onSum(verdict())}>
          Show the sum
        </button>
      </div>
      <Show when={verdict().detail.length > 0}>
        <details class="more">
          <summary>More about it</summary>
          <For each={verdict().detail}>
            {(line) => (
              <p>
                <Words of={line} />
              </p>
            )}
          </For>
        </details>
      </Show>
    </article>
  );
}

function Chance(props: { readonly verdict: Verdict }) {
  const after = () => (props.verdict.status === "rework" && props.verdict.work.length > 0 ? ", once that is done" : "");
  return (
    <Show when={props.verdict.probability !== undefined}>
      <p class="chance">
        Chance that it goes{after()}: <ChanceWords p={props.verdict.probability ?? 0} />
      </p>
    </Show>
  );
}

function ChanceWords(props: { readonly p: number }) {
  return (
    <>
      <span class="figure">{chanceFigure(props.p)}</span>, {oddsInWords(props.p)}
    </>
  );
}

const PERMANENCE: Readonly<Record<Permanence, string>> = {
  reversible: "can be undone",
  hidden: "cannot be undone, does not show",
  permanent: "cannot be undone",
};

function WayOut(props: { readonly remedy: Remedy }) {
  return (
    <li>
      <Words of={props.remedy.text} />
      <span class="after">
        {" "}
        <Show when={props.remedy.then}>
          {(then) => (
            <>
              then <StatusWord status={then()} />{" "}
            </>
          )}
        </Show>
        <Show when={props.remedy.probability !== undefined}>
          (<ChanceWords p={props.remedy.probability ?? 0} />){" "}
        </Show>
        {PERMANENCE[props.remedy.permanence]}
      </span>
    </li>
  );
}

function InBrief(props: { readonly verdict: Verdict } & Press) {
  const first = () => readingsOf(props.verdict)[0];
  return (
    <li>
      <StatusWord status={props.verdict.status} />
      <span class="line">
        <span class="asked">{props.verdict.question}</span> <Words of={props.verdict.headline} />
      </span>
      <span class="presses">
        <Show when={props.verdict.status !== "go" && first()}>
          {(reading) => (
            <button
              type="button"
              class="quiet"
              aria-label={`Measure ${reading().what}`}
              onClick={() => props.onMeasure(reading())}
            >
              Measure
            </button>
          )}
        </Show>
        <button
          type="button"
          class="quiet"
          aria-label={`Sum: ${props.verdict.question}`}
          onClick={() => props.onSum(props.verdict)}
        >
          Sum
        </button>
      </span>
    </li>
  );
}

function Next(props: { readonly desk: Desk; readonly onMeasure: (reading: NextReading) => void }) {
  const next = () => props.desk.brief().next;
  return (
    <section class="next" aria-label="What to do next">
      <h2>Next</h2>
      {(() => {
        const action = next();
        switch (action.kind) {
          case "measure":
            return (
              <p>
                <button type="button" class="main" onClick={() => props.onMeasure(action.reading)}>
                  Measure {action.reading.what}
                </button>{" "}
                {capital(action.reading.how)}
              </p>
            );
          case "decide":
            return (
              <p>
                Decide. Best way out: <Words of={action.remedy.text} /> ({PERMANENCE[action.remedy.permanence]}).
              </p>
            );
          case "look":
            return <p>Look into it: nothing here can settle “{action.verdict.question}”.</p>;
          case "work":
            return (
              <p>Nothing is left to find out. Print the papers, and start with the first step of the traveller.</p>
            );
          case "begin":
            return <p>Print the papers and begin.</p>;
        }
      })()}
    </section>
  );
}
