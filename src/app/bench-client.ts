import type { Peer } from "./exchange.ts";
export function createBenchClient(_base: string): { peer(): Promise<Peer>; live(on: () => void): void } {
  return { peer: () => Promise.reject(new Error("none")), live: () => {} };
}
