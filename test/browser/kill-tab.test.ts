import { build } from "vite";
import { afterAll, beforeAll, expect, it } from "vitest";
import { staticHost, useBrowser } from "./harness.ts";

const TIMES = 30;
const LONGEST_MS = 250;

const bench = useBrowser();
let host: Awaited<ReturnType<typeof staticHost>>;
let script = "";

beforeAll(async () => {
  host = await staticHost();
  const built = await build({
    configFile: false,
    logLevel: "error",
    build: {
      write: false,
      minify: false,
      target: "es2022",
      lib: { entry: `${import.meta.dirname}/writer-page.ts`, formats: ["iife"], name: "writer", fileName: "writer" },
    },
  });
  const [first] = [built].flat() as unknown as { readonly output: readonly { readonly code?: string }[] }[];
  script = first?.output[0]?.code ?? "";
}, 60_000);
afterAll(() => host.stop());

/** Fixed, so that a failure can be had again. */
function times(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

it(`loses nothing that was said to be kept, the tab killed ${TIMES} times while it writes`, async () => {
  const context = await bench.context();
  const random = times(47);
  const said = new Set<string>();
  for (let round = 0; round < TIMES; round += 1) {
    const page = await context.newPage();
    await page.exposeFunction("said", (id: string) => {
      said.add(id);
    });
    await page.goto(`${host.address}mark.svg`);
    await page.addScriptTag({ content: script }).catch(() => page.evaluate(script));
    const device = `d${round.toString(36).padStart(4, "0")}`;
    void page.evaluate(`void (globalThis.writer ?? writer).writeOnAndOn("${device}", globalThis.said)`).catch(() => {});
    await new Promise((settle) => setTimeout(settle, random() * LONGEST_MS));
    // Every second one crashes with its renderer, the others are closed without being asked.
    const session = await context.newCDPSession(page);
    if (round % 2 === 0) await Promise.race([session.send("Page.crash").catch(() => {}), page.waitForEvent("crash")]);
    await page.close({ runBeforeUnload: false });
  }
  const page = await context.newPage();
  await page.goto(`${host.address}mark.svg`);
  await page.addScriptTag({ content: script }).catch(() => page.evaluate(script));
  const kept = new Set((await page.evaluate("(globalThis.writer ?? writer).keptIds()")) as string[]);
  expect(said.size).toBeGreaterThan(TIMES);
  expect([...said].filter((id) => !kept.has(id))).toEqual([]);
  await context.close();
}, 120_000);
