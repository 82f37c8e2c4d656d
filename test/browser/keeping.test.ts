import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { EXAMPLES, staticHost, useBrowser } from "./harness.ts";

const bench = useBrowser();
let host: Awaited<ReturnType<typeof staticHost>>;
beforeAll(async () => {
  host = await staticHost();
});
afterAll(() => host.stop());

async function openExample(page: Page, name: string): Promise<void> {
  await page.goto(host.address);
  await page.setInputFiles("input[type=file]", `${EXAMPLES}/${name}.yaml`);
  await page.waitForSelector(".way h1");
}

/** Lowtide as it was before anybody measured how thick the body is. */
async function openUnmeasured(page: Page): Promise<void> {
  const text = readFileSync(`${EXAMPLES}/lowtide.yaml`, "utf8").replace(/^ {4}thickness: .*\n/m, "");
  await page.setInputFiles("input[type=file]", {
    name: "lowtide.yaml",
    mimeType: "text/yaml",
    buffer: Buffer.from(text),
  });
  await page.waitForSelector(".way h1");
}

/** Takes a reading as a person does, on the sheet of what stands in the way. */
async function measure(page: Page, text: string): Promise<void> {
  await page
    .locator("button", { hasText: /^Measure/ })
    .first()
    .click();
  await page.waitForSelector(".slip input[type=text]");
  await page.keyboard.type(text);
  await page.keyboard.press("Enter");
  await page.waitForSelector(".slip", { state: "detached" });
}

const readings = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<number>((settle, fail) => {
        const opening = indexedDB.open("fettle");
        opening.onerror = () => fail(opening.error);
        opening.onsuccess = () => {
          const all = opening.result.transaction("entries").objectStore("entries").getAll();
          all.onsuccess = () => {
            const entries = all.result as { readonly entry?: { readonly path: string }; readonly path?: string }[];
            settle(
              entries.filter((one) => /^\/readings\/#reading-[^/]*\/value$/.test(one.entry?.path ?? one.path ?? ""))
                .length,
            );
            opening.result.close();
          };
        };
      }),
  );

describe("the page by itself", () => {
  it("opens with its host gone, keeps a reading, and has it after another visit", async () => {
    const alone = await staticHost();
    const context = await bench.context();
    const page = await bench.page({ context });
    await page.goto(alone.address);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await openUnmeasured(page);
    await alone.stop();
    await page.reload();
    await page.waitForSelector(".way h1");
    const before = await readings(page);
    await measure(page, "44.4");
    await page.waitForSelector(".kept span:text-is('here')");
    await page.close();
    const again = await bench.page({ context });
    await again.goto(alone.address);
    await again.waitForSelector(".job-list .title");
    expect(await readings(again)).toBe(before + 1);
    await context.close();
  });

  it("undoes and redoes by the keyboard", async () => {
    const page = await bench.page();
    await page.goto(host.address);
    await openUnmeasured(page);
    const asked = page.getByRole("button", { name: /^Measure the thickness of the body/ });
    await measure(page, "44.4");
    await expect.poll(() => asked.count()).toBe(0);
    await page.keyboard.press("Control+z");
    await expect.poll(() => asked.count()).toBeGreaterThan(0);
    await page.keyboard.press("Control+Shift+z");
    await expect.poll(() => asked.count()).toBe(0);
  });

  it("shows lengths in the units it is asked for", async () => {
    const page = await bench.page();
    await openExample(page, "ferry");
    const headline = page.locator(".verdict h2").first();
    const inMm = await headline.textContent();
    await page.getByRole("button", { name: /Units/ }).click();
    expect(await headline.textContent()).toMatch(/\d\.\d+\u00a0in/);
    await page.getByRole("button", { name: /Units/ }).click();
    expect(await headline.textContent()).toBe(inMm);
  });

  it("lays two tabs of one job side by side: what one keeps, the other shows", async () => {
    const context = await bench.context();
    const [one, two] = [await bench.page({ context }), await bench.page({ context })];
    await one.goto(host.address);
    await openUnmeasured(one);
    await two.goto(one.url());
    await two.waitForSelector(".way h1");
    const before = await readings(two);
    await measure(one, "44.4");
    await expect.poll(() => readings(two)).toBe(before + 1);
    await context.close();
  });

  it("refuses a hostile file in three parts, and shows a script in a title as letters", async () => {
    const page = await bench.page();
    await page.goto(host.address);
    const offer = (name: string, text: string) =>
      page.setInputFiles("input[type=file]", { name, mimeType: "text/yaml", buffer: Buffer.from(text) });
    const bomb = `a: &a [x,x,x,x,x,x,x,x,x]\n${"bcdefghij"
      .split("")
      .map((key, index) => `${key}: &${key} [${Array(9).fill(`*${"abcdefghij"[index]}`).join(",")}]`)
      .join("\n")}\n`;
    await offer("bomb.yaml", bomb);
    expect(await page.locator(".trouble").textContent()).toMatch(/^Bomb\.yaml cannot be read as YAML/);
    await page.getByRole("button", { name: "Put aside" }).click();
    await offer(
      "script.yaml",
      'fettle: {job: 1, instrument: 1}\njob: {id: S-1, title: "<img src=x onerror=document.body.remove()>"}\ninstrument: {kind: guitar, strings: 6}\n',
    );
    await page.waitForSelector(".way h1");
    expect(await page.locator(".title-block .name span").textContent()).toBe(
      "<img src=x onerror=document.body.remove()>",
    );
    expect(await page.locator(".title-block img").count()).toBe(0);
  });
});
