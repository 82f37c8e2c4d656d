/**
 * A Chromium to test in: the one named in FETTLE_BROWSER, one that is installed, or one fetched into this user's cache of
 * browsers (playwright-core's own place).
 */
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { moduleFile, tell } from "./ready.mjs";

const { env } = process;
const INSTALLED = {
  linux: ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome", "/snap/bin/chromium"],
  darwin: [
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
  ],
  win32: ["ProgramFiles", "ProgramFiles(x86)", "LocalAppData"].flatMap((name) =>
    env[name]
      ? [
          join(env[name], "Google", "Chrome", "Application", "chrome.exe"),
          join(env[name], "Microsoft", "Edge", "Application", "msedge.exe"),
        ]
      : [],
  ),
};

/** @returns its path; undefined if there is none and none could be fetched */
export function findBrowser() {
  const named = env.FETTLE_BROWSER;
  if (named) return existsSync(named) ? named : undefined;
  const candidates = [...(INSTALLED[process.platform] ?? []), chromium.executablePath()];
  return candidates.find((path) => path && existsSync(path));
}

export function ensureBrowser() {
  const found = findBrowser();
  if (found) return found;
  tell("no Chromium found, fetching one for the tests, once …");
  spawnSync(process.execPath, [moduleFile("playwright-core/cli.js"), "install", "chromium"], {
    stdio: ["ignore", 2, 2],
  });
  return findBrowser();
}
