/** The papers of the job: every page as it will be printed, and the files to take to a printer or a shop. */
import { createEffect, createMemo, createResource, createSignal, For, Show } from "solid-js";
import type { WrittenPaper } from "../../app/paper-files.ts";
import { papers, readPrint } from "../../core/index.ts";
import type { PaperSet } from "../../core/sheets/index.ts";
import { PrintCorrection } from "../parts/print-correction.tsx";
import { TroubleNote } from "../parts/trouble.tsx";
import { type Desk, type Trouble, troubleOf } from "../state/desk.ts";
import { papers as writers } from "../state/late.ts";
import { offer } from "../state/offer.ts";
import { paperSize, setPaperSize, units } from "../state/settings.ts";
import "../style/papers.css";

export function PapersSheet(props: { readonly desk: Desk }) {
  const [chosen, setChosen] = createSignal<string>();
  const [trouble, setTrouble] = createSignal<Trouble>();
  const [large, setLarge] = createSignal(false);
  const [busy, setBusy] = createSignal("");
  const sets = createMemo((): readonly PaperSet[] => {
    const job = props.desk.job();
    if (!job) return [];
    const print = readPrint(job);
    const printFactors = print && "factors" in print ? print.factors : undefined;
    const options = { paper: paperSize(), date: today(), version: "1" };
    return papers(job, props.desk.verdicts(), printFactors ? { ...options, printFactors } : options);
  });
  const set = () => sets().find(({ id }) => id === chosen()) ?? sets()[0];
  const [pages] = createResource(
    () => ({ set: set(), units: units() }),
    async ({ set: wanted, units: unit }) => {
      if (!wanted) return [];
      try {
        return (await writers()).previewOf(wanted, unit);
      } catch (error) {
        setTrouble(troubleOf(error));
        return [];
      }
    },
  );
  const options = () => ({ units: units(), title: props.desk.job()?.title ?? "", created: new Date() });
  /** Says what it does while it does it: the papers of a job take a second or two. */
  const take = async (
    words: string,
    make: (writing: Awaited<ReturnType<typeof writers>>) => Promise<readonly WrittenPaper[]>,
  ): Promise<void> => {
    setTrouble(undefined);
    setBusy(words);
    try {
      // Once round, so that the words are seen before the work begins.
      await new Promise((settle) => setTimeout(settle, 30));
      for (const { name, content } of await make(await writers())) offer(name, content);
    } catch (error) {
      setTrouble(troubleOf(error));
    } finally {
      setBusy("");
    }
  };
  const onlyThis = () => set() as PaperSet;
  const printKept = () => props.desk.job()?.parsed.file.record?.printed !== undefined;
  const hasDrawing = () => set()?.documents.some(({ kind }) => kind === "drawing") ?? false;
  return (
    <main class="papers" aria-labelledby="papers-title">
      <h1 id="papers-title">Papers</h1>
      <div class="row">
        <For each={sets()}>
          {(one) => (
            <button type="button" aria-pressed={one.id === set()?.id} onClick={() => setChosen(one.id)}>
              {one.title}
            </button>
          )}
        </For>
      </div>
      <div class="row">
        <fieldset class="tools">
          <legend class="visually-hidden">Paper</legend>
          <For each={["A4", "Letter"] as const}>
            {(size) => (
              <label>
                <input type="radio" name="paper" checked={paperSize() === size} onChange={() => setPaperSize(size)} />{" "}
                {size}
              </label>
            )}
          </For>
        </fieldset>
        <button
          type="button"
          class="main"
          disabled={busy() !== ""}
          onClick={() => void take("Writing the PDF …", async (writing) => [await writing.pdf(onlyThis(), options())])}
        >
          This paper as PDF
        </button>
        <Show when={hasDrawing()}>
          <button
            type="button"
            disabled={busy() !== ""}
            onClick={() =>
              void take("Writing the drawing …", async (writing) => writing.drawings(onlyThis(), options()))
            }
          >
            As DXF and SVG
          </button>
        </Show>
        <button
          type="button"
          disabled={busy() !== ""}
          onClick={() =>
            void take("Writing all papers …", async (writing) => [await writing.wholePdf(sets(), options())])
          }
        >
          All papers in one PDF
        </button>
        <button
          type="button"
          disabled={busy() !== ""}
          onClick={() =>
            void take("Writing all files …", async (writing) => [
              { name: "papers.zip", content: await writing.zip(sets(), options()) },
            ])
          }
        >
          All files in one archive
        </button>
        <p class="waiting" role="status">
          {busy()}
        </p>
      </div>
      <Show when={hasDrawing() || printKept()}>
        <PrintCorrection desk={props.desk} sheet={hasDrawing() ? set() : undefined} sheets={sets()} />
      </Show>
      <p class="source">
        Print at full size ("100 %", no fitting to the page), then measure the rules of a drawing before anything is
        marked from it. Without a printer, the marking-out list carries the same places as figures.
      </p>
      <TroubleNote trouble={trouble()} onClear={() => setTrouble(undefined)} />
      <button type="button" class="enlarge" aria-pressed={large()} onClick={() => setLarge(!large())}>
        Pages at full size
      </button>
      <Show when={!pages.loading} fallback={<p class="waiting">Drawing the pages …</p>}>
        <For each={pages()}>
          {(page, index) => <PageView svg={page} title={`${set()?.title}, page ${index() + 1}`} large={large()} />}
        </For>
      </Show>
    </main>
  );
}

function today(): string {
  return new Date().toISOString().slice(0, 10);
}

/** The page's own picture, read as XML and never as a part of this page's text. */
function PageView(props: { readonly svg: string; readonly title: string; readonly large: boolean }) {
  let place: HTMLElement | undefined;
  createEffect(() => {
    const read = new DOMParser().parseFromString(props.svg, "image/svg+xml").documentElement;
    place?.replaceChildren(document.adoptNode(read));
  });
  return (
    <figure
      class="paper-page"
      classList={{ large: props.large }}
      aria-label={props.title}
      tabindex={props.large ? 0 : undefined}
    >
      <div
        ref={(element) => {
          place = element;
        }}
      />
    </figure>
  );
}
