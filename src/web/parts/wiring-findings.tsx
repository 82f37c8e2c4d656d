/** What is wrong with a wiring, worst first; and what an ohmmeter cannot show. */
import { For, Show } from "solid-js";
import type { WiringReport } from "../../core/index.ts";
import { guessesInWords, narrowedBy } from "../state/wiring-words.ts";
import { capital } from "./trouble.tsx";
import { Lug } from "./wiring-lug.tsx";
import { WiringMark } from "./wiring-mark.tsx";

/** The rest are a line each. */
const IN_FULL = 3;

interface Shown {
  readonly report: WiringReport;
  readonly onLug: (lug: string) => void;
}

type OneFinding = WiringReport["findings"][number];

export function WiringFindings(props: Shown) {
  const all = () => props.report.findings;
  return (
    <section class="wiring-findings" aria-labelledby="findings-title">
      <Show
        when={all().length > 0}
        fallback={
          <h2 id="findings-title">
            <WiringMark grade="fine" words="Nothing is wrong with it" />
          </h2>
        }
      >
        <h2 id="findings-title">What is wrong, worst first</h2>
        <ul>
          <For each={all().slice(0, IN_FULL)}>{(one) => <Finding finding={one} onLug={props.onLug} />}</For>
        </ul>
        <Show when={all().length > IN_FULL}>
          <details>
            <summary>{all().length - IN_FULL} more</summary>
            <ul>
              <For each={all().slice(IN_FULL)}>{(one) => <Finding finding={one} onLug={props.onLug} />}</For>
            </ul>
          </details>
        </Show>
      </Show>
    </section>
  );
}

function Finding(props: { readonly finding: OneFinding; readonly onLug: (lug: string) => void }) {
  return (
    <li>
      <h3>
        <WiringMark grade={props.finding.grade} words={`${props.finding.grade}:`} /> {props.finding.what}.
      </h3>
      <p>{capital(props.finding.why)}.</p>
      <p>
        <b>What to do:</b> {capital(props.finding.remedy)}.
      </p>
      <Show when={props.finding.lugs.length > 0}>
        <p class="lug-row">
          <small>Lugs:</small>
          <For each={props.finding.lugs}>{(lug) => <Lug lug={lug} onLug={props.onLug} />}</For>
        </p>
      </Show>
    </li>
  );
}

/** Folded away: whoever reads ohms that agree has to know what they do not say. */
export function BlindSpots(props: { readonly report: WiringReport }) {
  const titleOf = (id: string): string => props.report.states.find((state) => state.id === id)?.title ?? id;
  return (
    <Show when={props.report.blindSpots.length > 0}>
      <details class="blind-spots">
        <summary>
          <b>What ohms cannot show, and the test that can</b> <small>{props.report.blindSpots.length}</small>
        </summary>
        <ul>
          <For each={props.report.blindSpots}>
            {({ states, what, test }) => (
              <li>
                <p>
                  <b>{capital(states.map(titleOf).join(", "))}:</b> {what}.
                </p>
                <p>{capital(test)}.</p>
              </li>
            )}
          </For>
        </ul>
      </details>
    </Show>
  );
}

export function Guesses(props: { readonly report: WiringReport }) {
  return (
    <Show when={props.report.guesses.length > 0}>
      <details class="guesses">
        <summary>
          <b>Values that nobody has given</b> <small>{props.report.guesses.length}: peaks are bands</small>
        </summary>
        <Show when={narrowedBy(props.report)}>{(tool) => <p>What narrows the bands most: {tool()}.</p>}</Show>
        <ul>
          <For each={guessesInWords(props.report)}>{(line) => <li>{line}</li>}</For>
        </ul>
      </details>
    </Show>
  );
}
