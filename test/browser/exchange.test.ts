import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, expect, it } from "vitest";
import { createFold } from "../../src/core/log/index.ts";
import { serve } from "../../src/server/index.ts";
import type { Keeper } from "../../src/store/index.ts";
import { openSqliteKeeper } from "../../src/store/sqlite.ts";
import { EXAMPLES, picture, useBrowser } from "./harness.ts";

const bench = useBrowser();
const folder = mkdtempSync(join(tmpdir(), "fettle-bench-"));
const closing: (() => Promise<void>)[] = [];
afterAll(async () => {
  for (const close of closing.reverse()) await close().catch(() => {});
  rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
});

const PAGE = join(import.meta.dirname, "..", "..", "dist", "web");

async function benchComputer(keeper: Keeper, port = 0) {
  const serving = await serve({ keeper, pageFolder: PAGE, log: () => {}, version: "test", port });
  closing.push(() => serving.close());
  return serving;
}

async function openUnmeasured(page: Page): Promise<void> {
  const text = readFileSync(`${EXAMPLES}/lowtide.yaml`, "utf8").replace(/^ {4}thickness: .*\n/m, "");
  const file = { name: "lowtide.yaml", mimeType: "text/yaml", buffer: Buffer.from(text) };
  await page.setInputFiles("input[type=file]", file);
  await page.waitForSelector(".way h1");
}

async function measureThickness(page: Page, figure: string): Promise<void> {
  await page
    .getByRole("button", { name: /^Measure the thickness of the body/ })
    .first()
    .click();
  await page.waitForSelector(".slip input[type=text]");
  await page.keyboard.type(figure);
  await page.keyboard.press("Enter");
  await page.waitForSelector(".slip", { state: "detached" });
}

const thicknesses = async (keeper: Keeper): Promise<string[]> => {
  const { data } = createFold(await keeper.entriesOf("A-107")).read();
  const readings = (data.readings ?? []) as readonly { readonly of: string; readonly value: string }[];
  return readings.filter(({ of }) => of === "body.thickness").map(({ value }) => value);
};

const keptWords = (page: Page) => page.locator(".title-block .kept span").textContent();

it("a day's readings are entered with the bench computer gone, and are on it when it is back", async () => {
  const keeper = await openSqliteKeeper(join(folder, "log.sqlite"));
  closing.push(() => keeper.close());
  const first = await benchComputer(keeper);
  const context = await bench.context();
  const page = await bench.page({ context });
  await page.goto(first.address);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await openUnmeasured(page);
  await expect.poll(() => keptWords(page)).toBe("here and on the bench computer");
  expect((await keeper.jobs({ limit: 5 })).jobs.map(({ id }) => id)).toEqual(["A-107"]);

  await first.close();
  await measureThickness(page, "44.4");
  await expect.poll(() => keptWords(page)).toBe("here; bench computer out of reach");
  await page.reload();
  await page.waitForSelector(".way h1");
  expect(await thicknesses(keeper)).toEqual([]);

  await benchComputer(keeper, first.port);
  await expect.poll(() => thicknesses(keeper), { timeout: 15_000 }).toEqual(["44.4 mm (calliper)"]);
  await expect.poll(() => keptWords(page)).toBe("here and on the bench computer");

  // Another device, that never saw the file, has the job and the reading.
  const other = await bench.page();
  await other.goto(first.address);
  await other.locator(".job-list a").first().click();
  await other.waitForSelector(".way h1");
  expect(await other.getByRole("button", { name: /^Measure the thickness of the body/ }).count()).toBe(0);
  await context.close();
}, 90_000);

it("what one device writes, another that lies open shows without being asked", async () => {
  const keeper = await openSqliteKeeper(join(folder, "live.sqlite"));
  closing.push(() => keeper.close());
  const serving = await benchComputer(keeper);
  const [one, two] = [await bench.page(), await bench.page()];
  await one.goto(serving.address);
  await openUnmeasured(one);
  await expect.poll(() => keptWords(one)).toBe("here and on the bench computer");
  await two.goto(serving.address);
  await two.locator(".job-list a").first().click();
  await two.waitForSelector(".way h1");
  const asked = two.getByRole("button", { name: /^Measure the thickness of the body/ });
  expect(await asked.count()).toBeGreaterThan(0);
  await measureThickness(one, "44.4");
  await expect.poll(() => asked.count()).toBe(0);

  // A photograph's words travel before its bytes; the other device looks for them until they have come.
  for (const page of [one, two]) {
    await page.evaluate(() => {
      location.hash = "#/job/A-107/traveller/record";
    });
    await page.waitForSelector(".photographs");
  }
  const file = { name: "cavity.png", mimeType: "image/png", buffer: picture(60, 40) };
  await one.setInputFiles(".photographs input[type=file]", file);
  const seen = two.locator(".photographs img");
  await seen.waitFor({ timeout: 15_000 });
  await expect.poll(() => seen.evaluate((image: HTMLImageElement) => image.naturalWidth)).toBe(60);
}, 60_000);
