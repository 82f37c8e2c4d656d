/** Opens the keeper, asks the browser to keep it for good, and draws the page. */
import "./style/page.css";
import { createEffect } from "solid-js";
import { render } from "solid-js/web";
import { askForPersistence } from "../store/browser.ts";
import { App, fetchSheets } from "./app.tsx";
import { linkBench } from "./state/bench-link.ts";
import { createDesk } from "./state/desk.ts";
import { openKeeping } from "./state/keeping.ts";
import { light } from "./state/settings.ts";

async function start(): Promise<void> {
  const root = document.getElementById("page");
  if (!root) throw new Error("the page has no place to be drawn in");
  const keeping = await openKeeping();
  void askForPersistence();
  render(() => {
    createEffect(() => {
      const choice = light();
      document.documentElement.dataset.light = choice === "as the system" ? "" : choice;
    });
    const desk = createDesk(keeping);
    // Made once: what stands in a property is worked out at every look.
    const bench = linkBench(desk);
    return <App desk={desk} bench={bench} />;
  }, root);
  // The drawing letters and the other sheets come after the first sight of the page.
  setTimeout(() => {
    document.documentElement.classList.add("lettered");
    fetchSheets();
  }, 300);
  if ("serviceWorker" in navigator && location.protocol.startsWith("http"))
    void navigator.serviceWorker.register("./service-worker.js");
}

void start();
