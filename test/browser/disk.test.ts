import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { expect, it } from "vitest";
import { EXAMPLES, useBrowser } from "./harness.ts";

const bench = useBrowser();
const PAGE = pathToFileURL(join(import.meta.dirname, "..", "..", "dist", "web", "index.html")).href;

it("opened from a disk, with no host at all, the page reads a job file and has the job after a reload", async () => {
  const page = await bench.page();
  await page.goto(PAGE);
  await page.setInputFiles("input[type=file]", `${EXAMPLES}/ferry.yaml`);
  await page.waitForSelector(".way .worst");
  await page.waitForSelector(".kept span:text-is('here')");
  await page.reload();
  await page.waitForSelector(".way .worst");
  expect(await page.locator(".title-block .name span").textContent()).toBe("Ferry, a left-handed bass");
});
