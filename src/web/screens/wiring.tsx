/** Sounds and wiring: what is wrong with it, what each state gives and is to read, curves to play with, the wires in words. */
import { createMemo, createSignal, Show } from "solid-js";
import { type WiringReport, wiringOf } from "../../core/index.ts";
import { TroubleNote } from "../parts/trouble.tsx";
import { WiringCurves } from "../parts/wiring-curves.tsx";
import { WireList } from "../parts/wiring-edit.tsx";
import { BlindSpots, Guesses, WiringFindings } from "../parts/wiring-findings.tsx";
import { LugSlip } from "../parts/wiring-lug.tsx";
import { PlateDrawing } from "../parts/wiring-plate.tsx";
import { StateInFull } from "../parts/wiring-state.tsx";
import { WiringStates } from "../parts/wiring-states.tsx";
import { type Desk, type Trouble, troubleOf } from "../state/desk.ts";
import { loadInWords } from "../state/wiring-words.ts";
import "../style/wiring.css";

export function WiringSheet(props: { readonly desk: Desk }) {
  const looked = createMemo((): { readonly report?: WiringReport; readonly trouble?: Trouble } => {
    const job = props.desk.job();
    try {
      const report = job && wiringOf(job);
      return report ? { report } : {};
    } catch (error) {
      return { trouble: troubleOf(error) };
    }
  });
  return (
    <main class="wiring" aria-labelledby="wiring-title">
      <h1 id="wiring-title">Sounds and wiring</h1>
      <TroubleNote trouble={looked().trouble} />
      <Show when={looked().report} fallback={<NoWiring refused={looked().trouble !== undefined} />}>
        {(report) => <Described desk={props.desk} report={report()} />}
      </Show>
    </main>
  );
}

function NoWiring(props: { readonly refused: boolean }) {
  return (
    <Show when={!props.refused}>
      <p>
        This job describes no wiring. It can be worked out once the job's file says which coils the pickups have and, in
        its section "wiring", which lug is soldered to which.
      </p>
    </Show>
  );
}

function Described(props: { readonly desk: Desk; readonly report: WiringReport }) {
  const [picked, setPicked] = createSignal<string>();
  const [lug, setLug] = createSignal<string>();
  const chosen = () => props.report.states.find(({ id }) => id === picked())?.id ?? props.report.states[0]?.id;
  const inFull = (id: string): void => {
    setPicked(id);
    const title = document.getElementById("in-full-title");
    title?.focus();
    title?.scrollIntoView({ block: "start" });
  };
  return (
    <>
      <WiringFindings report={props.report} onLug={setLug} />
      <Show
        when={chosen()}
        fallback={<p>Its states are too many to show: name those that matter in the job's file.</p>}
      >
        {(id) => (
          <>
            <WiringStates desk={props.desk} report={props.report} chosen={id()} onChoose={inFull} />
            <p class="source">{loadInWords(props.report)}</p>
            <BlindSpots report={props.report} />
            <Guesses report={props.report} />
            <WiringCurves report={props.report} chosen={id()} />
            <PlateDrawing desk={props.desk} report={props.report} chosen={id()} onLug={setLug} />
            <StateInFull report={props.report} id={id()} onChoose={setPicked} onLug={setLug} />
          </>
        )}
      </Show>
      <WireList desk={props.desk} report={props.report} />
      <Show when={lug()}>
        {(pressed) => (
          <LugSlip report={props.report} lug={pressed()} onLug={setLug} onClose={() => setLug(undefined)} />
        )}
      </Show>
    </>
  );
}
