/** The holes as they came out, where they did not come out as planned: everything after is decided from these. */
import { createSignal, For, Show } from "solid-js";
import type { Step } from "../../core/plan/index.ts";
import type { Verdict, Work } from "../../core/verdict/index.ts";
import { tickOff } from "../state/bench-work.ts";
import { type Desk, type Trouble, troubleOf } from "../state/desk.ts";
import { type DrilledRow, drilledFrom } from "../state/drilled.ts";
import { Words } from "./phrase.tsx";
import { Slip } from "./sheet-dialog.tsx";
import { StatusWord } from "./status.tsx";
import { TroubleNote } from "./trouble.tsx";

const FIELDS = [
  ["u", "back from the end wall"],
  ["y", "across"],
  ["diameter", "diameter"],
  ["depth", "depth"],
] as const;

export interface AsDrilledProps {
  readonly desk: Desk;
  readonly step: Step;
  readonly onClose: () => void;
}

export function AsDrilled(props: AsDrilledProps) {
  const work = props.step.work as Extract<Work, { act: "drill" }>;
  const [rows, setRows] = createSignal<readonly DrilledRow[]>(
    work.holes.map(({ id, u, y, diameter, depth }) => ({
      id,
      u: u.toFixed(2),
      y: y.toFixed(2),
      diameter: diameter.toFixed(1),
      depth: depth.toFixed(1),
    })),
  );
  const [note, setNote] = createSignal("");
  const [trouble, setTrouble] = createSignal<Trouble>();
  const [changed, setChanged] = createSignal<readonly Verdict[]>();
  const change = (id: string, field: keyof DrilledRow, value: string): void => {
    setRows(rows().map((row) => (row.id === id ? { ...row, [field]: value } : row)));
  };
  const keep = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const before = new Map(props.desk.verdicts().map(({ id, status }) => [id, status]));
    try {
      const as = drilledFrom(work, rows());
      const at = new Date().toISOString();
      const words = `as drilled: ${props.step.id}`;
      const refused = await props.desk.writeIfRead(words, ...tickOff(props.desk.fold(), props.step, at, as, note()));
      setTrouble(refused);
      if (!refused) setChanged(props.desk.verdicts().filter(({ id, status }) => before.get(id) !== status));
    } catch (error) {
      setTrouble(troubleOf(error));
    }
  };
  return (
    <Slip title="As it was drilled" onClose={props.onClose}>
      <Show
        when={changed()}
        fallback={
          <form onSubmit={(event) => void keep(event)}>
            <p>Measure each hole as it is now, in millimetres. The planned figures stand in the boxes.</p>
            <div class="wide">
              <table class="as-drilled">
                <thead>
                  <tr>
                    <th scope="col">Hole</th>
                    <For each={FIELDS}>{([, words]) => <th scope="col">{words}</th>}</For>
                  </tr>
                </thead>
                <tbody>
                  <For each={work.holes}>
                    {({ id }, index) => (
                      <tr>
                        <th scope="row">{id}</th>
                        <For each={FIELDS}>
                          {([field, words]) => (
                            <td>
                              <input
                                type="text"
                                inputmode="decimal"
                                aria-label={`${id}, ${words}`}
                                value={rows()[index()]?.[field] ?? ""}
                                onChange={(event) => change(id, field, event.currentTarget.value)}
                              />
                            </td>
                          )}
                        </For>
                      </tr>
                    )}
                  </For>
                </tbody>
              </table>
            </div>
            <label class="note">
              What happened (snapped, wandered, chipped)
              <input type="text" value={note()} onInput={(event) => setNote(event.currentTarget.value)} />
            </label>
            <TroubleNote trouble={trouble()} />
            <button type="submit" class="main">
              Keep it as drilled
            </button>
          </form>
        }
      >
        {(list) => (
          <>
            <p>Kept. Everything was decided anew from it.</p>
            <ul class="brief">
              <For each={list()} fallback={<li>No answer changed.</li>}>
                {(verdict) => (
                  <li>
                    <StatusWord status={verdict.status} />
                    <span>
                      <Words of={verdict.headline} />
                    </span>
                  </li>
                )}
              </For>
            </ul>
          </>
        )}
      </Show>
    </Slip>
  );
}
