/** What was done, when and on which device; any earlier state to be looked at, compared and brought back. */
import { createMemo, createSignal, For, Show } from "solid-js";
import { type Act, foldUntil, type Json, keysOf } from "../../core/log/index.ts";
import { Slip } from "../parts/sheet-dialog.tsx";
import { TroubleNote } from "../parts/trouble.tsx";
import { type Desk, type Trouble, troubleOf } from "../state/desk.ts";
import { differences, pathInWords, shortValue } from "../state/differences.ts";
import { files } from "../state/late.ts";
import { offer } from "../state/offer.ts";
import "../style/history.css";

const A_PAGE = 50;
const MOST_CHANGES = 6;

export function HistorySheet(props: { readonly desk: Desk }) {
  const [shown, setShown] = createSignal(A_PAGE);
  const [looked, setLooked] = createSignal<Act>();
  const [trouble, setTrouble] = createSignal<Trouble>();
  const acts = createMemo(() => [...props.desk.acts()].reverse());
  const save = async (kind: "yaml" | "json"): Promise<void> => {
    try {
      const data = props.desk.data();
      const name = (props.desk.jobId() ?? "job").toLowerCase();
      const text = kind === "json" ? JSON.stringify(data, null, 2) : (await files()).stringify(data);
      offer(`${name}.${kind}`, `${text}\n`);
    } catch (error) {
      setTrouble(troubleOf(error));
    }
  };
  return (
    <main class="history" aria-labelledby="history-title">
      <h1 id="history-title">History</h1>
      <div class="row">
        <button type="button" onClick={() => void save("yaml")}>
          Save the job as a file
        </button>
        <button type="button" onClick={() => void save("json")}>
          Save it as JSON
        </button>
      </div>
      <TroubleNote trouble={trouble()} onClear={() => setTrouble(undefined)} />
      <ol class="acts">
        <For each={acts().slice(0, shown())}>
          {(act) => (
            <li classList={{ undone: act.undone }}>
              <p class="when">
                <time datetime={act.at}>{timeWords(act.at)}</time>
                <small>{act.device === props.desk.keeping.device ? "this device" : `device ${act.device}`}</small>
              </p>
              <div>
                <p>
                  <b>{act.words || "changed"}</b>
                  {act.undone ? " (taken back)" : ""}
                </p>
                <Changes desk={props.desk} act={act} />
              </div>
              <button type="button" class="quiet" onClick={() => setLooked(act)}>
                Look at it as it was then
              </button>
            </li>
          )}
        </For>
      </ol>
      <Show when={acts().length > shown()}>
        <button type="button" onClick={() => setShown(shown() + A_PAGE)}>
          Show more of {acts().length}
        </button>
      </Show>
      <Show when={looked()}>
        {(act) => <AsItWas desk={props.desk} act={act()} onClose={() => setLooked(undefined)} />}
      </Show>
    </main>
  );
}

function timeWords(at: string): string {
  return new Date(at).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
}

/** Old value and new, path by path; a whole document is told by its number of values. */
function Changes(props: { readonly desk: Desk; readonly act: Act }) {
  const before = (over: readonly string[], path: string): Json | undefined =>
    over.flatMap((id) => props.desk.fold().entries.get(id) ?? []).find((entry) => entry.path === path)?.value;
  const told = () => props.act.entries.filter(({ path }) => !path.endsWith("/@rank") && !path.startsWith("/fettle/"));
  return (
    <ul class="changes">
      <For each={told().slice(0, MOST_CHANGES)}>
        {({ path, value, over }) => (
          <li>
            {pathInWords(keysOf(path))}:{" "}
            <Show when={before(over, path) !== undefined}>
              <s>{shortValue(before(over, path))}</s> →{" "}
            </Show>
            {shortValue(value)}
          </li>
        )}
      </For>
      <Show when={told().length > MOST_CHANGES}>
        <li>and {told().length - MOST_CHANGES} more values</li>
      </Show>
    </ul>
  );
}

function AsItWas(props: { readonly desk: Desk; readonly act: Act; readonly onClose: () => void }) {
  const [trouble, setTrouble] = createSignal<Trouble>();
  const then = createMemo(() => foldUntil(props.desk.fold(), props.act.at).read().data);
  const changed = createMemo(() => differences(then(), props.desk.data()));
  const bringBack = async (): Promise<void> => {
    const words = `brought back as it was on ${timeWords(props.act.at)}`;
    const refused = await props.desk.writeIfRead(words, { path: "", value: then() });
    setTrouble(refused);
    if (!refused) props.onClose();
  };
  return (
    <Slip title={`As it was on ${timeWords(props.act.at)}`} onClose={props.onClose}>
      <Show when={changed().length > 0} fallback={<p>Nothing has changed since.</p>}>
        <p>{changed().length} values are different now.</p>
        <div class="wide">
          <table>
            <thead>
              <tr>
                <th scope="col">Value</th>
                <th scope="col">Then</th>
                <th scope="col">Now</th>
              </tr>
            </thead>
            <tbody>
              <For each={changed().slice(0, 200)}>
                {({ keys, before, after }) => (
                  <tr>
                    <td>{pathInWords(keys)}</td>
                    <td>{shortValue(before)}</td>
                    <td>{shortValue(after)}</td>
                  </tr>
                )}
              </For>
            </tbody>
          </table>
        </div>
        <TroubleNote trouble={trouble()} />
        <div class="row">
          <button type="button" class="main" onClick={() => void bringBack()}>
            Bring this state back
          </button>
        </div>
        <p class="source">Nothing is lost by it: bringing back is an act like any other and can be undone.</p>
      </Show>
    </Slip>
  );
}
