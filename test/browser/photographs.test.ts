import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { EXAMPLES, expectAccessible, PHONE, picture, staticHost, useBrowser } from "./harness.ts";

const bench = useBrowser();
let host: Awaited<ReturnType<typeof staticHost>>;
beforeAll(async () => {
  host = await staticHost();
});
afterAll(() => host.stop());

async function traveller(page: Page): Promise<void> {
  await page.goto(host.address);
  await page.setInputFiles("input[type=file]", `${EXAMPLES}/ferry.yaml`);
  await page.waitForSelector(".way h1");
  await page.evaluate(() => {
    location.hash = "#/job/B-112/traveller/record";
  });
  await page.waitForSelector(".photographs");
}

const give = (page: Page, name: string, buffer: Buffer, mimeType = "image/png") =>
  page.setInputFiles(".photographs input[type=file]", { name, mimeType, buffer });

/** Of the picture shown, in dots. */
const dots = (page: Page) =>
  page.locator(".photographs img").evaluate((image: HTMLImageElement) => [image.naturalWidth, image.naturalHeight]);

describe("[PG13] photographs", () => {
  it("are taken at a step, made small, named, and there after a reload", async () => {
    const page = await bench.page({ size: PHONE });
    await traveller(page);
    await give(page, "../../etc/passwd.png", picture(4000, 3000));
    await page.waitForSelector(".photographs img");
    await expect.poll(() => dots(page)).toEqual([2000, 1500]);
    await page.locator(".photographs li button").click();
    await page.getByLabel("What it shows").fill("the control cavity, as found");
    await expectAccessible(page);
    await page.getByRole("button", { name: "Keep the words" }).click();
    await page.getByText("the control cavity, as found").waitFor();
    await page.reload();
    await page.waitForSelector(".photographs img");
    await page.evaluate(() => {
      location.hash = "#/job/B-112/data";
    });
    await page.locator(".all-photographs summary").click();
    await page.getByText("the control cavity, as found").waitFor();
  });

  it("are taken off the record, and come back when that is undone", async () => {
    const page = await bench.page();
    await traveller(page);
    await give(page, "small.png", picture(40, 30));
    await expect.poll(() => dots(page)).toEqual([40, 30]);
    await page.locator(".photographs li button").click();
    await page.getByRole("button", { name: "Take it off the record" }).click();
    await page.waitForSelector(".photographs img", { state: "detached" });
    await page.getByRole("button", { name: "Undo", exact: true }).click();
    await page.waitForSelector(".photographs img");
  });

  it("are refused in words where they are none, and nothing is written", async () => {
    const page = await bench.page();
    await traveller(page);
    await give(page, "notes.png", Buffer.from("no picture at all"));
    await page.getByText("is no picture that this browser can read").waitFor();
    expect(await page.locator(".photographs li").count()).toBe(0);
    expect(await page.getByRole("button", { name: "Undo", exact: true }).getAttribute("title")).not.toContain(
      "photograph",
    );
  });
});

describe("[PG16] what went wrong", () => {
  it("is written down at its step with the next act, is there after a reload, and goes by undo", async () => {
    const page = await bench.page({ size: PHONE });
    await traveller(page);
    await page.getByRole("button", { name: "Something went wrong" }).click();
    await page.locator(".slip select").selectOption("screw stuck");
    await page.getByLabel("In your words").fill("neck screw, the upper one");
    await expectAccessible(page);
    await page.getByRole("button", { name: "Write it down" }).click();
    await page.getByText("Went wrong: screw stuck.").waitFor();
    await page.reload();
    await page.getByText("neck screw, the upper one").waitFor();
    await page.getByRole("button", { name: "Undo", exact: true }).click();
    await page.getByText("Went wrong: screw stuck.").waitFor({ state: "detached" });
  });
});
