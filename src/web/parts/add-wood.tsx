/** Adds old holes and routs to the instrument, and takes them away again. */
import { createSignal, For, Show } from "solid-js";
import {
  COUNTED_FROM,
  type CountedFrom,
  type HolesWanted,
  holesAdded,
  type RoutWanted,
  routAdded,
  takenAway,
  woodIn,
} from "../state/add-wood.ts";
import { type Desk, type Trouble, troubleOf } from "../state/desk.ts";
import { TOOLS } from "../state/settings.ts";
import { TroubleNote } from "./trouble.tsx";

const PURPOSES: Readonly<Record<HolesWanted["purpose"], string>> = {
  screw: "screws",
  "string-through": "strings through the body",
  post: "posts",
  wire: "a wire",
  other: "something else",
};

const SIZES = [
  ["length", "Length, the long way"],
  ["width", "Width, the short way"],
  ["depth", "Depth"],
  ["along", "Its middle, along the body"],
  ["across", "Its middle, from the centre line"],
  ["cornerRadius", "Radius of its corners"],
] as const;

const NO_SIZES: RoutWanted["sizes"] = { along: "", across: "", length: "", width: "", depth: "", cornerRadius: "" };

export function AddWood(props: { readonly desk: Desk }) {
  const [trouble, setTrouble] = createSignal<Trouble>();
  const [added, setAdded] = createSignal("");
  const [name, setName] = createSignal("");
  const [text, setText] = createSignal("");
  const [purpose, setPurpose] = createSignal<HolesWanted["purpose"]>("screw");
  const [from, setFrom] = createSignal<CountedFrom>("u");
  const [tool, setTool] = createSignal<string>("steel rule");
  const [face, setFace] = createSignal<RoutWanted["face"]>("top");
  const [routName, setRoutName] = createSignal("");
  const [sizes, setSizes] = createSignal(NO_SIZES);

  const write = async (words: string, make: () => ReturnType<typeof holesAdded>, after: () => void): Promise<void> => {
    setAdded("");
    setTrouble(undefined);
    try {
      const refused = await props.desk.writeIfRead(words, ...make());
      if (refused) {
        setTrouble(refused);
        return;
      }
      setAdded(`${words}.`);
      after();
    } catch (error) {
      setTrouble(troubleOf(error));
    }
  };
  const addHoles = (event: SubmitEvent): void => {
    event.preventDefault();
    const wanted = { name: name(), text: text(), from: from(), tool: tool(), purpose: purpose() };
    void write(
      `added holes: ${text()}`,
      () => holesAdded(props.desk.data(), wanted),
      () => setText(""),
    );
  };
  const addRout = (event: SubmitEvent): void => {
    event.preventDefault();
    const wanted = { name: routName(), face: face(), from: from(), tool: tool(), sizes: sizes() };
    void write(
      `added a rout: ${routName() || "rout"}`,
      () => routAdded(props.desk.data(), wanted),
      () => setSizes(NO_SIZES),
    );
  };
  return (
    <details class="add-wood">
      <summary>
        <b>Add or take away holes and routs</b>
      </summary>
      <p class="row">
        <label>
          Places along the body counted from{" "}
          <select onChange={(event) => setFrom(event.currentTarget.value as CountedFrom)}>
            <For each={Object.entries(COUNTED_FROM)}>{([key, words]) => <option value={key}>{words}</option>}</For>
          </select>
        </label>
        <label>
          read with a{" "}
          <select onChange={(event) => setTool(event.currentTarget.value)}>
            <For each={TOOLS}>{(one) => <option>{one}</option>}</For>
          </select>
        </label>
      </p>
      <form onSubmit={addHoles}>
        <h2>Old holes</h2>
        <label>
          Name{" "}
          <input type="text" maxlength="40" value={name()} onInput={(event) => setName(event.currentTarget.value)} />
        </label>
        <label>
          They are for{" "}
          <select onChange={(event) => setPurpose(event.currentTarget.value as HolesWanted["purpose"])}>
            <For each={Object.entries(PURPOSES)}>{([key, words]) => <option value={key}>{words}</option>}</For>
          </select>
        </label>
        <label class="long">
          Where they are, in one line
          <input
            type="text"
            maxlength="300"
            placeholder="201.5: 5 at 10 dia 3.2 deep 22"
            value={text()}
            onInput={(event) => setText(event.currentTarget.value)}
          />
        </label>
        <p class="source">
          Along, a colon, across: 5 at 10 is five holes 10 apart about the centre line; -20 -10 0 10 20 counts from the
          centre line, minus to the left; 0 10 20 30 40 runs from the first hole. Then dia 3.2, and deep 22 or through.
          More rows: a semicolon between.
        </p>
        <button type="submit" disabled={text().trim() === ""}>
          Add these holes
        </button>
      </form>
      <form onSubmit={addRout}>
        <h2>A rout</h2>
        <label>
          Name{" "}
          <input
            type="text"
            maxlength="40"
            value={routName()}
            onInput={(event) => setRoutName(event.currentTarget.value)}
          />
        </label>
        <label>
          Cut from the{" "}
          <select onChange={(event) => setFace(event.currentTarget.value as RoutWanted["face"])}>
            <option value="top">top</option>
            <option value="back">back</option>
          </select>
        </label>
        <For each={SIZES}>
          {([key, words]) => (
            <label class="size">
              {words}
              <input
                type="text"
                inputmode="decimal"
                maxlength="60"
                value={sizes()[key]}
                onInput={(event) => setSizes({ ...sizes(), [key]: event.currentTarget.value })}
              />
              <span class="unit">mm</span>
            </label>
          )}
        </For>
        <p class="source">What you leave empty stays unknown. Another unit may stand behind a figure: 2 3/4 in.</p>
        <button type="submit" disabled={Object.values(sizes()).every((one) => one.trim() === "")}>
          Add this rout
        </button>
      </form>
      <TroubleNote trouble={trouble()} onClear={() => setTrouble(undefined)} />
      <p role="status">{added()}</p>
      <Show when={woodIn(props.desk.data()).length > 0}>
        <h2>Take away</h2>
        <ul class="wood-list">
          <For each={woodIn(props.desk.data())}>
            {(line) => (
              <li>
                <span>
                  {line.id.replaceAll("-", " ")} <small>{line.kind === "holes" ? "holes" : "rout"}</small>
                </span>
                <button
                  type="button"
                  class="quiet"
                  aria-label={`Take away ${line.id.replaceAll("-", " ")}`}
                  onClick={() =>
                    void write(
                      `took away ${line.id}`,
                      () => [takenAway(line)],
                      () => undefined,
                    )
                  }
                >
                  Take away
                </button>
              </li>
            )}
          </For>
        </ul>
      </Show>
    </details>
  );
}
