/** "What are you about to do?": one question, a few readings, an answer; then it can be kept as a job. */
import { createMemo, createSignal, For, Match, onMount, Show, Switch } from "solid-js";
import { beginJob, readBack } from "../../app/begin.ts";
import { type Answers, type Entry, isDontKnow, STARTERS, type Starter, weakestValue } from "../../core/begin/index.ts";
import type { Json } from "../../core/log/index.ts";
import type { Phrase } from "../../core/quantity/index.ts";
import type { Verdict } from "../../core/verdict/index.ts";
import { EntryDrawing } from "../parts/entry-drawing.tsx";
import { Keypad } from "../parts/keypad.tsx";
import { Words } from "../parts/phrase.tsx";
import { StarterDrawing } from "../parts/starter-drawing.tsx";
import { SumSlip } from "../parts/sum-slip.tsx";
import { capital, TroubleNote } from "../parts/trouble.tsx";
import { type Desk, type Trouble, troubleOf } from "../state/desk.ts";
import { newJobId } from "../state/job-files.ts";
import { addressOf, goTo, toSheet } from "../state/route.ts";
import { InFull } from "./in-the-way.tsx";

export function Begin(props: { readonly desk: Desk; readonly starter: string | undefined }) {
  const starter = () => STARTERS.find(({ id }) => id === props.starter);
  return (
    <Show when={starter()} keyed fallback={<ChooseStarter />}>
      {(chosen) => <Asking desk={props.desk} starter={chosen} />}
    </Show>
  );
}

function ChooseStarter() {
  return (
    <main class="begin" aria-labelledby="begin-title">
      <h1 id="begin-title">What are you about to do?</h1>
      <ul class="starters">
        <For each={STARTERS}>
          {(starter) => (
            <li>
              <a href={addressOf({ at: "begin", starter: starter.id })}>
                <StarterDrawing id={starter.id} />
                <span>{starter.title}</span>
                <small>
                  {starter.entries.length} {starter.entries.length === 1 ? "reading" : "readings"}
                </small>
              </a>
            </li>
          )}
        </For>
      </ul>
    </main>
  );
}

type Read = { readonly phrase?: Phrase | undefined; readonly trouble?: Trouble };

function Asking(props: { readonly desk: Desk; readonly starter: Starter }) {
  const [answers, setAnswers] = createSignal<Answers>({});
  const [at, setAt] = createSignal(0);
  const entry = () => props.starter.entries[at()];
  const answer = (id: string, text: string): void => {
    setAnswers({ ...answers(), [id]: text });
    setAt(at() + 1);
  };
  return (
    <main class="begin asking" aria-labelledby="asking-title">
      <p class="starter-title">{props.starter.title}</p>
      <Show
        when={entry()}
        keyed
        fallback={
          <Answer desk={props.desk} starter={props.starter} answers={answers()} onBack={() => setAt(at() - 1)} />
        }
      >
        {(one) => (
          <OneEntry
            starter={props.starter}
            entry={one}
            place={`${at() + 1} of ${props.starter.entries.length}`}
            answers={answers()}
            onAnswer={(text) => answer(one.id, text)}
            onBack={() => (at() === 0 ? goTo({ at: "begin" }) : setAt(at() - 1))}
          />
        )}
      </Show>
    </main>
  );
}

interface OneEntryProps {
  readonly starter: Starter;
  readonly entry: Entry;
  readonly place: string;
  readonly answers: Answers;
  readonly onAnswer: (text: string) => void;
  readonly onBack: () => void;
}

function OneEntry(props: OneEntryProps) {
  let input: HTMLInputElement | undefined;
  const [typed, setTyped] = createSignal(props.answers[props.entry.id] ?? "");
  const [asked, setAsked] = createSignal(false);
  const read = createMemo<Read>(() => {
    if (isDontKnow(typed())) return {};
    try {
      return {
        phrase: readBack(
          props.starter,
          props.entry.id,
          upTo(props.starter, props.entry.id, { ...props.answers, [props.entry.id]: typed() }),
        ),
      };
    } catch (error) {
      return { trouble: troubleOf(error) };
    }
  });
  onMount(() => {
    // The question first: a page still scrolled down would hide it.
    scrollTo(0, 0);
    input?.focus({ preventScroll: true });
  });
  const next = (event: SubmitEvent): void => {
    event.preventDefault();
    setAsked(true);
    if (!read().trouble) props.onAnswer(typed());
  };
  return (
    <form class="entry" onSubmit={next}>
      <p class="place">{props.place}</p>
      <h1 id="asking-title">{props.entry.prompt}</h1>
      <div class="lay">
        <EntryDrawing id={props.entry.id} />
        <p id="lay">{props.entry.lay}</p>
      </div>
      <label class="big-entry">
        <span>
          For example <b>{props.entry.example}</b>
          <Show when={props.entry.tool}>
            {(tool) => <> ({tool()}; another tool goes behind the figures in brackets)</>}
          </Show>
        </span>
        <input
          ref={(element) => {
            input = element;
          }}
          type="text"
          inputmode={props.entry.kind === "words" ? "text" : "none"}
          autocomplete="off"
          spellcheck={false}
          value={typed()}
          aria-describedby="lay read"
          aria-invalid={asked() && read().trouble !== undefined}
          onInput={(event) => setTyped(event.currentTarget.value)}
        />
      </label>
      <p id="read" class="read" aria-live="polite">
        <Switch fallback={<>If you do not know: {props.entry.unknown}.</>}>
          <Match when={read().trouble}>
            {(trouble) => (
              <span class={asked() ? "wrong" : ""}>
                {capital(trouble().problem)}. {trouble().remedy}.
              </span>
            )}
          </Match>
          <Match when={read().phrase}>{(phrase) => <Words of={phrase()} />}</Match>
        </Switch>
      </p>
      <Show when={props.entry.kind !== "words"}>
        <Keypad input={() => input} />
      </Show>
      <div class="row steps">
        <button type="button" onClick={() => props.onBack()}>
          Back
        </button>
        <button type="button" onClick={() => props.onAnswer("")}>
          Don't know
        </button>
        <button type="submit" class="main">
          Next
        </button>
      </div>
      <details class="more">
        <summary>Other ways to write it</summary>
        <p>{props.entry.more}</p>
      </details>
    </form>
  );
}

/** Later entries may hang on this one and are read when their turn comes. */
function upTo(starter: Starter, entry: string, answers: Answers): Answers {
  const last = starter.entries.findIndex(({ id }) => id === entry);
  const ids = starter.entries.slice(0, last + 1).map(({ id }) => id);
  return Object.fromEntries(Object.entries(answers).filter(([id]) => ids.includes(id)));
}

interface AnswerProps {
  readonly desk: Desk;
  readonly starter: Starter;
  readonly answers: Answers;
  readonly onBack: () => void;
}

function Answer(props: AnswerProps) {
  const [summed, setSummed] = createSignal<Verdict>();
  const begun = createMemo(() => {
    try {
      return { job: beginJob(props.starter, props.answers) };
    } catch (error) {
      return { trouble: troubleOf(error) };
    }
  });
  const keep = async (): Promise<void> => {
    const { job } = begun();
    if (!job) return;
    const id = newJobId();
    await props.desk.begin(id, `begun with: ${props.starter.title}`, {
      ...job.data,
      job: { ...(job.data.job as object), id },
    } as Json);
    goTo(toSheet(id, "way"));
  };
  return (
    <div class="answer">
      <h1 id="asking-title">The answer so far</h1>
      <TroubleNote trouble={begun().trouble} />
      <Show when={begun().job}>
        {(job) => (
          <>
            <For each={job().verdicts}>
              {(verdict) => (
                <>
                  <InFull verdict={verdict} onSum={setSummed} onMeasure={() => void keep()} />
                  <Weakest verdict={verdict} />
                </>
              )}
            </For>
            <Show when={job().notes.length > 0}>
              <h2>Taken for granted, or left open</h2>
              <ul class="assumed">
                <For each={job().notes}>
                  {(note) => (
                    <li>
                      <Words of={note} />
                    </li>
                  )}
                </For>
              </ul>
            </Show>
            <div class="row">
              <button type="button" onClick={() => props.onBack()}>
                Back
              </button>
              <button type="button" class="main" onClick={() => void keep()}>
                Keep this as a job
              </button>
            </div>
          </>
        )}
      </Show>
      <Show when={begun().trouble}>
        <button type="button" onClick={() => props.onBack()}>
          Back
        </button>
      </Show>
      <Show when={summed()}>{(verdict) => <SumSlip verdict={verdict()} onClose={() => setSummed(undefined)} />}</Show>
    </div>
  );
}

function Weakest(props: { readonly verdict: Verdict }) {
  return (
    <Show when={weakestValue(props.verdict)}>
      {(weak) => (
        <p class="weakest">
          Weakest value: {weak().what}
          {weak().known === "" ? "" : ` (${weak().known})`}, {shareOf(weak().share)}. Better: {weak().next.tool}.{" "}
          {capital(weak().next.how)}
        </p>
      )}
    </Show>
  );
}

function shareOf(share: number | undefined): string {
  return share === undefined ? "not known at all" : `${Math.round(share * 100)} % of the doubt`;
}
