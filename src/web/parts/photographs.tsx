/** Photographs of a step, or of the whole job: taken, shown small and large, said what they show. */
import { createResource, createSignal, For, onCleanup, Show } from "solid-js";
import { type Desk, type Trouble, troubleOf } from "../state/desk.ts";
import { type KeptPhotograph, offTheRecord, photographsOf, saysWhat, takePhotograph } from "../state/photographs.ts";
import { Slip } from "./sheet-dialog.tsx";
import { TroubleNote } from "./trouble.tsx";
import "../style/photographs.css";

interface PhotographsProps {
  readonly desk: Desk;
  /** Id of the step that they belong to; left out: all of the job. */
  readonly step?: string;
}

export function Photographs(props: PhotographsProps) {
  const [trouble, setTrouble] = createSignal<Trouble>();
  const [busy, setBusy] = createSignal(false);
  const [large, setLarge] = createSignal<string>();
  const all = () => photographsOf(props.desk, props.step);
  const opened = () => all().find(({ hash }) => hash === large());
  const take = async (files: FileList | null): Promise<void> => {
    setTrouble(undefined);
    setBusy(true);
    try {
      for (const file of files ?? []) await takePhotograph(props.desk, file, props.step);
    } catch (error) {
      setTrouble(troubleOf(error));
    } finally {
      setBusy(false);
    }
  };
  return (
    <section class="photographs" aria-label={props.step === undefined ? "All photographs" : "Photographs of this step"}>
      <Show when={all().length > 0}>
        <ul>
          <For each={all().map(({ hash }) => hash)}>
            {(hash) => (
              <li>
                <button type="button" class="quiet" onClick={() => setLarge(hash)}>
                  <Picture desk={props.desk} hash={hash} words={wordsOf(all().find((one) => one.hash === hash))} />
                  <small>{wordsOf(all().find((one) => one.hash === hash))}</small>
                </button>
              </li>
            )}
          </For>
        </ul>
      </Show>
      <label class="button file">
        {busy() ? "Keeping it …" : "Take a photograph"}
        <input
          type="file"
          accept="image/jpeg,image/png,image/webp"
          capture="environment"
          disabled={busy()}
          onChange={(event) => {
            const { files } = event.currentTarget;
            void take(files).then(() => {
              event.target.value = "";
            });
          }}
        />
      </label>
      <TroubleNote trouble={trouble()} onClear={() => setTrouble(undefined)} />
      <Show when={opened()}>
        {(one) => <Large desk={props.desk} photograph={one()} onClose={() => setLarge(undefined)} />}
      </Show>
    </section>
  );
}

function wordsOf(one: KeptPhotograph | undefined): string {
  if (!one) return "";
  const when = one.at === "" ? "" : new Date(one.at).toLocaleDateString(undefined, { dateStyle: "medium" });
  return one.shows === "" ? `Photograph, ${when}` : one.shows;
}

const AGAIN_MS = 2000;

interface PictureProps {
  readonly desk: Desk;
  readonly hash: string;
  readonly words: string;
}

/** The bytes come from this page's keeper; one that was spoken of elsewhere may not be here yet. */
function Picture(props: PictureProps) {
  const [address, { refetch }] = createResource(
    () => props.hash,
    async (hash) => {
      const kept = await props.desk.keeping.keeper.photograph(hash);
      return kept && URL.createObjectURL(new Blob([kept.bytes as BlobPart], { type: kept.type }));
    },
  );
  // Its words travel before its bytes: it is looked for again until it has come.
  const again = setInterval(() => {
    if (!address.loading && address.latest === undefined) void refetch();
  }, AGAIN_MS);
  onCleanup(() => {
    clearInterval(again);
    const made = address.latest;
    if (made) URL.revokeObjectURL(made);
  });
  return (
    <Show
      when={address()}
      fallback={<span class="no-picture">{address.loading ? "Fetching it …" : "Not on this device yet"}</span>}
    >
      {(made) => <img src={made()} alt={props.words} />}
    </Show>
  );
}

interface LargeProps {
  readonly desk: Desk;
  readonly photograph: KeptPhotograph;
  readonly onClose: () => void;
}

function Large(props: LargeProps) {
  const [shows, setShows] = createSignal(props.photograph.shows);
  const keep = (event: SubmitEvent): void => {
    event.preventDefault();
    const { hash } = props.photograph;
    void props.desk.write("said what a photograph shows", saysWhat(hash, shows())).then(props.onClose);
  };
  const leaveOut = (): void => {
    void props.desk.write("photograph taken off the record", offTheRecord(props.photograph.hash)).then(props.onClose);
  };
  return (
    <Slip title="Photograph" onClose={props.onClose}>
      <div class="large-picture">
        <Picture desk={props.desk} hash={props.photograph.hash} words={wordsOf(props.photograph)} />
      </div>
      <p class="source">
        Taken{" "}
        {props.photograph.at === "" ? "at a time not written down" : new Date(props.photograph.at).toLocaleString()}
      </p>
      <form onSubmit={keep}>
        <label>
          What it shows{" "}
          <input type="text" maxlength="500" value={shows()} onInput={(event) => setShows(event.currentTarget.value)} />
        </label>
        <div class="row">
          <button type="submit" class="main">
            Keep the words
          </button>
          <button type="button" onClick={leaveOut}>
            Take it off the record
          </button>
        </div>
      </form>
    </Slip>
  );
}
