/** The page: the sheet that lies open, and a title block along its foot as on any drawing. */
import {
  type Component,
  createEffect,
  createMemo,
  createSignal,
  ErrorBoundary,
  For,
  type JSX,
  lazy,
  Match,
  onCleanup,
  Show,
  Suspense,
  Switch,
} from "solid-js";
import { TitleBlock } from "./parts/title-block.tsx";
import { TroubleNote } from "./parts/trouble.tsx";
import { InTheWay } from "./screens/in-the-way.tsx";
import { Jobs } from "./screens/jobs.tsx";
import type { BenchLink } from "./state/bench-link.ts";
import { type Desk, troubleOf } from "./state/desk.ts";
import { late } from "./state/late.ts";
import { type Route, route } from "./state/route.ts";

type OnDesk = { readonly desk: Desk };

/** A sheet whose script comes when it is first opened, or once the page has been seen. */
function laterSheet<Props extends object>(load: () => Promise<Component<Props>>) {
  return lazy(async () => ({ default: await late(load) }));
}

const Begin = laterSheet<OnDesk & { readonly starter: string | undefined }>(() =>
  import("./screens/begin.tsx").then(({ Begin: sheet }) => sheet),
);
const JOB_SHEETS = {
  marking: laterSheet<OnDesk>(() => import("./screens/marking-out.tsx").then(({ MarkingOut }) => MarkingOut)),
  traveller: laterSheet<OnDesk>(() => import("./screens/traveller.tsx").then(({ TravellerSheet }) => TravellerSheet)),
  wiring: laterSheet<OnDesk>(() => import("./screens/wiring.tsx").then(({ WiringSheet }) => WiringSheet)),
  data: laterSheet<OnDesk>(() => import("./screens/instrument.tsx").then(({ DataSheet }) => DataSheet)),
  papers: laterSheet<OnDesk>(() => import("./screens/papers.tsx").then(({ PapersSheet }) => PapersSheet)),
  history: laterSheet<OnDesk>(() => import("./screens/history.tsx").then(({ HistorySheet }) => HistorySheet)),
};

/** Fetches the other sheets while nobody waits for them, so that they open at once and without a network. */
export function fetchSheets(): void {
  for (const sheet of [Begin, ...Object.values(JOB_SHEETS)]) void sheet.preload().catch(() => undefined);
}

export function App(props: { readonly desk: Desk; readonly bench: BenchLink }) {
  const [opened, setOpened] = createSignal(false);
  const onJob = () => {
    const here = route();
    return here.at === "job" ? here : undefined;
  };
  // The job alone: from sheet to sheet it stays open.
  const jobId = createMemo(() => onJob()?.job);
  createEffect(() => {
    const id = jobId();
    if (id === undefined) return;
    setOpened(false);
    void props.desk.open(id).then(() => setOpened(true));
  });
  createEffect(() => {
    document.title = onJob() && props.desk.job() ? `${props.desk.job()?.title} · Fettle` : "Fettle";
  });
  const keys = (event: KeyboardEvent): void => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || isTyping(event.target)) return;
    const key = event.key.toLowerCase();
    if (key === "z" && !event.shiftKey) void props.desk.undo();
    else if ((key === "z" && event.shiftKey) || key === "y") void props.desk.redo();
    else return;
    event.preventDefault();
  };
  addEventListener("keydown", keys);
  onCleanup(() => removeEventListener("keydown", keys));
  return (
    <>
      <button type="button" class="skip" onClick={() => document.getElementById("sheet")?.focus()}>
        To the sheet
      </button>
      <div id="sheet" class="sheet" tabindex="-1">
        <Show when={!props.desk.keeping.lasts}>
          <p class="trouble" role="alert">
            This browser keeps nothing once the page is closed. Save the job as a file before you leave.
          </p>
        </Show>
        <TroubleNote trouble={props.desk.trouble()} onClear={() => props.desk.clearTrouble()} />
        <Switch>
          <Match when={route().at === "jobs"}>
            <Jobs desk={props.desk} changed={props.bench.received} />
          </Match>
          <Match when={route().at === "begin"}>
            <Later>
              <Begin desk={props.desk} starter={starterOf(route())} />
            </Later>
          </Match>
          <Match when={onJob()}>
            {(here) => (
              <Show when={opened()} fallback={<p class="waiting">Opening the job …</p>}>
                <TroubleNote trouble={props.desk.refused()} />
                <Disputes desk={props.desk} />
                <Show when={props.desk.job()} fallback={<NoJob desk={props.desk} />}>
                  <Switch>
                    <Match when={here().sheet === "way"}>
                      <InTheWay desk={props.desk} />
                    </Match>
                    <For each={Object.entries(JOB_SHEETS)}>
                      {([name, Sheet]) => (
                        <Match when={here().sheet === name}>
                          <Later>
                            <Sheet desk={props.desk} />
                          </Later>
                        </Match>
                      )}
                    </For>
                  </Switch>
                </Show>
              </Show>
            )}
          </Match>
        </Switch>
      </div>
      <TitleBlock desk={props.desk} bench={props.bench} />
    </>
  );
}

function Later(props: { readonly children: JSX.Element }) {
  return (
    <ErrorBoundary fallback={(error) => <TroubleNote trouble={troubleOf(error)} />}>
      <Suspense fallback={<p class="waiting">Opening the sheet …</p>}>{props.children}</Suspense>
    </ErrorBoundary>
  );
}

function starterOf(here: Route): string | undefined {
  return here.at === "begin" ? here.starter : undefined;
}

function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement;
}

function NoJob(props: { readonly desk: Desk }) {
  return (
    <main>
      <h1>{props.desk.fold().entries.size === 0 ? "There is no such job here" : "This job cannot be read"}</h1>
      <p>
        <a href="#/">To the list of jobs</a>
      </p>
    </main>
  );
}

/** Two values for one path, written on two devices: somebody has to choose. */
function Disputes(props: { readonly desk: Desk }) {
  return (
    <Show when={props.desk.disputes().length > 0}>
      <section class="disputes" aria-label="Two values for one thing">
        <For each={props.desk.disputes()}>
          {(dispute) => (
            <p>
              <strong>{dispute.path.slice(1).replaceAll("/", " › ")}</strong> was written on two devices:{" "}
              <For each={dispute.values}>
                {({ entry, value }, index) => (
                  <button
                    type="button"
                    class="quiet"
                    onClick={() =>
                      void props.desk.write(`chose for ${dispute.path}`, {
                        path: dispute.path,
                        ...(value === undefined ? {} : { value }),
                      })
                    }
                  >
                    {index() === 0 ? "keep " : "take "}
                    {value === undefined ? "taken away" : typeof value === "string" ? value : JSON.stringify(value)}
                    <small> {entry.at.slice(0, 16).replace("T", " ")}</small>
                  </button>
                )}
              </For>
            </p>
          )}
        </For>
      </section>
    </Show>
  );
}
