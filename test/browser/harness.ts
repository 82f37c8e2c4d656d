/** A real Chromium, and the page as any static host would serve it. */

import { readFileSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { deflateSync } from "node:zlib";
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

/** A grey PNG of so many dots, each row a filter byte and its dots. */
export function picture(width: number, height: number): Buffer {
  const chunk = (type: string, data: Buffer): Buffer => {
    const body = Buffer.concat([Buffer.from(type, "latin1"), data]);
    const whole = Buffer.alloc(8 + body.length);
    whole.writeUInt32BE(data.length, 0);
    body.copy(whole, 4);
    whole.writeUInt32BE(crc(body), 4 + body.length);
    return whole;
  };
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 0, 0, 0, 0], 8);
  const rows = Buffer.alloc((width + 1) * height, 0x80);
  for (let row = 0; row < height; row += 1) rows[row * (width + 1)] = 0;
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk("IHDR", head),
    chunk("IDAT", deflateSync(rows)),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

function crc(bytes: Buffer): number {
  let sum = 0xffffffff;
  for (const byte of bytes) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit += 1) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  }
  return (sum ^ 0xffffffff) >>> 0;
}
