/** A state in full: the coils that are heard with their signs, and the way of each, lug by lug, to tip and sleeve. */
import { createMemo, For, Show } from "solid-js";
import { KNOB_HZ, knobAlong } from "../../core/circuit/index.ts";
import type { WiringReport } from "../../core/index.ts";
import { coilWays } from "../state/wiring-ways.ts";
import { bareDecibels } from "../state/wiring-words.ts";
import { Way } from "./wiring-lug.tsx";
import { Sounds } from "./wiring-states.tsx";

interface InFullProps {
  readonly report: WiringReport;
  readonly id: string;
  readonly onChoose: (id: string) => void;
  readonly onLug: (lug: string) => void;
}

export function StateInFull(props: InFullProps) {
  const state = () => props.report.states.find(({ id }) => id === props.id);
  const ways = createMemo(() => coilWays(props.report, props.id));
  return (
    <section class="state-in-full" aria-labelledby="in-full-title">
      <h2 id="in-full-title" tabindex="-1">
        One state in full: {state()?.title}
      </h2>
      <div class="row choices">
        <For each={props.report.states.map(({ id }) => id)}>
          {(id) => (
            <button type="button" aria-pressed={id === props.id} onClick={() => props.onChoose(id)}>
              {props.report.states.find((one) => one.id === id)?.title}
            </button>
          )}
        </For>
      </div>
      <Show when={state()}>
        {(one) => (
          <p>
            <Sounds report={props.report} state={one()} />
          </p>
        )}
      </Show>
      <Show when={ways().length > 0} fallback={<p>No coil is heard here.</p>}>
        <For each={ways()}>
          {(coil) => (
            <div class="coil-way">
              <h3>
                {coil.name}{" "}
                <small>
                  string <b>{coil.stringSign}</b>, hum <b>{coil.humSign}</b>
                </small>
              </h3>
              <dl>
                <dt>To the tip</dt>
                <dd>
                  <Way lugs={coil.toTip} from={coil.hot} end="tip" onLug={props.onLug} />
                </dd>
                <dt>Ground side</dt>
                <dd>
                  <Way lugs={coil.toSleeve} from={coil.cold} end="sleeve" onLug={props.onLug} />
                </dd>
              </dl>
            </div>
          )}
        </For>
      </Show>
      <KnobsOfState report={props.report} id={props.id} />
    </section>
  );
}

const TRAVELS = [0, 0.25, 0.5, 0.75, 1];
const HEADS = ["0", "¼", "½", "¾", "full"];

function KnobsOfState(props: { readonly report: WiringReport; readonly id: string }) {
  const rows = createMemo(() => {
    const facts = props.report.facts.states.find(({ inside }) => inside.state.id === props.id);
    if (!facts) return [];
    const { circuit, state } = facts.inside;
    return circuit.tracks.map((track) => ({ id: track.id, along: knobAlong(circuit, state, track, TRAVELS) }));
  });
  return (
    <Show when={rows().length > 0}>
      <details>
        <summary>
          <b>What each knob does here</b> <small>dB against full at {KNOB_HZ.join(" / ")} Hz</small>
        </summary>
        <section class="wide" tabindex="0" aria-label="What each knob does here">
          <table>
            <thead>
              <tr>
                <th scope="col">Knob at</th>
                <For each={HEADS}>{(head) => <th scope="col">{head}</th>}</For>
              </tr>
            </thead>
            <tbody>
              <For each={rows()}>
                {({ id, along }) => (
                  <tr>
                    <th scope="row">{id}</th>
                    <For each={along}>{({ dB }) => <td class="figure">{dB.map(knobDb).join(" / ")}</td>}</For>
                  </tr>
                )}
              </For>
            </tbody>
          </table>
        </section>
      </details>
    </Show>
  );
}

function knobDb(dB: number): string {
  const words = bareDecibels(dB);
  return words === "silent" ? "off" : words;
}
