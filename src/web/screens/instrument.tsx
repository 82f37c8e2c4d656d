/** Instrument and parts: every value with its doubt and where it came from; pressed, it is read again or changed. */
import { createMemo, createSignal, For, Show } from "solid-js";
import type { Quantity } from "../../core/quantity/index.ts";
import type { NextReading } from "../../core/verdict/index.ts";
import { AddPart } from "../parts/add-part.tsx";
import { AddWood } from "../parts/add-wood.tsx";
import { MeasureSlip } from "../parts/measure-slip.tsx";
import { Photographs } from "../parts/photographs.tsx";
import { Words } from "../parts/phrase.tsx";
import { Slip } from "../parts/sheet-dialog.tsx";
import { capital, TroubleNote } from "../parts/trouble.tsx";
import type { Desk, Trouble } from "../state/desk.ts";
import { photographsOf } from "../state/photographs.ts";
import { shownOf, type ValueRow, valueGroups } from "../state/values.ts";
import "../style/instrument.css";

export function DataSheet(props: { readonly desk: Desk }) {
  const [search, setSearch] = createSignal("");
  const [reading, setReading] = createSignal<NextReading>();
  const [changing, setChanging] = createSignal<ValueRow>();
  const groups = createMemo(() => {
    const job = props.desk.job();
    return job ? valueGroups(job, props.desk.data()) : [];
  });
  const wanted = createMemo(() => {
    const letters = search().trim().toLowerCase();
    return groups()
      .map((group) => ({
        ...group,
        rows: group.rows.filter(({ words }) => `${group.title} ${words}`.toLowerCase().includes(letters)),
      }))
      .filter(({ rows }) => rows.length > 0);
  });
  return (
    <main class="values" aria-labelledby="values-title">
      <h1 id="values-title">Instrument and parts</h1>
      <div class="row">
        <label class="search">
          Find a value{" "}
          <input type="search" value={search()} onInput={(event) => setSearch(event.currentTarget.value)} />
        </label>
      </div>
      <p class="source">
        <OriginMark origin="measured" /> <OriginMark origin="data sheet" /> <OriginMark origin="assumed" />{" "}
        <OriginMark origin="not known" />. The doubt is about 95 % (k = 2).
      </p>
      <For each={wanted()}>
        {(group) => (
          <details open={wanted().length < 4 || search() !== ""}>
            <summary>
              <b>{capital(group.title)}</b>{" "}
              <small>{group.rows.length === 1 ? "1 value" : `${group.rows.length} values`}</small>
            </summary>
            <div class="wide">
              <table>
                <thead>
                  <tr>
                    <th scope="col">What</th>
                    <th scope="col" class="right">
                      Value
                    </th>
                    <th scope="col">From</th>
                    <th scope="col">
                      <span class="visually-hidden">Change it</span>
                    </th>
                  </tr>
                </thead>
                <tbody>
                  <For each={group.rows}>
                    {(row) => <Row row={row} onMeasure={setReading} onChange={setChanging} />}
                  </For>
                </tbody>
              </table>
            </div>
          </details>
        )}
      </For>
      <AddPart desk={props.desk} />
      <AddWood desk={props.desk} />
      <Readings desk={props.desk} />
      <details class="all-photographs">
        <summary>
          <b>Photographs</b> <small>{photographsOf(props.desk).length}</small>
        </summary>
        <Photographs desk={props.desk} />
      </details>
      <Show when={reading()}>
        {(asked) => <MeasureSlip desk={props.desk} reading={asked()} onClose={() => setReading(undefined)} />}
      </Show>
      <Show when={changing()}>
        {(row) => <ChangeSlip desk={props.desk} row={row()} onClose={() => setChanging(undefined)} />}
      </Show>
    </main>
  );
}

const SHAPES = { measured: "■", "data sheet": "□", assumed: "~", "not known": "?" } as const;
type Origin = keyof typeof SHAPES;

function originOf(quantity: Quantity): Origin {
  return quantity.known ? quantity.origin : "not known";
}

function OriginMark(props: { readonly origin: Origin; readonly tool?: string | undefined }) {
  return (
    <span class={`origin ${props.origin.replace(" ", "-")}`}>
      <span aria-hidden="true">{SHAPES[props.origin]}</span> {props.origin}
      {props.tool ? `, ${props.tool}` : ""}
    </span>
  );
}

interface RowProps {
  readonly row: ValueRow;
  readonly onMeasure: (reading: NextReading) => void;
  readonly onChange: (row: ValueRow) => void;
}

function Row(props: RowProps) {
  const { quantity, words, path, written } = props.row;
  const origin = originOf(quantity);
  const measure = (): void =>
    props.onMeasure({ path, what: words, tool: "", how: "Read it on the instrument.", minutes: 2, settles: "" });
  return (
    <tr class={origin === "assumed" ? "soft" : ""}>
      <th scope="row">{words}</th>
      <td class="right">
        <Show when={shownOf(quantity)} fallback="–">
          {(shown) => <Words of={[shown()]} />}
        </Show>
      </td>
      <td>
        <OriginMark origin={origin} tool={quantity.known ? quantity.tool : undefined} />
      </td>
      <td class="presses">
        <button type="button" class="quiet" aria-label={`Measure ${words}`} onClick={measure}>
          Measure
        </button>
        <Show when={written}>
          <button
            type="button"
            class="quiet"
            aria-label={`Change what is written for ${words}`}
            onClick={() => props.onChange(props.row)}
          >
            Change
          </button>
        </Show>
      </td>
    </tr>
  );
}

/** What stands in the job's own data: a data sheet's figure, a decision. */
function ChangeSlip(props: { readonly desk: Desk; readonly row: ValueRow; readonly onClose: () => void }) {
  let input: HTMLInputElement | undefined;
  const [trouble, setTrouble] = createSignal<Trouble>();
  const keep = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const { written, words } = props.row;
    const text = input?.value.trim() ?? "";
    if (!written) return;
    const value = typeof written.value === "number" && /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : text;
    const refused = await props.desk.writeIfRead(`${words}: ${text}`, { path: written.path, value });
    setTrouble(refused);
    if (!refused) props.onClose();
  };
  return (
    <Slip title={`Change ${props.row.words}`} onClose={props.onClose}>
      <form class="measure" onSubmit={(event) => void keep(event)}>
        <p>
          What the job's own data say. A figure read on the instrument is better kept as a reading: it wins over this.
        </p>
        <label class="big-entry">
          <span>Value with its unit, e.g. 44.5 mm (calliper), 648 mm (data sheet)</span>
          <input
            ref={(element) => {
              input = element;
            }}
            type="text"
            autocomplete="off"
            autofocus
            value={String(props.row.written?.value ?? "")}
            onInput={() => setTrouble(undefined)}
          />
        </label>
        <TroubleNote trouble={trouble()} />
        <div class="row">
          <button type="submit" class="main">
            Keep it
          </button>
          <button type="button" onClick={() => props.onClose()}>
            Leave it as it is
          </button>
        </div>
      </form>
    </Slip>
  );
}

interface FileReading {
  readonly id: string;
  readonly of: string;
  readonly value: string | number;
  readonly at?: string;
}

function Readings(props: { readonly desk: Desk }) {
  const list = () => (props.desk.data().readings ?? []) as unknown as readonly FileReading[];
  const gone = createMemo(
    () => new Map((props.desk.job()?.resolved.voided ?? []).map((one) => [one.reading, one.why] as const)),
  );
  const takeAway = (id: string, words: string): void => {
    void props.desk.writeIfRead(`reading taken away: ${words}`, { path: `/readings/#${id}` });
  };
  return (
    <Show when={list().length > 0}>
      <details>
        <summary>
          <b>Readings</b> <small>{list().length}, the first first</small>
        </summary>
        <div class="wide">
          <table>
            <tbody>
              <For each={list()}>
                {({ id, of, value, at }) => (
                  <tr classList={{ void: gone().has(id) }}>
                    <th scope="row">{of}</th>
                    <td class="right">{value}</td>
                    <td>
                      {at?.slice(0, 16).replace("T", " ")}
                      <Show when={gone().get(id)}>{(why) => <small> no longer holds: {why()}</small>}</Show>
                    </td>
                    <td>
                      <button
                        type="button"
                        class="quiet"
                        aria-label={`Take away the reading of ${of}`}
                        onClick={() => takeAway(id, of)}
                      >
                        Take away
                      </button>
                    </td>
                  </tr>
                )}
              </For>
            </tbody>
          </table>
        </div>
      </details>
    </Show>
  );
}
