/** The bench computer, where one serves this page: the two logs are exchanged whenever it can be seen. */
import { createSignal } from "solid-js";
import { createBenchClient } from "../../app/bench-client.ts";
import { exchange } from "../../app/exchange.ts";
import type { Desk } from "./desk.ts";

export interface BenchLink {
  /** "none": this page stands alone. */
  readonly state: () => "none" | "together" | "apart";
  /** Counts up whenever something came. */
  readonly received: () => number;
}

const TRY_AGAIN_MS = 5000;

export function linkBench(desk: Desk): BenchLink {
  const [state, setState] = createSignal<"none" | "together" | "apart">("none");
  const [received, setReceived] = createSignal(0);
  if (!location.protocol.startsWith("http")) return { state, received };
  const client = createBenchClient("");
  let running = false;
  let again = false;

  async function meet(): Promise<void> {
    if (running) {
      again = true;
      return;
    }
    running = true;
    try {
      const peer = await client.peer();
      const met = await exchange(desk.keeping.keeper, peer);
      setState("together");
      if (met.received > 0) {
        setReceived(received() + 1);
        await desk.refresh();
      }
    } catch (error) {
      if (state() !== "none") setState("apart");
      console.info("the bench computer was not reached", error);
    } finally {
      running = false;
      if (again) {
        again = false;
        void meet();
      }
    }
  }

  void meet();
  desk.onKept(() => void meet());
  client.live(() => void meet());
  setInterval(() => state() !== "together" && void meet(), TRY_AGAIN_MS);
  return { state, received };
}
