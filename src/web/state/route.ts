/** Where the page stands, kept in the part of the address behind the hash, so that it works from a disk as well. */
import { createSignal } from "solid-js";

export const SHEETS = [
  { id: "way", name: "In the way" },
  { id: "marking", name: "Marking-out" },
  { id: "traveller", name: "Traveller" },
  { id: "wiring", name: "Sounds and wiring" },
  { id: "data", name: "Instrument and parts" },
  { id: "papers", name: "Papers" },
  { id: "history", name: "History" },
] as const;

export type SheetId = (typeof SHEETS)[number]["id"];

export type Route =
  | { readonly at: "jobs" }
  | { readonly at: "begin"; readonly starter?: string }
  | { readonly at: "job"; readonly job: string; readonly sheet: SheetId; readonly rest: string };

export function routeOf(hash: string): Route {
  const [first, second = "", third = "", ...rest] = hash
    .replace(/^#?\/?/, "")
    .split("/")
    .map(safely);
  if (first === "begin") return { at: "begin", ...(second === "" ? {} : { starter: second }) };
  if (first === "job" && second !== "") {
    const sheet = SHEETS.find(({ id }) => id === third)?.id ?? "way";
    return { at: "job", job: second, sheet, rest: rest.join("/") };
  }
  return { at: "jobs" };
}

function safely(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return "";
  }
}

export function addressOf(route: Route): string {
  switch (route.at) {
    case "jobs":
      return "#/";
    case "begin":
      return route.starter === undefined ? "#/begin" : `#/begin/${route.starter}`;
    case "job":
      return `#/job/${encodeURIComponent(route.job)}/${route.sheet}${route.rest === "" ? "" : `/${encodeURIComponent(route.rest)}`}`;
  }
}

const [route, setRoute] = createSignal<Route>(routeOf(location.hash));
addEventListener("hashchange", () => setRoute(routeOf(location.hash)));

export { route };

export function goTo(next: Route): void {
  location.hash = addressOf(next);
}

export function toSheet(job: string, sheet: SheetId, rest = ""): Route {
  return { at: "job", job, sheet, rest };
}
