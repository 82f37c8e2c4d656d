/**
 * Two logs brought to the same entries and photographs: what the other has not is sent, what is missing here is fetched.
 * It may be cut off anywhere: how far it came is noted only after a batch is kept, so the worst is that something is
 * sent twice, and a second copy is passed over.
 */
import { InputError } from "../core/errors.ts";
import { checkedEntry, type LogEntry } from "../core/log/index.ts";
import { checkedHash, type Keeper } from "../store/index.ts";

/** The other log as it is reached from here. */
export interface Peer extends Pick<Keeper, "since" | "append" | "photographs" | "photograph" | "keepPhotograph"> {
  /** Names the other log: what is noted about how far an exchange has come is noted under it. */
  readonly id: string;
}

export interface Exchanged {
  /** Entries that were new there. */
  readonly sent: number;
  /** Entries that were new here. */
  readonly received: number;
  readonly photographsSent: number;
  readonly photographsReceived: number;
}

/** Entries on the way at once; what is lost when the connection goes is at most this. */
const BATCH = 500;

/** @throws InputError if an entry or photograph of the peer is not well formed; whatever the peer throws */
export async function exchange(mine: Keeper, peer: Peer): Promise<Exchanged> {
  const known = await noted(mine, peer);
  let sent = await send(mine, peer, known, new Set());
  const { added: received, ids } = await receive(mine, peer, known);
  // What came just now stands in the own log behind what was sent, and need not be offered back.
  sent += await send(mine, peer, known, ids);
  return { sent, received, ...(await exchangePhotographs(mine, peer)) };
}

/** How far the exchange with one peer has come. */
interface Progress {
  /** Place in the own log up to which the peer has everything. */
  sent: number;
  /** Place in the peer's log up to which everything is here. */
  received: number;
  /** Id of the entry that stood at that place. */
  last: string;
}

const FROM_THE_START: Progress = { sent: 0, received: 0, last: "" };

/**
 * What was noted, unless the peer's log is no longer the one that it was noted about: then an older copy was put in its
 * place, or it began anew under the same name, and it may lack what was sent once. Everything is offered again.
 */
async function noted(mine: Keeper, peer: Peer): Promise<Progress> {
  const { sent, received, last } = parsed(await mine.note(noteKey(peer)));
  if (received === 0) return { sent, received, last };
  const { entries } = await peer.since(received - 1, 1);
  return entries[0]?.id === last ? { sent, received, last } : { ...FROM_THE_START };
}

function noteKey({ id }: Peer): string {
  return `exchange:${id}`;
}

function parsed(text: string | undefined): Progress {
  const { sent, received, last }: Partial<Progress> = text === undefined ? FROM_THE_START : JSON.parse(text);
  return { sent: sent ?? 0, received: received ?? 0, last: last ?? "" };
}

async function send(mine: Keeper, peer: Peer, known: Progress, theirs: ReadonlySet<string>): Promise<number> {
  let added = 0;
  for (let more = true; more; ) {
    const batch = await mine.since(known.sent, BATCH);
    const wanted = batch.entries.filter(({ id }) => !theirs.has(id));
    if (wanted.length > 0) added += (await peer.append(wanted)).added;
    await advance(mine, peer, known, { sent: batch.place });
    more = batch.more;
  }
  return added;
}

async function receive(mine: Keeper, peer: Peer, known: Progress): Promise<{ added: number; ids: Set<string> }> {
  const ids = new Set<string>();
  let added = 0;
  for (let more = true; more; ) {
    const batch = await peer.since(known.received, BATCH);
    const entries = batch.entries.map((entry, index): LogEntry => checkedEntry(entry, `received[${index}]`));
    refuseStandstill(batch, known.received);
    added += (await mine.append(entries)).added;
    for (const { id } of entries) ids.add(id);
    await advance(mine, peer, known, { received: batch.place, last: entries.at(-1)?.id ?? known.last });
    more = batch.more;
  }
  return { added, ids };
}

/** A peer that promises more and gives nothing would be asked for ever. */
function refuseStandstill({ place, more, entries }: Awaited<ReturnType<Peer["since"]>>, before: number): void {
  if (Number.isSafeInteger(place) && (entries.length === 0 ? place === before && !more : place > before)) return;
  throw new InputError("received.place", `is ${place} after ${before}`, "Update the program on the other side");
}

async function advance(mine: Keeper, peer: Peer, known: Progress, step: Partial<Progress>): Promise<void> {
  const before = JSON.stringify(known);
  Object.assign(known, step);
  const after = JSON.stringify(known);
  if (after !== before) await mine.setNote(noteKey(peer), after);
}

async function exchangePhotographs(
  mine: Keeper,
  peer: Peer,
): Promise<Pick<Exchanged, "photographsSent" | "photographsReceived">> {
  const [here, there] = [new Set(await mine.photographs()), new Set((await peer.photographs()).map(checkedHash))];
  const missing = (wanted: ReadonlySet<string>, present: ReadonlySet<string>) =>
    [...wanted].filter((hash) => !present.has(hash));
  const photographsSent = await copyPhotographs(mine, peer, missing(here, there));
  return { photographsSent, photographsReceived: await copyPhotographs(peer, mine, missing(there, here)) };
}

type Pictures = Pick<Keeper, "photograph" | "keepPhotograph">;

async function copyPhotographs(from: Pictures, to: Pictures, hashes: readonly string[]): Promise<number> {
  let copied = 0;
  for (const hash of hashes) {
    const photograph = await from.photograph(hash);
    if (!photograph) continue;
    // Under the name that was asked for: a picture that is not that one is refused by whoever keeps it.
    await to.keepPhotograph({ ...photograph, hash });
    copied += 1;
  }
  return copied;
}
