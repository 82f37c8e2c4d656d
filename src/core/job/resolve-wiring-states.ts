/** The states of a wiring: those that the file names, else every position of its switches with the knobs full. */
import type { ContactMap } from "../circuit/index.ts";
import { InputError } from "../errors.ts";
import type { WiredState } from "./instrument-wiring.ts";
import type { JobFile } from "./schema.ts";
import type { Taker } from "./taker.ts";

type FileWiring = NonNullable<JobFile["wiring"]>;

interface Turned {
  readonly switches: readonly { readonly id: string; readonly map: ContactMap }[];
  readonly tracks: readonly { readonly id: string; readonly control: string }[];
}

/** More are not shown: whoever has five switches names the states that matter. */
const MOST_STATES = 64;
const FULL = 10;

export function resolveStates(
  source: FileWiring,
  turned: Turned,
  taker: Taker,
  strays: { where: string; lug: string }[],
): WiredState[] {
  const named = Object.entries(source.states ?? {});
  if (named.length === 0) return everyPosition(turned).map((state) => withReading(state, taker));
  return named.map(([id, state]) => {
    const here = `wiring.states.${id}`;
    const switches: Record<string, string> = {};
    for (const { id: name, map } of turned.switches) {
      const said = state.switches?.[name];
      // "1" of a job with one switch is its position 1.
      const alone = turned.switches.length === 1 && map.positions.some((position) => position.name === id);
      const position = said === undefined ? (alone ? id : map.positions[0]?.name) : String(said);
      if (!map.positions.some((one) => one.name === position))
        throw new InputError(
          `${here}.switches.${name}`,
          `"${position}" is not a position of ${name}`,
          `Its positions are ${map.positions.map((one) => one.name).join(", ")}`,
        );
      switches[name] = position ?? "";
    }
    for (const name of Object.keys(state.switches ?? {}))
      if (!(name in switches)) strays.push({ where: `${here}.switches.${name}`, lug: name });
    const resolved: WiredState = {
      id,
      title: state.title ?? (turned.switches.length === 1 ? `position ${id}` : id.replaceAll("-", " ")),
      switches,
      travel: travelOf(state.knobs ?? {}, here, turned, taker, strays),
      ...(state.sound === undefined ? {} : { sound: state.sound }),
      ...(state.hum === undefined ? {} : { hum: state.hum }),
      ...(state.complaint === undefined ? {} : { complaint: state.complaint }),
    };
    return withReading(resolved, taker);
  });
}

/** The last reading at the jack before any work. */
function withReading(state: WiredState, taker: Taker): WiredState {
  const read = taker.asFound(`ohms.${state.id}`, "resistance").at(-1)?.quantity;
  return read === undefined ? state : { ...state, read };
}

function travelOf(
  knobs: NonNullable<NonNullable<FileWiring["states"]>[string]["knobs"]>,
  here: string,
  turned: Turned,
  taker: Taker,
  strays: { where: string; lug: string }[],
): Record<string, number> {
  const travel: Record<string, number> = {};
  for (const [name, raw] of Object.entries(knobs)) {
    const where = `${here}.knobs.${name}`;
    if (!turned.tracks.some(({ id }) => id === name)) strays.push({ where, lug: name });
    const said = taker.take(raw, where, { kind: "count", decided: true });
    const value = said.known ? said.value : FULL;
    if (!(value >= 0 && value <= FULL))
      throw new InputError(where, `must be 0 to ${FULL}, got ${value}`, `Write how far it is turned, ${FULL} is full`);
    travel[name] = value / FULL;
  }
  return travel;
}

function everyPosition({ switches }: Turned): WiredState[] {
  let states: Record<string, string>[] = [{}];
  for (const { id, map } of switches) {
    states = states.flatMap((state) => map.positions.map(({ name }) => ({ ...state, [id]: name })));
    if (states.length > MOST_STATES) return [];
  }
  return states.map((state) => {
    const parts = Object.entries(state);
    const id = parts.map(([, position]) => position).join("-") || "as-it-is";
    const title =
      parts.length === 1 ? `position ${parts[0]?.[1]}` : parts.map(([name, at]) => `${name} ${at}`).join(", ");
    return { id, title: title || "as it is", switches: state, travel: {} };
  });
}
