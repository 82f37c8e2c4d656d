/** The page in a real Chromium: what it weighs, and how long an edit and a drag take in script. */
import { readFileSync } from "node:fs";
import { createServer } from "node:http";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { chromium } from "playwright-core";
import { findBrowser } from "../scripts/browser.mjs";
import { median } from "./measure.mjs";

const PAGE = fileURLToPath(new URL("../dist/web/", import.meta.url));
/** What the page asks for before anybody can press anything. */
const firstFiles = () => [
  "index.html",
  ...[...readFileSync(`${PAGE}index.html`, "utf8").matchAll(/(?:src|href)="\.\/([^"]+\.(?:js|css))"/g)].map(
    ([, file]) => file,
  ),
];
const TYPES = { html: "text/html", js: "text/javascript", css: "text/css", svg: "image/svg+xml" };
const ROUNDS = 15;

export async function pageBench() {
  const weight = firstFiles().reduce((sum, name) => sum + gzipSync(readFileSync(PAGE + name), { level: 9 }).length, 0);
  const rows = [
    { what: "page: first load, gzipped", own: weight / 1000, goal: 200, show: (kb) => `${kb.toFixed(0)} kB` },
  ];
  const executablePath = findBrowser();
  if (!executablePath) return rows;
  const server = createServer((request, response) => {
    const name = (request.url ?? "/").slice(1).replace(/[?#].*/, "") || "index.html";
    try {
      response.writeHead(200, { "content-type": TYPES[name.split(".").pop()] ?? "text/plain" });
      response.end(readFileSync(PAGE + name.replace(/[^\w.-]/g, "")));
    } catch {
      response.end();
    }
  });
  await new Promise((settle) => server.listen(0, "127.0.0.1", settle));
  const address = `http://127.0.0.1:${server.address().port}/`;
  const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 850 } });
    await page.goto(address);
    await page.setInputFiles("input[type=file]", fileURLToPath(new URL("../examples/lowtide.yaml", import.meta.url)));
    await page.waitForSelector(".way h1");
    await page.goto(`${address}#/job/A-107/marking`);
    await page.getByRole("button", { name: "The bridge", exact: true }).click();
    await page.waitForSelector("[role=slider]");
    rows.push({
      what: "page: a move of the plate while it is dragged (script)",
      own: median(await drags(page)),
      goal: 16,
    });
    await page.goto(`${address}#/job/A-107/wiring`);
    await page.waitForSelector(".curve-plot");
    rows.push({
      what: "page: a move of a knob, four curves drawn anew (script)",
      own: median(await knobs(page)),
      goal: 16,
    });
    await page.goto(`${address}#/job/A-107/way`);
    await page.waitForSelector(".way h1");
    rows.push({
      what: "page: edit to redraw, the place of the bridge (script)",
      own: median(await edits(page)),
      goal: 16,
    });
  } finally {
    await browser.close();
    server.closeAllConnections();
    server.close();
  }
  return rows;
}

/** Everything that a pointer's move sets off runs before it is answered. */
function drags(page) {
  return page.evaluate((rounds) => {
    const plate = document.querySelector("[role=slider]");
    const { left, top, width, height } = plate.getBoundingClientRect();
    const at = (type, by) =>
      plate.dispatchEvent(
        new PointerEvent(type, {
          bubbles: true,
          pointerId: 1,
          button: 0,
          clientX: left + width / 2 + by,
          clientY: top + height / 2,
        }),
      );
    const area = plate.closest("svg")?.parentElement;
    if (area) area.setPointerCapture = () => {};
    at("pointerdown", 0);
    const times = [];
    for (let round = 1; round <= 4 * rounds; round += 1) {
      const from = performance.now();
      at("pointermove", (round % 9) - 4);
      times.push(performance.now() - from);
    }
    at("pointercancel", 0);
    return times;
  }, ROUNDS);
}

/** The response of four states follows a shaft while it is moved. */
async function knobs(page) {
  for (const title of ["position 2", "position 3", "position 4"])
    await page.locator(".shown-states").getByLabel(title).check();
  return page.evaluate((rounds) => {
    const slider = document.querySelector(".slider input");
    const times = [];
    for (let round = 1; round <= 4 * rounds; round += 1) {
      slider.value = String((round % 19) / 2);
      const from = performance.now();
      slider.dispatchEvent(new Event("input", { bubbles: true }));
      times.push(performance.now() - from);
    }
    return times;
  }, ROUNDS);
}

/** Undo and redo of one act: fold, questions, redraw. */
async function edits(page) {
  const press = (name) =>
    page.evaluate((wanted) => {
      const button = [...document.querySelectorAll("footer button")].find((one) => one.textContent === wanted);
      const from = performance.now();
      button.click();
      return performance.now() - from;
    }, name);
  // An act to be taken back: another place for the bridge.
  await page.goto(`${page.url().split("#")[0]}#/job/A-107/marking`);
  const plate = page.getByRole("slider").first();
  await plate.focus();
  await page.keyboard.press("ArrowRight");
  await page.waitForSelector("footer button[title^='front edge moved']", { timeout: 5000 });
  await page.goto(`${page.url().split("#")[0]}#/job/A-107/way`);
  await page.waitForSelector(".way h1");
  const times = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    times.push(await press("Undo"), await press("Redo"));
    await page.waitForTimeout(30);
  }
  return times;
}
