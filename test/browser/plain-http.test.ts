import { type Browser, chromium } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findBrowser } from "../../scripts/browser.mjs";
import { EXAMPLES, expectAccessible, staticHost } from "./harness.ts";

let host: Awaited<ReturnType<typeof staticHost>>;
let browser: Browser;
beforeAll(async () => {
  host = await staticHost();
  // Another computer's name, so that the page is not trusted as one from this machine is.
  const args = ["--no-sandbox", "--host-resolver-rules=MAP bench.test 127.0.0.1"];
  browser = await chromium.launch({ executablePath: findBrowser() ?? "", args });
}, 60_000);
afterAll(async () => {
  await browser?.close();
  await host.stop();
});

describe("[PG11] a page from another computer over plain http", () => {
  it("says what it cannot do, and works", async () => {
    const page = await (await browser.newContext()).newPage();
    await page.goto(host.address.replace("127.0.0.1", "bench.test"));
    await page.getByText("This page came over plain http.").waitFor();
    await expectAccessible(page);
    await page.setInputFiles("input[type=file]", `${EXAMPLES}/ferry.yaml`);
    await page.waitForSelector(".way h1");
    await page.evaluate(() => {
      location.hash = "#/job/B-112/traveller";
    });
    await page.getByText("cannot keep the screen lit here").waitFor();
  });

  it("says nothing of it on this machine", async () => {
    const page = await (await browser.newContext()).newPage();
    await page.goto(host.address);
    await page.waitForSelector("h1");
    expect(await page.getByText("plain http").count()).toBe(0);
  });
});
