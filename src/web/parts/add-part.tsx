/** Adds a part to the job: a new one, or one of the own jobs; each in its place. */
import { createResource, createSignal, For, Show } from "solid-js";
import {
  CONTROL_SIZES,
  cavitiesIn,
  type OwnPart,
  ownParts,
  PART_KINDS,
  type PartKind,
  partAdded,
} from "../state/add-part.ts";
import { type Desk, type Trouble, troubleOf } from "../state/desk.ts";
import { TOOLS } from "../state/settings.ts";
import { TroubleNote } from "./trouble.tsx";

const KINDS = Object.entries(PART_KINDS) as readonly (readonly [PartKind, (typeof PART_KINDS)[PartKind]])[];
const PLACES: Readonly<Record<PartKind, string>> = {
  pickup: "Where it goes: neck, middle, bridge",
  pot: "Where it goes: volume, tone",
  jack: "Where it goes: jack",
  tuners: "",
};

export function AddPart(props: { readonly desk: Desk }) {
  const [open, setOpen] = createSignal(false);
  const [trouble, setTrouble] = createSignal<Trouble>();
  const [added, setAdded] = createSignal("");
  const [kind, setKind] = createSignal<PartKind>("pickup");
  const [from, setFrom] = createSignal<OwnPart>();
  const [name, setName] = createSignal("");
  const [place, setPlace] = createSignal("");
  const [cavity, setCavity] = createSignal("");
  const [tool, setTool] = createSignal<string>("calliper");
  const [sizes, setSizes] = createSignal<Readonly<Record<string, string>>>({});
  const [at, setAt] = createSignal<Readonly<Record<string, string>>>({});
  const [own] = createResource(open, (wanted) => (wanted ? ownParts(props.desk) : []));
  const isControl = () => kind() === "pot" || kind() === "jack";

  const choose = (text: string): void => {
    const part = own()?.[Number(text)];
    setFrom(part);
    setSizes({});
    if (!part) return;
    setKind(part.kind);
    setName(part.name);
  };
  const add = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    setTrouble(undefined);
    setAdded("");
    const taken = from();
    try {
      const changes = partAdded(props.desk.data(), {
        kind: kind(),
        name: name(),
        sizes: sizes(),
        place: place(),
        tool: tool(),
        ...(cavity() === "" ? {} : { cavity: cavity() }),
        ...(isControl() ? { at: at() } : {}),
        ...(taken ? { from: taken.part } : {}),
      });
      const refused = await props.desk.writeIfRead(`added ${PART_KINDS[kind()].words}: ${name()}`, ...changes);
      if (refused) {
        setTrouble(refused);
        return;
      }
      setAdded(`Added: ${name()}.`);
      setFrom(undefined);
      setName("");
      setSizes({});
      setAt({});
      setPlace("");
    } catch (error) {
      setTrouble(troubleOf(error));
    }
  };
  return (
    <details class="add-wood add-part" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <b>Add a part</b>
      </summary>
      <form onSubmit={(event) => void add(event)}>
        <Show when={(own()?.length ?? 0) > 0}>
          <label class="long">
            From your own jobs
            <select onChange={(event) => choose(event.currentTarget.value)}>
              <option value="">a new part</option>
              <For each={own()}>
                {(one, index) => (
                  <option value={index()} selected={from() === one}>
                    {one.name}, {PART_KINDS[one.kind].words}, in {one.job || "an untitled job"}
                  </option>
                )}
              </For>
            </select>
          </label>
        </Show>
        <label>
          What it is{" "}
          <select
            disabled={from() !== undefined}
            onChange={(event) => {
              setKind(event.currentTarget.value as PartKind);
              setSizes({});
            }}
          >
            <For each={KINDS}>
              {([key, { words }]) => (
                <option value={key} selected={kind() === key}>
                  {words}
                </option>
              )}
            </For>
          </select>
        </label>
        <label>
          What it is called{" "}
          <input type="text" maxlength="80" value={name()} onInput={(event) => setName(event.currentTarget.value)} />
        </label>
        <label>
          read with a{" "}
          <select onChange={(event) => setTool(event.currentTarget.value)}>
            <For each={TOOLS}>{(one) => <option selected={one === tool()}>{one}</option>}</For>
          </select>
        </label>
        <Show when={from() === undefined}>
          <Sizes names={PART_KINDS[kind()].sizes} values={sizes()} onChange={setSizes} />
        </Show>
        <Show when={PLACES[kind()] !== ""}>
          <label class="long">
            {PLACES[kind()]}
            <input
              type="text"
              maxlength="40"
              value={place()}
              onInput={(event) => setPlace(event.currentTarget.value)}
            />
          </label>
        </Show>
        <Show when={kind() === "pickup" && cavitiesIn(props.desk.data()).length > 0}>
          <label>
            Into the rout{" "}
            <select onChange={(event) => setCavity(event.currentTarget.value)}>
              <option value="">none yet</option>
              <For each={cavitiesIn(props.desk.data())}>
                {(one) => <option value={one}>{one.replaceAll("-", " ")}</option>}
              </For>
            </select>
          </label>
        </Show>
        <Show when={isControl()}>
          <Sizes names={CONTROL_SIZES} values={at()} onChange={setAt} />
        </Show>
        <p class="source">What you leave empty stays unknown, and is asked for where it decides.</p>
        <button type="submit" disabled={name().trim() === ""}>
          Add this part
        </button>
      </form>
      <TroubleNote trouble={trouble()} onClear={() => setTrouble(undefined)} />
      <p role="status">{added()}</p>
    </details>
  );
}

interface SizesProps {
  readonly names: Readonly<Record<string, string>>;
  readonly values: Readonly<Record<string, string>>;
  readonly onChange: (values: Readonly<Record<string, string>>) => void;
}

function Sizes(props: SizesProps) {
  return (
    <For each={Object.entries(props.names)}>
      {([key, words]) => (
        <label class="size">
          {words}
          <input
            type="text"
            inputmode="decimal"
            maxlength="60"
            value={props.values[key] ?? ""}
            onInput={(event) => props.onChange({ ...props.values, [key]: event.currentTarget.value })}
          />
          <span class="unit">mm</span>
        </label>
      )}
    </For>
  );
}
