/** What went wrong at a step: written down, with the careful next act. */
import { createSignal, For, Show } from "solid-js";
import { mapKey, pathOf } from "../../core/log/index.ts";
import type { Desk, Trouble } from "../state/desk.ts";
import { randomLetters, versionOf } from "../state/readings.ts";
import { Slip } from "./sheet-dialog.tsx";
import { TroubleNote } from "./trouble.tsx";

/** Common practice, no source: what a careful hand does first, without a figure that nobody measured. */
const NEXT = {
  "screw snapped": [
    "Stop: do not drill at the stump with the bit for the hole, it will run off into the wood.",
    "If it stands proud, warm it with a soldering iron, let it cool, and turn it out with locking pliers.",
    "If not, cut a ring round it with a thin tube saw, lift it out, and plug the hole: then enter that hole as it now is.",
  ],
  "screw stuck": [
    "Do not force the slot: a fitting driver, pressed hard, first a hair tighter, then out.",
    "Warm the screw's head with a soldering iron for a few seconds, let it cool, and try again.",
  ],
  "thread stripped": [
    "Wood: glue in a hardwood plug, let it cure, and drill it anew. Matchsticks hold for a while, not for good.",
    "Metal: turn the screw out, measure its thread, and look for a longer one before you cut another thread.",
  ],
  "wood or finish chipped": [
    "Keep the chip, and lay tape over the place before anything else moves.",
    "A chip that fits is glued back at once, and pressed under film; what is under the new part may stay.",
  ],
  "something else": ["Stop, take a photograph, and look at what the next steps still rest on."],
} as const;

type What = keyof typeof NEXT;

export interface MishapsProps {
  readonly desk: Desk;
  readonly step: string;
  /** Holes that wandered have a way of their own: they are values, and everything after is decided from them. */
  readonly drills: boolean;
}

export function Mishaps(props: MishapsProps) {
  const [open, setOpen] = createSignal(false);
  const [what, setWhat] = createSignal<What>("screw snapped");
  const [words, setWords] = createSignal("");
  const [trouble, setTrouble] = createSignal<Trouble>();
  const kept = () =>
    Object.entries(props.desk.job()?.parsed.file.record?.mishaps ?? {}).filter(([, { step }]) => step === props.step);
  const pathTo = (id: string) => pathOf(["record", "mishaps", mapKey(id)]);
  const keep = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const said = words().trim();
    const value = {
      step: props.step,
      what: what(),
      at: new Date().toISOString(),
      ...(said === "" ? {} : { words: said }),
    };
    const refused = await props.desk.writeIfRead(`went wrong: ${what()}`, ...versionOf(props.desk.data(), "record"), {
      path: pathTo(`mishap-${randomLetters(8)}`),
      value,
    });
    setTrouble(refused);
    if (refused) return;
    setWords("");
    setOpen(false);
  };
  return (
    <section class="mishaps" aria-label="What went wrong here">
      <For each={kept()}>
        {([id, one]) => (
          <div class="mishap" role="note">
            <p>
              <b>Went wrong: {one.what}.</b> {one.words} <small>{whenOf(one.at)}</small>
            </p>
            <Next what={one.what} />
            <button
              type="button"
              class="quiet"
              onClick={() => void props.desk.write("a mishap taken off the record", { path: pathTo(id) })}
            >
              Take it off the record
            </button>
          </div>
        )}
      </For>
      <button type="button" onClick={() => setOpen(true)}>
        Something went wrong
      </button>
      <Show when={open()}>
        <Slip title="Something went wrong" onClose={() => setOpen(false)}>
          <Show when={props.drills}>
            <p>
              A hole that wandered is entered where it now is: close this and press "It went otherwise". What follows is
              decided from it.
            </p>
          </Show>
          <form onSubmit={(event) => void keep(event)}>
            <label>
              What{" "}
              <select onChange={(event) => setWhat(event.currentTarget.value as What)}>
                <For each={Object.keys(NEXT)}>{(one) => <option selected={one === what()}>{one}</option>}</For>
              </select>
            </label>
            <Next what={what()} />
            <label class="long">
              In your words{" "}
              <input
                type="text"
                maxlength="500"
                value={words()}
                onInput={(event) => setWords(event.currentTarget.value)}
              />
            </label>
            <TroubleNote trouble={trouble()} />
            <div class="row">
              <button type="submit" class="main">
                Write it down
              </button>
            </div>
          </form>
        </Slip>
      </Show>
    </section>
  );
}

function whenOf(at: string | undefined): string {
  return at === undefined ? "" : new Date(at).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
}

function Next(props: { readonly what: What }) {
  return (
    <>
      <ol class="next-acts">
        <For each={NEXT[props.what]}>{(line) => <li>{line}</li>}</For>
      </ol>
      <p class="source">Common practice. Eye protection on; if the instrument is dear to you, ask a repairer first.</p>
    </>
  );
}
