/**
 * Who may ask. A server on one's own machine is in reach of every page that the browser shows, so a request has to say
 * that it was meant for this server (`Host`, against a foreign name that points here) and that it comes from its own page
 * (`Origin`, `Sec-Fetch-Site`). A program that is no browser sends none of the latter and is let in.
 * Sources: RFC 9110, 7.2 and 15.5.20 (421); Fetch Metadata Request Headers, W3C working draft 2021 (both from memory).
 */
import { Refusal } from "./refusal.ts";

export interface Asked {
  readonly method: string;
  /** As it stands in the request line. */
  readonly target: string;
  /** Every `Host` that was sent. */
  readonly hosts: readonly string[];
  readonly origin?: string | undefined;
  /** `Sec-Fetch-Site` */
  readonly site?: string | undefined;
  /** `Sec-Fetch-Mode` */
  readonly mode?: string | undefined;
}

/** Names that always mean the machine itself. */
const OWN_NAMES = ["localhost", "127.0.0.1", "[::1]"];

/**
 * @param port the one that the request came in at
 * @param host what the server was told to listen at, besides the machine's own names
 * @throws Refusal
 */
export function requireOwn(asked: Asked, port: number, host: string): void {
  const { hosts, target, origin } = asked;
  const [named = ""] = hosts;
  if (hosts.length !== 1 || !target.startsWith("/"))
    throw new Refusal(400, "request", "does not say plainly what it asks for", "Open the address that fettle printed");
  const names = [...OWN_NAMES, host.includes(":") ? `[${host}]` : host];
  const known = names.map((name) => (port === 80 ? name : `${name}:${port}`));
  if (!known.includes(named.toLowerCase()))
    throw new Refusal(
      421,
      "Host",
      "names another computer; this one answers to its own name only, so that no foreign page can ask in your place",
      `Open http://${known[1]}/`,
    );
  if (origin !== undefined && origin.toLowerCase() !== `http://${named.toLowerCase()}`) throw foreign("Origin");
  if (isForeignSite(asked)) throw foreign("Sec-Fetch-Site");
}

/** A link or a bookmark may open the page; nothing else that another page starts may ask for anything. */
function isForeignSite({ method, target, site, mode }: Asked): boolean {
  if (site === undefined || site === "same-origin" || site === "none") return false;
  const opensPage = method === "GET" && mode === "navigate" && !/^\/bench(?:[/?]|$)/.test(target);
  return !opensPage;
}

function foreign(where: string): Refusal {
  const problem = "another page asked for this, and only Fettle's own page may";
  return new Refusal(403, where, problem, "Use the page that fettle itself serves");
}
