/** A real Chromium, and the page as any static host would serve it. */
import { readFileSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { AxeBuilder } from "@axe-core/playwright";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, expect } from "vitest";
import { findBrowser } from "../../scripts/browser.mjs";

const ROOT = join(import.meta.dirname, "..", "..");
const PAGE = join(ROOT, "dist", "web");
const TYPES: Readonly<Record<string, string>> = {
  html: "text/html; charset=utf-8",
  js: "text/javascript; charset=utf-8",
  css: "text/css; charset=utf-8",
  svg: "image/svg+xml",
  woff2: "font/woff2",
  webmanifest: "application/manifest+json",
};

export const DESK = { width: 1280, height: 850 } as const;
export const PHONE = { width: 390, height: 844 } as const;

/** A host that knows nothing of Fettle: files by their names, nothing else. */
export async function staticHost(): Promise<{ readonly address: string; stop(): Promise<void> }> {
  const server: Server = createServer((request, response) => {
    const name = (request.url ?? "/").replace(/[?#].*$/, "").slice(1) || "index.html";
    try {
      const content = readFileSync(join(PAGE, name.replace(/[^\w.-]/g, "")));
      response.writeHead(200, { "content-type": TYPES[name.split(".").pop() ?? ""] ?? "text/plain" });
      response.end(content);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise<void>((settle) => server.listen(0, "127.0.0.1", settle));
  const { port } = server.address() as AddressInfo;
  return {
    address: `http://127.0.0.1:${port}/`,
    stop: () =>
      new Promise((settle) => {
        server.closeAllConnections();
        server.close(() => settle());
      }),
  };
}

export interface Bench {
  readonly browser: () => Browser;
  /** A page of a person of their own: nothing is shared with other tests. */
  page(options?: {
    readonly size?: { readonly width: number; readonly height: number };
    readonly night?: boolean;
    readonly context?: BrowserContext;
  }): Promise<Page>;
  context(options?: Parameters<Browser["newContext"]>[0]): Promise<BrowserContext>;
}

/** One browser for the tests of a file; what the page complains of fails the test that made it. */
export function useBrowser(): Bench {
  let browser: Browser | undefined;
  const complaints: string[] = [];
  beforeAll(async () => {
    const executablePath = findBrowser();
    if (!executablePath) throw new Error("no Chromium: install one, or name it in FETTLE_BROWSER");
    browser = await chromium.launch({
      executablePath,
      args: ["--no-sandbox", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
    });
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
    expect(complaints).toEqual([]);
  });
  const running = (): Browser => {
    if (!browser) throw new Error("the browser is not running");
    return browser;
  };
  const context: Bench["context"] = (options) => running().newContext(options);
  return {
    browser: running,
    context,
    page: async ({ size = DESK, night = false, context: shared } = {}) => {
      const own =
        shared ?? (await context({ viewport: size, colorScheme: night ? "dark" : "light", hasTouch: size === PHONE }));
      const page = await own.newPage();
      page.setDefaultTimeout(15_000);
      page.on("pageerror", (error) => complaints.push(error.message));
      return page;
    },
  };
}

/** No violation that axe knows of. */
export async function expectAccessible(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(" ")).join("; ")}`)).toEqual(
    [],
  );
}

/** Millimetres as CSS counts them. */
export const MM = 96 / 25.4;

/** Every control that a thumb has to hit, with its size, where it is smaller than 12 mm. */
export async function smallTargets(page: Page, within: string): Promise<string[]> {
  return page
    .locator(
      `${within} :is(a, button, summary, label:has(input), input:not([type=radio], [type=checkbox], [type=file]))`,
    )
    .evaluateAll(
      (elements, least) =>
        elements
          .filter((element) => element.checkVisibility())
          .flatMap((element) => {
            const { width, height } = element.getBoundingClientRect();
            const small = Math.min(width, height) < least - 0.5;
            return small
              ? [`${element.textContent?.trim().slice(0, 30)}: ${width.toFixed(0)} × ${height.toFixed(0)}`]
              : [];
          }),
      12 * MM,
    );
}

export const EXAMPLES = join(ROOT, "examples");
