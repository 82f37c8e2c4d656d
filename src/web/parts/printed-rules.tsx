/** What the rules of a printed sheet measured: whether holes may be marked from it. */
import { createSignal, For, Show } from "solid-js";
import { measuredPrint } from "../../core/index.ts";
import { printed } from "../state/bench-work.ts";
import { type Desk, type Trouble, troubleOf } from "../state/desk.ts";
import { TroubleNote } from "./trouble.tsx";

const LENGTHS = [
  ["along", "Down the sheet"],
  ["across", "Across the sheet"],
  ["diagonal1", "Top left to bottom right"],
  ["diagonal2", "Top right to bottom left"],
  ["code", "Code printed below the boxes"],
] as const;

type Key = (typeof LENGTHS)[number][0];

export function PrintedRules(props: { readonly desk: Desk; readonly sheet: string }) {
  const kept = () => props.desk.job()?.parsed.file.record?.printed;
  const [typed, setTyped] = createSignal<Readonly<Record<Key, string>>>({
    along: String(kept()?.along ?? ""),
    across: String(kept()?.across ?? ""),
    diagonal1: String(kept()?.diagonal1 ?? ""),
    diagonal2: String(kept()?.diagonal2 ?? ""),
    code: kept()?.code ?? "",
  });
  const [trouble, setTrouble] = createSignal<Trouble>();
  const keep = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const at = new Date().toISOString();
    const { code, ...lengths } = typed();
    try {
      measuredPrint({ ...lengths, ...(code.trim() === "" ? {} : { code }) });
    } catch (error) {
      setTrouble(troubleOf(error));
      return;
    }
    setTrouble(
      await props.desk.writeIfRead(
        "measured the printed rules",
        ...printed(props.desk.fold(), props.sheet, typed(), at),
      ),
    );
  };
  return (
    <form class="printed" aria-label="The rules of the print" onSubmit={(event) => void keep(event)}>
      <p>
        <strong>The rules of the print, measured with a steel rule</strong>
      </p>
      <For each={LENGTHS}>
        {([key, words]) => (
          <label>
            {words}
            <input
              type="text"
              inputmode={key === "code" ? "text" : "decimal"}
              value={typed()[key]}
              onInput={(event) => setTyped({ ...typed(), [key]: event.currentTarget.value })}
            />
            <span class="unit">{key === "code" ? "" : "mm"}</span>
          </label>
        )}
      </For>
      <TroubleNote trouble={trouble()} />
      <button type="submit" disabled={LENGTHS.some(([key]) => key !== "code" && typed()[key].trim() === "")}>
        Keep these lengths
      </button>
      <Show when={kept()}>
        <p role="status">Kept. Whether the sheet may be used stands at the gate of the step that marks from it.</p>
      </Show>
    </form>
  );
}
