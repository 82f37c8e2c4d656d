/** What the server refuses, and how it says so: three parts and a status. */
import { InputError } from "../core/errors.ts";

export type RefusalStatus = 400 | 403 | 404 | 413 | 415 | 421 | 422 | 503;

export class Refusal extends Error {
  override readonly name = "Refusal";

  constructor(
    readonly status: RefusalStatus,
    readonly where: string,
    readonly problem: string,
    readonly remedy: string,
  ) {
    super(`${where}: ${problem}. ${remedy}.`);
  }
}

export interface Said {
  readonly status: RefusalStatus | 500;
  readonly body: { readonly where: string; readonly problem: string; readonly remedy: string };
}

/** A fault of the program is told to whoever runs it, never to whoever asked. */
export function saidOf(error: unknown, log: (line: string) => void): Said {
  if (error instanceof Refusal) return { status: error.status, body: partsOf(error) };
  if (error instanceof InputError) return { status: 422, body: partsOf(error) };
  log(error instanceof Error ? (error.stack ?? error.message) : String(error));
  const body = {
    where: "the bench computer",
    problem: "could not do this, by a fault of its own",
    remedy: "Try again; what went wrong is written where fettle was started",
  };
  return { status: 500, body };
}

function partsOf({ where, problem, remedy }: Refusal | InputError): Said["body"] {
  return { where, problem, remedy };
}
