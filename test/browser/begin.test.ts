import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { expectAccessible, PHONE, smallTargets, staticHost, useBrowser } from "./harness.ts";

const bench = useBrowser();
let host: Awaited<ReturnType<typeof staticHost>>;
beforeAll(async () => {
  host = await staticHost();
});
afterAll(() => host.stop());

/** What a newcomer with a rule reads off a six-string with a flat plate. */
const READINGS = ["6 strings, flat plate", "324", "11.5 16", "36 52.5", "34: 5 at 10.5", "none"];

async function answer(page: Page, readings: readonly string[]): Promise<number> {
  await page.goto(`${host.address}#/begin/bridge-place`);
  let entries = 0;
  for (const reading of readings) {
    await page.waitForSelector(".entry input");
    await page.keyboard.type(reading);
    await page.keyboard.press("Enter");
    entries += 1;
  }
  await page.waitForSelector(".answer h2");
  return entries;
}

describe("a newcomer asks where the bridge must stand", () => {
  it("has an answer after six entries, with nothing but the keyboard", async () => {
    const page = await bench.page();
    expect(await answer(page, READINGS)).toBeLessThanOrEqual(6);
    const headline = await page.locator(".verdict h2").first().textContent();
    // By hand: half of 2 × 324 behind fret 12, the middle of saddles that reach 11.5 to 16 with setbacks of 1.6 to 4.
    expect(headline).toMatch(/^Front edge 31[23]\.\d\u00a0mm from the middle of fret 12/);
    expect(await page.locator(".weakest").textContent()).toContain("setback");
    await expectAccessible(page);
  });

  it("may know nothing at all", async () => {
    const page = await bench.page();
    await answer(
      page,
      READINGS.map(() => ""),
    );
    expect(await page.locator(".verdict .status").first().textContent()).toBe("measure");
  });

  it("is told what cannot be read, and loses nothing", async () => {
    const page = await bench.page();
    await page.goto(`${host.address}#/begin/bridge-place`);
    await page.waitForSelector(".entry input");
    await page.keyboard.type("6 strings");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".place:text('2 of 6')");
    await page.keyboard.type("12 bananas");
    await page.keyboard.press("Enter");
    expect(await page.locator(".read .wrong").count()).toBe(1);
    expect(await page.locator(".entry input").inputValue()).toBe("12 bananas");
    await page.getByRole("button", { name: "Back" }).click();
    expect(await page.locator(".entry input").inputValue()).toBe("6 strings");
  });

  it("keeps the answer as a job, which is there after a reload", async () => {
    const page = await bench.page();
    await answer(page, READINGS);
    await page.getByRole("button", { name: "Keep this as a job" }).click();
    await page.waitForSelector(".way h1");
    const title = await page.locator(".title-block .name span").textContent();
    await page.waitForSelector(".kept span:text-is('here')");
    await page.reload();
    await page.waitForSelector(".way h1");
    expect(await page.locator(".title-block .name span").textContent()).toBe(title);
    await page.goto(`${host.address}#/`);
    await page.waitForSelector(".job-list .title");
    expect(await page.locator(".job-list .title").allTextContents()).toEqual([title]);
    await expectAccessible(page);
  });

  it("can be done with a thumb: every target has 12 mm", async () => {
    const page = await bench.page({ size: PHONE });
    await page.goto(`${host.address}#/begin`);
    await page.waitForSelector(".starters");
    expect(await smallTargets(page, ".begin")).toEqual([]);
    await page.goto(`${host.address}#/begin/bridge-place`);
    await page.getByRole("button", { name: "Next" }).click();
    await page.waitForSelector(".keypad");
    expect(await smallTargets(page, ".begin")).toEqual([]);
    const press = (name: string) => page.getByRole("button", { name, exact: true }).tap();
    for (const key of ["1", "2", "½", "in"]) await press(key);
    expect(await page.locator(".entry input").inputValue()).toBe("12 ½ in");
    expect(await page.locator("#read").textContent()).toContain("317.5");
    // A row of holes can be written with the same keys.
    for (let entry = 0; entry < 3; entry += 1) await press("Next");
    for (const key of ["3", "4", ":", "Space between figures", "5", "at", "1", "0"]) await press(key);
    expect(await page.locator(".entry input").inputValue()).toBe("34: 5 at 10");
    await expectAccessible(page);
  });
});
