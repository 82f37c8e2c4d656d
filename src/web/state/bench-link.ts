/** The bench computer, where one serves this page: the two logs are exchanged whenever it can be seen. */
import { createSignal } from "solid-js";
import { createBenchClient } from "../../app/bench-client.ts";
import { exchange } from "../../app/exchange.ts";
import { InputError } from "../../core/errors.ts";
import type { Desk } from "./desk.ts";

export interface BenchLink {
  /** "none": this page stands alone. */
  readonly state: () => "none" | "together" | "apart";
  /** Counts up whenever something came. */
  readonly received: () => number;
}

const TRY_AGAIN_MS = 5000;
/** Under it the keeper notes that a bench computer was met where this page comes from. */
const MET = "bench computer met";

export function linkBench(desk: Desk): BenchLink {
  const [state, setState] = createSignal<"none" | "together" | "apart">("none");
  const [received, setReceived] = createSignal(0);
  if (!location.protocol.startsWith("http")) return { state, received };
  const { keeper } = desk.keeping;
  const client = createBenchClient("");
  let running = false;
  let again = false;
  let listening = false;

  async function meet(): Promise<void> {
    if (running) {
      again = true;
      return;
    }
    running = true;
    try {
      const met = await exchange(keeper, await client.peer());
      if (state() === "none") await keeper.setNote(MET, "yes");
      setState("together");
      if (!listening) {
        listening = true;
        client.live(() => void meet());
      }
      if (met.received > 0) {
        setReceived(received() + 1);
        await desk.refresh();
      }
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      if (state() === "together") setState("apart");
    } finally {
      running = false;
      if (again) {
        again = false;
        void meet();
      }
    }
  }

  async function begin(): Promise<void> {
    if ((await keeper.note(MET)) !== undefined) setState("apart");
    await meet();
    // A plain host of files is not asked again.
    if (state() === "none") return;
    setInterval(() => void (state() === "apart" && meet()), TRY_AGAIN_MS);
    desk.onKept(() => void meet());
  }

  void begin();
  return { state, received };
}
