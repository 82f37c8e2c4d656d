import { execFileSync, spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import type { Download, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { recoverSheets } from "../papers/recover-pdf.ts";
import { EXAMPLES, expectAccessible, MM, PHONE, smallTargets, staticHost, useBrowser } from "./harness.ts";

const bench = useBrowser();
const python = spawnSync("python3", ["--version"]).status === 0;
let host: Awaited<ReturnType<typeof staticHost>>;
beforeAll(async () => {
  host = await staticHost();
});
afterAll(() => host.stop());

async function papers(page: Page): Promise<void> {
  await page.goto(host.address);
  await page.setInputFiles("input[type=file]", `${EXAMPLES}/ferry.yaml`);
  await page.waitForSelector(".way h1");
  await page.evaluate(() => {
    location.hash = "#/job/B-112/papers";
  });
  await page.waitForSelector(".paper-page svg");
}

async function template(page: Page): Promise<void> {
  await papers(page);
  await page.getByRole("button", { name: "Bridge template" }).click();
  await page.locator(".paper-page").getByText("PRINT CHECK", { exact: true }).first().waitFor();
}

type Lengths = readonly [string, string, string, string, string];
/** 97 % both ways, as a copier prints that fits the page: × 1 / 0.97 = 1.0309. */
const SHORT: Lengths = ["271.6", "184.3", "328.2", "328.2", "A4-P"];
const TRUE: Lengths = ["280", "190", "338.4", "338.4", "A4-P"];

async function measure(page: Page, lengths: Lengths): Promise<void> {
  const boxes = page.locator(".printed input");
  if (!(await boxes.first().isVisible()))
    await page.getByText(/Enter what the rules of a print measure|Measure another print/).click();
  for (const [index, text] of lengths.entries()) await boxes.nth(index).fill(text);
  await page.getByRole("button", { name: "Keep these lengths" }).click();
}

/** Kept, and the form put away. */
async function measureAndKeep(page: Page, lengths: Lengths): Promise<void> {
  await measure(page, lengths);
  await page.locator(".printed").waitFor({ state: "hidden" });
}

const pageText = (page: Page) => page.locator(".paper-page svg").first().textContent();
const button = (page: Page, name: string) => page.getByRole("button", { name, exact: true });

async function taken(page: Page, name: string): Promise<Download> {
  const [download] = await Promise.all([
    page.waitForEvent("download", { timeout: 60_000 }),
    button(page, name).click(),
  ]);
  return download;
}

async function correctedInPdf(page: Page) {
  const download = await taken(page, "This paper as PDF");
  expect(download.suggestedFilename()).toBe("bridge-template.pdf");
  const { corrected, complaints } = recoverSheets(readFileSync(await download.path()));
  expect(complaints).toEqual([]);
  return corrected;
}

describe("[PG12] a print that was measured", () => {
  it("corrects the next one on the page and in the PDF, until it is taken off; undo brings it back", async () => {
    const page = await bench.page();
    await template(page);
    expect(await pageText(page)).toContain("A4-P");
    expect(await correctedInPdf(page)).toBeUndefined();
    await measureAndKeep(page, SHORT);
    await page.getByText("print again with the correction").waitFor();
    await page.getByText("Print measured (Bridge template, code A4-P,").waitFor();
    await expect.poll(() => pageText(page)).toContain("-10309-10309");
    await expect.poll(() => page.locator(".applied").textContent()).toMatch(/103\.09.*103\.09/);
    expect(await correctedInPdf(page)).toEqual({ across: 1.0309, down: 1.0309 });
    await expectAccessible(page);
    await button(page, "Take the correction off").click();
    await expect.poll(() => pageText(page)).not.toContain("-10309-10309");
    await button(page, "Undo").click();
    await expect.poll(() => pageText(page)).toContain("-10309-10309");
    await button(page, "Undo").click();
    await button(page, "Undo").click();
    await page.getByText("Enter what the rules of a print measure").waitFor();
  });

  it("is refused where no correction helps, and a code that is none is not kept", async () => {
    const page = await bench.page({ size: PHONE });
    await template(page);
    await measureAndKeep(page, ["280", "190", "335", "342", "A4-P"]);
    await page.getByText("the print is skewed").first().waitFor();
    await page.getByText("Square the paper against the guides of the tray").waitFor();
    expect(await pageText(page)).not.toContain("A4-P-1");
    await measure(page, ["280", "190", "338.4", "338.4", "C7"]);
    await page.getByText('cannot read the sheet\'s code "C7"').waitFor();
    // What was kept before stands; what was typed is still there to be mended.
    await page.getByText("the print is skewed").first().waitFor();
    expect(await page.locator(".printed input").first().inputValue()).toBe("280");
  });

  it("is typed by thumb, fractions too, and the next print starts from empty boxes", async () => {
    const page = await bench.page({ size: PHONE });
    await template(page);
    await page.getByText("Enter what the rules of a print measure").click();
    const boxes = page.locator(".printed input");
    await boxes.nth(0).click();
    for (const key of ["2", "7", "1", "½"]) await button(page, key).click();
    expect(await boxes.nth(0).inputValue()).toBe("271 ½");
    expect(await button(page, "Keep these lengths").isDisabled()).toBe(true);
    await page.getByText("4 boxes are still empty").waitFor();
    await expectAccessible(page);
    expect(await smallTargets(page, ".print-correction")).toEqual([]);
    for (const [index, text] of SHORT.entries()) if (index > 0) await boxes.nth(index).fill(text);
    await button(page, "Keep these lengths").click();
    await page.getByText("Correction applied").waitFor();
    await page.getByText("Measure another print").click();
    for (const index of [0, 1, 2, 3, 4]) expect(await boxes.nth(index).inputValue()).toBe("");
  });

  it("[PG17] proves its own sheet and no other", async () => {
    const page = await bench.page();
    await template(page);
    await measureAndKeep(page, TRUE);
    await page.getByText("the print is true").waitFor();
    await button(page, "Control holes").click();
    await page.getByText("Measure another print (Control holes)").click();
    await page.getByText("takes the place of what was measured on Bridge template").waitFor();
    await measureAndKeep(page, TRUE);
    await page.getByText("Print measured (Control holes,").waitFor();
  });
});

describe("[PG12] all papers", () => {
  it("come in one PDF", async () => {
    const page = await bench.page();
    await papers(page);
    const download = await taken(page, "All papers in one PDF");
    expect(download.suggestedFilename()).toBe("papers.pdf");
    const { complaints } = recoverSheets(readFileSync(await download.path()));
    expect(complaints).toEqual([]);
  });

  it.skipIf(!python)("come in one archive that another program opens, each file under its paper's name", async () => {
    const page = await bench.page();
    await template(page);
    await measureAndKeep(page, SHORT);
    await expect.poll(() => pageText(page)).toContain("-10309-10309");
    const download = await taken(page, "All files in one archive");
    expect(download.suggestedFilename()).toBe("papers.zip");
    const script = [
      "import sys, json, zipfile",
      "archive = zipfile.ZipFile(sys.argv[1])",
      "assert archive.testzip() is None",
      "print(json.dumps({i.filename: archive.read(i).decode('latin1')[:5] for i in archive.infolist()}))",
      "print('10309' in archive.read('bridge-template-1.svg').decode('utf8'))",
    ].join("\n");
    const said = execFileSync("python3", ["-c", script, await download.path()], { encoding: "utf8" });
    const [files = "", corrected] = said.trim().split("\n");
    const heads = JSON.parse(files) as Record<string, string>;
    expect(Object.keys(heads).sort()).toEqual([
      "bridge-template-1.svg",
      "bridge-template-2.svg",
      "bridge-template.dxf",
      "bridge-template.pdf",
      "control-holes.dxf",
      "control-holes.pdf",
      "control-holes.svg",
      "findings.pdf",
      "marking-out.pdf",
      "slip.pdf",
      "traveller.pdf",
      "wiring.pdf",
    ]);
    for (const [name, head] of Object.entries(heads)) if (name.endsWith(".pdf")) expect(head, name).toBe("%PDF-");
    expect(corrected).toBe("True");
  });

  it("can be read on a phone: a page at full size is moved sideways, and the sheet round it stays", async () => {
    const page = await bench.page({ size: PHONE });
    await template(page);
    const width = () =>
      page
        .locator(".paper-page svg")
        .first()
        .evaluate((svg) => svg.getBoundingClientRect().width);
    expect(await width()).toBeLessThan(PHONE.width);
    await button(page, "Pages at full size").click();
    expect(await width()).toBeCloseTo(210 * MM, 0);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(PHONE.width);
    await expectAccessible(page);
  });

  it("[PG17] keep the size of paper that was chosen", async () => {
    const page = await bench.page();
    await template(page);
    await page.getByLabel("Letter").check();
    await expect.poll(() => pageText(page)).toContain("Letter-L");
    await page.reload();
    await button(page, "Bridge template").click();
    await expect.poll(() => pageText(page)).toContain("Letter-L");
    expect(await page.getByLabel("Letter").isChecked()).toBe(true);
  });
});
