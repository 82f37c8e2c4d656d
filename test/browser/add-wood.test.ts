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
  await page.locator(".add-wood:not(.add-part) summary").click();
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
    await page.locator(".add-wood:not(.add-part) .trouble").waitFor();
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
    await page.locator(".add-wood:not(.add-part) summary").click();
    await expect.poll(() => page.getByRole("button", { name: "Take away old holes" }).count()).toBe(0);
  });
});

describe("[PG15] a part on the page", () => {
  it("is added new, and taken from the own jobs for the next one", async () => {
    const page = await bench.page();
    await page.goto(host.address);
    await page.setInputFiles("input[type=file]", `${EXAMPLES}/lowtide.yaml`);
    await page.waitForSelector(".way h1");
    await openData(page);
    const form = page.locator(".add-part");
    await form.locator("summary").click();
    await form
      .getByLabel("From your own jobs")
      .selectOption({ label: "Wrackline Cog, pot, in Lowtide, a baritone conversion" });
    await form.getByLabel("Where it goes: volume, tone").fill("blend");
    await form.getByLabel("Hole in the top").fill("8");
    await form.getByRole("button", { name: "Add this part" }).click();
    await form.getByText("Added: Wrackline Cog.").waitFor();
    await expectAccessible(page);
    // What is there already is not put on top of.
    await form.getByLabel("What it is called").fill("Another");
    await form.getByRole("combobox", { name: /^What it is/ }).selectOption("jack");
    await form.getByLabel("Where it goes: jack").fill("blend");
    await form.getByRole("button", { name: "Add this part" }).click();
    await form.getByText("has a part already").waitFor();
    await page.evaluate(() => {
      location.hash = "#/job/B-112/way";
    });
    await page
      .getByText(/Wrackline Cog/)
      .first()
      .waitFor({ state: "attached" });
  });
});
