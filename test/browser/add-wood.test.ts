import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { DESK, EXAMPLES, expectAccessible, PHONE, staticHost, useBrowser } from "./harness.ts";

const bench = useBrowser();
let host: Awaited<ReturnType<typeof staticHost>>;
beforeAll(async () => {
  host = await staticHost();
});
afterAll(() => host.stop());

async function openData(page: Page): Promise<void> {
  await page.goto(host.address);
  await page.setInputFiles("input[type=file]", `${EXAMPLES}/ferry.yaml`);
  await page.waitForSelector(".way h1");
  await page.evaluate(() => {
    location.hash = "#/job/B-112/data";
  });
  await page.locator(".add-wood summary").click();
}

const line = (page: Page) => page.getByLabel("Where they are, in one line");

describe.each([
  ["a desk", DESK],
  ["a phone", PHONE],
])("[PG14] old holes on %s", (_, size) => {
  it("are added in one line, count at once, and go again by undo", async () => {
    const page = await bench.page({ size });
    await openData(page);
    await line(page).fill("5 at nowhere");
    await page.getByRole("button", { name: "Add these holes" }).click();
    await page.locator(".add-wood .trouble").waitFor();
    // Where the new holes of the bridge would stand: 263.5 + 200 from the end wall in this job.
    await line(page).fill("296.5: 5 at 10 dia 3.2 deep 22");
    await page.getByRole("button", { name: "Add these holes" }).click();
    await page.getByText("Added holes: 296.5").or(page.getByText("added holes: 296.5")).first().waitFor();
    await expectAccessible(page);
    expect(await page.getByRole("button", { name: "Take away old holes" }).count()).toBe(1);
    await page.evaluate(() => {
      location.hash = "#/job/B-112/way";
    });
    await page.waitForSelector(".way h1");
    await page.getByRole("button", { name: "Undo", exact: true }).click();
    await page.evaluate(() => {
      location.hash = "#/job/B-112/data";
    });
    await page.locator(".add-wood summary").click();
    await expect.poll(() => page.getByRole("button", { name: "Take away old holes" }).count()).toBe(0);
  });
});
