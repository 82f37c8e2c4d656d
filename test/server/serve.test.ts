import { createServer, type Server } from "node:net";
import { afterEach, describe, expect, it } from "vitest";
import { openBench } from "../support/server.ts";

const open: { close(): unknown }[] = [];
afterEach(async () => {
  for (const one of open.splice(0)) await one.close();
});

async function takenPort(): Promise<number> {
  const server: Server = createServer();
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  open.push(server);
  const address = server.address();
  return typeof address === "object" && address ? address.port : 0;
}

describe("serve", () => {
  it("[SV8] listens on this machine alone", async () => {
    const bench = await openBench();
    open.push(bench);
    expect(bench.address).toBe(`http://127.0.0.1:${bench.port}`);
    // Every other address of the machine is another network's way in; 127.0.0.2 stands for them.
    await expect(fetch(`http://127.0.0.2:${bench.port}/bench`)).rejects.toThrow();
  });

  it("[SV8] answers to the name that it was told to listen at, too", async () => {
    const bench = await openBench({ host: "127.0.0.2" });
    open.push(bench);
    expect(bench.address).toBe(`http://127.0.0.2:${bench.port}`);
    expect((await fetch(`${bench.address}/bench`)).status).toBe(200);
  });

  it("[SV9] takes the next free port, unless one was asked for", async () => {
    const taken = await takenPort();
    const next = await openBench({ port: taken, orNext: true });
    open.push(next);
    expect(next.port).toBeGreaterThan(taken);
    await expect(openBench({ port: taken })).rejects.toThrow(
      `--port: ${taken} is in use by another program. Choose another, e.g. --port `,
    );
  });

  it("[SV9] finishes an answer under way when it is stopped", async () => {
    const bench = await openBench();
    const answer = bench.ask("/bench");
    await answer;
    await bench.close();
    await expect(bench.ask("/bench")).rejects.toThrow();
  });
});
