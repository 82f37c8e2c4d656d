import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { DESK, EXAMPLES, expectAccessible, PHONE, smallTargets, staticHost, useBrowser } from "./harness.ts";

const bench = useBrowser();
let host: Awaited<ReturnType<typeof staticHost>>;
beforeAll(async () => {
  host = await staticHost();
});
afterAll(() => host.stop());

const JOBS = { lowtide: "A-107", ferry: "B-112" } as const;

async function openWiring(page: Page, name: keyof typeof JOBS): Promise<void> {
  await page.goto(host.address);
  await page.setInputFiles("input[type=file]", `${EXAMPLES}/${name}.yaml`);
  await page.waitForSelector(".way h1");
  await page.goto(`${host.address}#/job/${JOBS[name]}/wiring`);
  await page.waitForSelector(".curve-plot");
}

const row = (page: Page, title: string) => page.locator(".states tbody tr", { hasText: title });
const curve = (page: Page) => page.locator(".curve .line").first().getAttribute("d");

async function keepOhms(page: Page, title: string, typed: string): Promise<void> {
  await page.getByLabel(`Ohms read in ${title}`).fill(typed);
  await page.keyboard.press("Enter");
}

describe("[PG18] sounds and wiring", () => {
  it("says what sounds, and the ohms only when they are read: they agree or differ", async () => {
    const page = await bench.page();
    await openWiring(page, "lowtide");
    const first = row(page, "position 1");
    expect(await first.textContent()).toMatch(/Reef A then Reef B, in phase/);
    expect(await page.locator("main").textContent()).not.toMatch(/expected 12|11\.76/);
    await keepOhms(page, "position 1", "12.4");
    await expect.poll(() => first.textContent()).toMatch(/12\.40\skΩ\s+agrees/);
    expect(await first.textContent()).toMatch(/expected 12\.43\skΩ \(11\.76 … 13\.10/);
    expect(await row(page, "position 2").textContent()).not.toContain("expected");
    await keepOhms(page, "position 2", "9.9 k");
    await expect.poll(() => row(page, "position 2").textContent()).toMatch(/9\.90\skΩ\s+differs/);
    await keepOhms(page, "position 3", "a lot");
    await expect
      .poll(() => row(page, "position 3").locator("[role=alert]").textContent())
      .toMatch(/^cannot read "a lot"/);
    // Both readings are acts of the log, and undone as any other.
    await page.getByRole("button", { name: "Undo", exact: true }).click();
    await expect.poll(() => row(page, "position 2").textContent()).not.toContain("differs");
    await page.getByLabel("Show the expected ohms").check();
    expect(await row(page, "position 2").textContent()).toMatch(/expected 3\.12\skΩ/);
  }, 60_000);

  it("the curve follows a knob by the keyboard, and nothing is written", async () => {
    const page = await bench.page();
    await openWiring(page, "lowtide");
    const before = await curve(page);
    const volume = page.getByRole("slider", { name: "volume" });
    await volume.focus();
    for (let press = 0; press < 8; press += 1) await page.keyboard.press("ArrowLeft");
    expect(await volume.getAttribute("aria-valuetext")).toBe("9.2");
    expect(await curve(page)).not.toBe(before);
    const peaks = () => page.locator(".peaks").textContent();
    const words = await peaks();
    expect(words).toMatch(/position 1: peak at \d\.\d\d\skHz, .+ above its level/);
    await page.getByRole("slider", { name: "cable" }).fill("1200");
    expect(await peaks()).not.toBe(words);
    await page.getByRole("button", { name: "As the job says" }).click();
    expect(await curve(page)).toBe(before);
    expect(await page.getByRole("button", { name: "Undo", exact: true }).getAttribute("title")).not.toMatch(
      /volume|cable/,
    );
    // Several states lie over one another, each in its own line with its name at the curve.
    await page.locator(".shown-states").getByLabel("position 4").check();
    const lines = page.locator(".curve");
    expect(await lines.count()).toBe(2);
    expect(await lines.locator("text").allTextContents()).toEqual(["position 1", "position 4"]);
    const dashes = await lines
      .locator(".line")
      .evaluateAll((all) => all.map((one) => one.getAttribute("stroke-dasharray")));
    expect(new Set(dashes).size).toBe(2);
  }, 60_000);

  it("a wire taken away in words silences position 6; a lug that there is not is refused at its field", async () => {
    const page = await bench.page();
    await openWiring(page, "lowtide");
    await page.locator(".wires summary").click();
    expect(await page.locator(".wiring-findings").textContent()).toContain("Nothing is wrong");
    await page.getByRole("button", { name: "Take away wire neck-5-6" }).click();
    await expect.poll(() => page.locator(".wiring-findings").textContent()).toContain("position 6 is silent");
    expect(await page.evaluate(() => document.activeElement?.getAttribute("aria-label"))).toMatch(/^Take away wire /);
    expect(await row(page, "position 6").textContent()).toMatch(/silence.*wanted: neck\.a then neck\.b/);
    await page.getByLabel("hot-1", { exact: true }).fill("bridge.nope to lever.p1-1, blue");
    await page.keyboard.press("Enter");
    await page.locator(".wires [role=alert]", { hasText: '"bridge.nope" is not a lug of the bridge' }).waitFor();
    expect(await page.getByLabel("hot-1", { exact: true }).getAttribute("aria-invalid")).toBe("true");
    // Put back by picking its two lugs.
    await page.getByRole("combobox", { name: /^Or from lug/ }).selectOption("lever.p3-5");
    await page.getByRole("combobox", { name: /^to lug/ }).selectOption("lever.p3-6");
    await page.getByRole("button", { name: "Add between these lugs" }).click();
    await expect.poll(() => page.locator(".wiring-findings").textContent()).toContain("Nothing is wrong");
    const undo = page.getByRole("button", { name: "Undo", exact: true });
    expect(await undo.getAttribute("title")).toBe("added wire lever-p3-5-to-lever-p3-6: lever.p3-5 to lever.p3-6");
    await page.getByLabel("A new wire in words").fill("jack.tip to jack.sleeve");
    await page.keyboard.press("Enter");
    await expect.poll(() => page.locator(".wiring-findings").textContent()).toMatch(/fault:/);
  }, 60_000);

  it("a state opens in full, and a lug that is pressed says where it goes in every state", async () => {
    const page = await bench.page();
    await openWiring(page, "lowtide");
    await page.getByRole("button", { name: "position 2 in full" }).click();
    const full = page.locator(".state-in-full");
    expect(await full.locator("h2").textContent()).toBe("One state in full: position 2");
    expect(await full.locator(".coil-way").first().textContent()).toMatch(/^Eddy string \+, hum \+/);
    await full.getByRole("button", { name: "lever.p2-2" }).click();
    const slip = page.locator(".slip");
    expect(await slip.locator("h2").textContent()).toBe("Where lever.p2-2 goes");
    expect(await slip.locator(".lug-states > div").count()).toBe(6);
    await expectAccessible(page);
    // From lug to lug; the keyboard stays in the slip.
    await slip.getByRole("button", { name: "lever.p2-4" }).first().click();
    expect(await slip.locator("h2").textContent()).toBe("Where lever.p2-4 goes");
    expect(await page.evaluate(() => document.activeElement?.textContent?.trim())).toBe("Soldered to it");
    await page.keyboard.press("Escape");
    await slip.waitFor({ state: "detached" });
  }, 60_000);

  it.each([
    ["at the desk by day", DESK, false],
    ["on a phone at night", PHONE, true],
  ] as const)(
    "has nothing that axe finds with all of it open, and fits its width, %s",
    async (_where, size, night) => {
      const page = await bench.page({ size, night });
      await openWiring(page, "ferry");
      for (const summary of await page.locator("main summary").all()) await summary.click();
      await expectAccessible(page);
      const over = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect(over).toBeLessThanOrEqual(0);
      if (size === PHONE) expect(await smallTargets(page, "main")).toEqual([]);
    },
    60_000,
  );

  it("says so where a job describes no wiring", async () => {
    const page = await bench.page();
    await page.goto(host.address);
    const whole = readFileSync(`${EXAMPLES}/lowtide.yaml`, "utf8");
    const buffer = Buffer.from(whole.replace(/^wiring:[\s\S]*?(?=^readings:)/m, ""));
    await page.setInputFiles("input[type=file]", { name: "bare.yaml", mimeType: "text/yaml", buffer });
    await page.waitForSelector(".way h1");
    await page.goto(`${host.address}#/job/A-107/wiring`);
    await page.getByText("This job describes no wiring.").waitFor();
  });
});

describe("[PG18] the plate on the page", () => {
  it("is drawn when asked; one wire is walked from lug to lug, and the signal of a state stands out", async () => {
    const page = await bench.page();
    await openWiring(page, "lowtide");
    await page.getByRole("button", { name: "Draw the plate and the signal" }).click();
    const wire = page.locator('.plate-figure [data-wire="hot-1"] path');
    await wire.waitFor();
    // Walked by its own geometry: it begins on the pad of one lug and ends on the pad of the other.
    const ends = await wire.evaluate((path) => {
      const length = (path as unknown as SVGPathElement).getTotalLength();
      const at = (where: number) => {
        const { x, y } = (path as unknown as SVGPathElement).getPointAtLength(where);
        return { x, y };
      };
      return [at(0), at(length)];
    });
    const lugAt = async ({ x, y }: { readonly x: number; readonly y: number }) =>
      page.locator(".plate-figure [data-lug]").evaluateAll(
        (lugs, point) =>
          lugs
            .filter((lug) => {
              const circle = lug.querySelector("circle");
              const [cx, cy, r] = ["cx", "cy", "r"].map((name) => Number(circle?.getAttribute(name)));
              return Math.hypot((cx ?? 0) - point.x, (cy ?? 0) - point.y) <= (r ?? 0);
            })
            .map((lug) => lug.getAttribute("data-lug")),
        { x, y },
      );
    const [first, last] = ends;
    expect(await lugAt(first ?? { x: 0, y: 0 })).toEqual(["bridge.blue"]);
    expect(await lugAt(last ?? { x: 0, y: 0 })).toEqual(["lever.p1-1"]);
    // Position 1 is Reef alone: its hot wire is wide, the middle's is not.
    const width = (id: string) => page.locator(`.plate-figure [data-wire="${id}"] path`).getAttribute("stroke-width");
    expect([await width("hot-1"), await width("middle-hot")]).toEqual(["1.1", "0.45"]);
    await page.locator('.plate-figure [data-lug="lever.p1-1"] circle').click();
    await page.getByRole("heading", { name: "Where lever.p1-1 goes" }).waitFor();
  }, 60_000);
});
