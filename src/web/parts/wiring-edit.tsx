/** The wires in words: each line is changed where it stands, taken away, or added by words or by picking two lugs. */
import { createMemo, createSignal, For, Show } from "solid-js";
import type { WiringReport } from "../../core/index.ts";
import type { Change } from "../../core/log/index.ts";
import type { Desk } from "../state/desk.ts";
import { nameForWire, wireBetween, wiresIn, wireTakenAway, wireWritten } from "../state/wiring-edit.ts";
import { lugsByDevice } from "../state/wiring-ways.ts";

type Write = (words: string, ...changes: Change[]) => Promise<string>;

/** @returns what is wrong, in words; "" where it was written */
function writer(desk: Desk): Write {
  return async (words, ...changes) => {
    const refused = await desk.writeIfRead(words, ...changes);
    return refused ? `${refused.problem}. ${refused.remedy}.` : "";
  };
}

export function WireList(props: { readonly desk: Desk; readonly report: WiringReport }) {
  const wires = createMemo(() => wiresIn(props.desk.data()));
  const textOf = (id: string) => wires().find((wire) => wire.id === id)?.text ?? "";
  return (
    <details class="wires">
      <summary>
        <b>Change the wires</b> <small>{wires().length === 1 ? "1 wire" : `${wires().length} wires`}</small>
      </summary>
      <p class="source">A line each: lug to lug, then colour and length where they are known. Enter keeps it.</p>
      <AddByWords desk={props.desk} />
      <AddByLugs desk={props.desk} report={props.report} />
      <ul>
        <For each={wires().map(({ id }) => id)}>{(id) => <OneWire desk={props.desk} id={id} text={textOf(id)} />}</For>
      </ul>
    </details>
  );
}

function OneWire(props: { readonly desk: Desk; readonly id: string; readonly text: string }) {
  const [typed, setTyped] = createSignal<string>();
  const [wrong, setWrong] = createSignal("");
  const changed = () => typed() !== undefined && typed()?.trim() !== props.text;
  const write = writer(props.desk);
  const keep = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (!changed()) return;
    const text = typed() ?? "";
    const problem = await write(`wire ${props.id}: ${text.trim()}`, ...wireWritten(props.desk.data(), props.id, text));
    setWrong(problem);
    if (problem === "") setTyped(undefined);
    else document.getElementById(`wire-${props.id}`)?.focus();
  };
  /** The keyboard stays among the wires. */
  const takeAway = async (button: HTMLElement): Promise<void> => {
    const beside = rowBeside(button);
    const problem = await write(`took away wire ${props.id}`, wireTakenAway(props.id));
    if (problem === "") beside?.querySelector<HTMLElement>("button.quiet")?.focus();
    else setWrong(problem);
  };
  return (
    <li>
      <form onSubmit={(event) => void keep(event)}>
        <label for={`wire-${props.id}`}>{props.id}</label>
        <input
          id={`wire-${props.id}`}
          type="text"
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          maxlength="200"
          value={typed() ?? props.text}
          aria-invalid={wrong() !== ""}
          aria-describedby={wrong() === "" ? undefined : `wire-${props.id}-wrong`}
          onInput={(event) => {
            setTyped(event.currentTarget.value);
            setWrong("");
          }}
        />
        <Show when={changed()}>
          <button type="submit" aria-label={`Keep wire ${props.id}`}>
            Keep
          </button>
        </Show>
        <button
          type="button"
          class="quiet"
          aria-label={`Take away wire ${props.id}`}
          onClick={(event) => void takeAway(event.currentTarget)}
        >
          Take away
        </button>
      </form>
      <Wrong id={`wire-${props.id}-wrong`} words={wrong()} />
    </li>
  );
}

function rowBeside(inside: HTMLElement): Element | null | undefined {
  const row = inside.closest("li");
  return row?.nextElementSibling ?? row?.previousElementSibling;
}

function Wrong(props: { readonly id: string; readonly words: string }) {
  return (
    <Show when={props.words !== ""}>
      <p class="wrong" role="alert" id={props.id}>
        {props.words}
      </p>
    </Show>
  );
}

async function add(desk: Desk, text: string): Promise<string> {
  const id = nameForWire(desk.data(), text);
  return writer(desk)(`added wire ${id}: ${text.trim()}`, ...wireWritten(desk.data(), id, text));
}

function AddByWords(props: { readonly desk: Desk }) {
  const [text, setText] = createSignal("");
  const [wrong, setWrong] = createSignal("");
  const [added, setAdded] = createSignal("");
  const keep = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const said = text();
    const problem = await add(props.desk, said);
    setWrong(problem);
    setAdded(problem === "" ? `Added: ${said.trim()}.` : "");
    if (problem === "") setText("");
  };
  return (
    <form class="add-wire" onSubmit={(event) => void keep(event)}>
      <label for="new-wire">A new wire in words</label>
      <input
        id="new-wire"
        type="text"
        autocomplete="off"
        autocapitalize="off"
        spellcheck={false}
        maxlength="200"
        placeholder="bridge.blue to lever.p1-1, blue"
        value={text()}
        aria-invalid={wrong() !== ""}
        aria-describedby={wrong() === "" ? undefined : "new-wire-wrong"}
        onInput={(event) => {
          setText(event.currentTarget.value);
          setWrong("");
        }}
      />
      <button type="submit" disabled={text().trim() === ""}>
        Add this wire
      </button>
      <Wrong id="new-wire-wrong" words={wrong()} />
      <p role="status">{added()}</p>
    </form>
  );
}

function AddByLugs(props: { readonly desk: Desk; readonly report: WiringReport }) {
  const [from, setFrom] = createSignal("");
  const [to, setTo] = createSignal("");
  const [colour, setColour] = createSignal("");
  const [wrong, setWrong] = createSignal("");
  const [added, setAdded] = createSignal("");
  const keep = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const text = wireBetween(from(), to(), colour());
    const problem = await add(props.desk, text);
    setWrong(problem);
    setAdded(problem === "" ? `Added: ${text}.` : "");
    if (problem === "") setTo("");
  };
  return (
    <form class="add-wire by-lugs" onSubmit={(event) => void keep(event)}>
      <LugSelect label="Or from lug" report={props.report} value={from()} onPick={setFrom} />
      <LugSelect label="to lug" report={props.report} value={to()} onPick={setTo} />
      <label>
        colour{" "}
        <input
          type="text"
          maxlength="40"
          size="8"
          value={colour()}
          onInput={(event) => setColour(event.currentTarget.value)}
        />
      </label>
      <button type="submit" disabled={from() === "" || to() === ""}>
        Add between these lugs
      </button>
      <Wrong id="picked-wire-wrong" words={wrong()} />
      <p role="status">{added()}</p>
    </form>
  );
}

interface LugSelectProps {
  readonly label: string;
  readonly report: WiringReport;
  readonly value: string;
  readonly onPick: (lug: string) => void;
}

function LugSelect(props: LugSelectProps) {
  return (
    <label>
      {props.label}{" "}
      <select value={props.value} onChange={(event) => props.onPick(event.currentTarget.value)}>
        <option value="">choose</option>
        <For each={lugsByDevice(props.report)}>
          {({ device, lugs }) => (
            <optgroup label={device}>
              <For each={lugs}>{(lug) => <option value={lug}>{lug}</option>}</For>
            </optgroup>
          )}
        </For>
      </select>
    </label>
  );
}
