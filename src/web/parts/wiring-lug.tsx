/** A lug that can be pressed, a way from lug to lug, and the slip that tells where a lug goes in every state. */
import { createEffect, createMemo, For, on, Show } from "solid-js";
import type { WiringReport } from "../../core/index.ts";
import { lugInStates, wiresOn } from "../state/wiring-ways.ts";
import { Slip } from "./sheet-dialog.tsx";

export function Lug(props: { readonly lug: string; readonly onLug: (lug: string) => void }) {
  return (
    <button type="button" class="lug" onClick={() => props.onLug(props.lug)}>
      <span class="visually-hidden">Where it goes: </span>
      {props.lug}
    </button>
  );
}

interface WayProps {
  readonly lugs: readonly string[];
  /** Where it begins, and what it leads to, where no plain way leads there. */
  readonly from: string;
  readonly end: string;
  readonly onLug: (lug: string) => void;
}

export function Way(props: WayProps) {
  return (
    <Show
      when={props.lugs.length > 0}
      fallback={
        <p class="lug-way">
          <Lug lug={props.from} onLug={props.onLug} /> then through another coil or a knob to the {props.end}
        </p>
      }
    >
      <ol class="lug-way">
        <For each={props.lugs}>
          {(lug) => (
            <li>
              <Lug lug={lug} onLug={props.onLug} />
            </li>
          )}
        </For>
      </ol>
    </Show>
  );
}

interface LugSlipProps {
  readonly report: WiringReport;
  readonly lug: string;
  readonly onLug: (lug: string) => void;
  readonly onClose: () => void;
}

const ENDS = { ground: "at ground", tip: "at the tip" } as const;

export function LugSlip(props: LugSlipProps) {
  const states = createMemo(() => lugInStates(props.report, props.lug));
  const soldered = () => wiresOn(props.report, props.lug);
  let top: HTMLElement | undefined;
  // From lug to lug: the slip is read from its top, and the keyboard goes there as well.
  createEffect(
    on(
      () => props.lug,
      () => {
        top?.closest("dialog")?.scrollTo(0, 0);
        top?.focus();
      },
      { defer: true },
    ),
  );
  return (
    <Slip title={`Where ${props.lug} goes`} onClose={props.onClose}>
      <div class="wiring">
        <h3
          tabindex="-1"
          ref={(element) => {
            top = element;
          }}
        >
          Soldered to it
        </h3>
        <Show when={soldered().length > 0} fallback={<p>Nothing.</p>}>
          <ul class="soldered">
            <For each={soldered()}>
              {({ id, other }) => (
                <li>
                  <Lug lug={other} onLug={props.onLug} /> <small>{id}</small>
                </li>
              )}
            </For>
          </ul>
        </Show>
        <h3>Joined by wires, closed contacts and wipers at their stop</h3>
        <dl class="lug-states">
          <For each={states()}>
            {({ title, at, joined }) => (
              <div>
                <dt>
                  {title} <Show when={at}>{(end) => <b>{ENDS[end()]}</b>}</Show>
                </dt>
                <dd class="lug-row">
                  <Show when={joined.length > 0} fallback="joined to nothing">
                    <For each={joined}>{(other) => <Lug lug={other} onLug={props.onLug} />}</For>
                  </Show>
                </dd>
              </div>
            )}
          </For>
        </dl>
      </div>
    </Slip>
  );
}
