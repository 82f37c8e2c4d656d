import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { EXAMPLES, expectAccessible, PHONE, staticHost, useBrowser } from "./harness.ts";

const bench = useBrowser();
let host: Awaited<ReturnType<typeof staticHost>>;
beforeAll(async () => {
  host = await staticHost();
});
afterAll(() => host.stop());

async function template(page: Page): Promise<void> {
  await page.goto(host.address);
  await page.setInputFiles("input[type=file]", `${EXAMPLES}/ferry.yaml`);
  await page.waitForSelector(".way h1");
  await page.evaluate(() => {
    location.hash = "#/job/B-112/papers";
  });
  await page.getByRole("button", { name: "Bridge template" }).click();
  await page.waitForSelector(".paper-page svg");
}

async function measure(page: Page, lengths: readonly [string, string, string, string, string]): Promise<void> {
  const boxes = page.locator(".printed input");
  if (!(await boxes.first().isVisible()))
    await page.getByText(/Enter what the rules of a print measure|Measure another print/).click();
  for (const [index, text] of lengths.entries()) await boxes.nth(index).fill(text);
  await page.getByRole("button", { name: "Keep these lengths" }).click();
}

const pageText = (page: Page) => page.locator(".paper-page svg").first().textContent();

describe("[PG12] a print that was measured", () => {
  it("corrects the next one, which says so in its code; leaving it out takes the correction away", async () => {
    const page = await bench.page();
    await template(page);
    expect(await pageText(page)).toContain("A4-P");
    // 97 % both ways, as a copier prints that fits the page.
    await measure(page, ["271.6", "184.3", "328.2", "328.2", "A4-P"]);
    await page.getByText("print again with the correction").waitFor();
    await expect.poll(() => pageText(page)).toContain("-10309-10309");
    await expectAccessible(page);
    await page.getByRole("button", { name: "Leave this measurement out" }).click();
    await expect.poll(() => pageText(page)).not.toContain("-10309-10309");
  });

  it("is refused where no correction helps, and a code that is none is not kept", async () => {
    const page = await bench.page({ size: PHONE });
    await template(page);
    await measure(page, ["280", "190", "335", "342", "A4-P"]);
    await page.getByText("the print is skewed").first().waitFor();
    expect(await pageText(page)).not.toContain("A4-P-1");
    await measure(page, ["280", "190", "338.4", "338.4", "C7"]);
    await page.getByText('cannot read the sheet\'s code "C7"').waitFor();
  });
});

describe("[PG12] all papers", () => {
  it("come in one PDF and in one archive", async () => {
    const page = await bench.page();
    await template(page);
    for (const [name, file, head] of [
      ["All papers in one PDF", "papers.pdf", "%PDF-"],
      ["All files in one archive", "papers.zip", "PK"],
    ] as const) {
      const [download] = await Promise.all([
        page.waitForEvent("download", { timeout: 60_000 }),
        page.getByRole("button", { name }).click(),
      ]);
      expect(download.suggestedFilename()).toBe(file);
      const bytes = readFileSync(await download.path());
      expect(bytes.subarray(0, head.length).toString("latin1")).toBe(head);
      if (file.endsWith("zip")) expect(bytes.toString("latin1")).toContain("bridge-template.dxf");
    }
  });
});
