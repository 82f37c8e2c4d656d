import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { EXAMPLES, staticHost, useBrowser } from "./harness.ts";

const bench = useBrowser();
let host: Awaited<ReturnType<typeof staticHost>>;
beforeAll(async () => {
  host = await staticHost();
});
afterAll(() => host.stop());

describe("sheets that come after the first sight", () => {
  it("[PG10] are all there a moment later, before anybody opens one", async () => {
    const page = await bench.page();
    await page.goto(host.address);
    await page.setInputFiles("input[type=file]", `${EXAMPLES}/ferry.yaml`);
    await page.waitForSelector(".way h1");
    await page.waitForTimeout(1500);
    await host.stop();
    try {
      for (const [sheet, seen] of [
        ["marking", "svg"],
        ["traveller", ".traveller"],
        ["wiring", ".curve-plot"],
        ["data", "h1"],
        ["history", "h1"],
      ] as const) {
        await page.evaluate((name) => {
          location.hash = `#/job/B-112/${name}`;
        }, sheet);
        await page.waitForSelector(`#sheet ${seen}`, { timeout: 5000 });
        expect(await page.locator("#sheet .trouble[role=alert]").allTextContents()).toEqual([]);
      }
    } finally {
      host = await staticHost();
    }
  });

  it("[PG10] say in words that they could not be fetched, and nothing kept is lost", async () => {
    const page = await bench.page();
    await page.route(/part-traveller/, (route) => route.abort());
    await page.goto(host.address);
    await page.setInputFiles("input[type=file]", `${EXAMPLES}/ferry.yaml`);
    await page.waitForSelector(".way h1");
    await page.evaluate(() => {
      location.hash = "#/job/B-112/traveller";
    });
    await page.getByText("was not loaded").waitFor();
    await page.unroute(/part-traveller/);
    await page.reload();
    await page.waitForSelector("#sheet .traveller");
  });
});
