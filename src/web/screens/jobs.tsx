/** The jobs kept here, the last worked on first; another can be begun or opened from a file. */
import { createResource, createSignal, For, Show } from "solid-js";
import type { JobLine } from "../../store/index.ts";
import { PlainHttp } from "../parts/plain-http.tsx";
import { TroubleNote } from "../parts/trouble.tsx";
import { type Desk, type Trouble, troubleOf } from "../state/desk.ts";
import { openJobFile } from "../state/job-files.ts";
import { addressOf, goTo, toSheet } from "../state/route.ts";

const A_PAGE = 30;

export function Jobs(props: { readonly desk: Desk; readonly changed: () => number }) {
  const [search, setSearch] = createSignal("");
  const [shown, setShown] = createSignal(A_PAGE);
  const [trouble, setTrouble] = createSignal<Trouble>();
  const [list] = createResource(
    () => ({ search: search(), limit: shown(), changed: props.changed() }),
    ({ search: letters, limit }) =>
      props.desk.keeping.keeper.jobs({ limit, ...(letters.trim() === "" ? {} : { search: letters.trim() }) }),
  );
  const openFile = async (file: File | undefined): Promise<void> => {
    if (!file) return;
    setTrouble(undefined);
    try {
      const { id, words, document } = await openJobFile(file);
      await props.desk.begin(id, words, document);
      goTo(toSheet(id, "way"));
    } catch (error) {
      setTrouble(troubleOf(error));
    }
  };
  return (
    <main class="jobs" aria-labelledby="jobs-title">
      <h1 id="jobs-title">Jobs on this bench</h1>
      <div class="row">
        <a class="button main" href={addressOf({ at: "begin" })}>
          Begin with a question
        </a>
        <label class="button file">
          Open a job file
          <input
            type="file"
            accept=".yaml,.yml,.json"
            onChange={(event) => {
              void openFile(event.currentTarget.files?.[0]);
              event.currentTarget.value = "";
            }}
          />
        </label>
      </div>
      <PlainHttp />
      <TroubleNote trouble={trouble()} onClear={() => setTrouble(undefined)} />
      <Show when={(list()?.total ?? 0) > 8 || search() !== ""}>
        <label class="search">
          Find a job by its title{" "}
          <input type="search" value={search()} onInput={(event) => setSearch(event.currentTarget.value)} />
        </label>
      </Show>
      <ul class="job-list">
        <For each={list.latest?.jobs ?? []} fallback={<li class="none">{list.loading ? "Looking …" : "None yet."}</li>}>
          {(job) => <JobRow job={job} />}
        </For>
      </ul>
      <Show when={(list.latest?.total ?? 0) > shown()}>
        <button type="button" onClick={() => setShown(shown() + A_PAGE)}>
          Show more of {list.latest?.total}
        </button>
      </Show>
    </main>
  );
}

function JobRow(props: { readonly job: JobLine }) {
  const when = () => new Date(props.job.changed).toLocaleDateString(undefined, { dateStyle: "medium" });
  return (
    <li>
      <a href={addressOf(toSheet(props.job.id, "way"))}>
        <span class="title">{props.job.title || "Untitled job"}</span>
        <small>
          {props.job.id}, last changed {when()}
        </small>
      </a>
    </li>
  );
}
