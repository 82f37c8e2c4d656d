import { parseArgs } from "node:util";
import { pickupPart, switchPart } from "../../app/found-parts.ts";
import { type CoilsFound, type ContactsFound, findCoils, findContacts } from "../../core/circuit/index.ts";
import { InputError } from "../../core/errors.ts";
import { isId } from "../../core/job/index.ts";
import type { Command, ExitCode, Input, Io } from "../command.ts";
import { coilInquiry, coilSearchOf } from "../find-coils-talk.ts";
import { contactInquiry, contactSearchOf } from "../find-switch-talk.ts";
import { inquire } from "../find-talk.ts";
import { renderCoils, renderSwitch } from "../render-found.ts";

export const findCommand: Command = {
  name: "find",
  summary: "Find with a meter which wires of a pickup are which coil, or which lugs a switch joins",
  usage: "find coils|switch [--part ID] [--json]",
  async run(args, io) {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { part: { type: "string" }, json: { type: "boolean", default: false } },
    });
    const [what, extra] = positionals;
    if (what !== "coils" && what !== "switch")
      throw new InputError("find", what === undefined ? "needs a name" : `cannot be "${what}"`, "Use coils or switch");
    if (extra !== undefined) throw new InputError(extra, "is one name too many", "Use coils or switch");
    const part = values.part ?? (what === "coils" ? "pickup" : "switch");
    if (!isId(part))
      throw new InputError(
        "--part",
        `cannot be "${part.slice(0, 60)}"`,
        "Use small letters, digits and hyphens, e.g. --part bridge",
      );
    const input = io.openInput?.() ?? NO_INPUT;
    const wanted: Wanted = { part, json: values.json };
    try {
      return await (what === "coils" ? coils(io, input, wanted) : contacts(io, input, wanted));
    } finally {
      input.close();
    }
  },
};

const NO_INPUT: Input = { live: false, line: async () => undefined, close: () => {} };

interface Wanted {
  /** The id that the part is to have in the job file. */
  readonly part: string;
  readonly json: boolean;
}

async function coils(io: Io, input: Input, { part, json }: Wanted): Promise<ExitCode> {
  const search = coilSearchOf(await inquire(coilInquiry, { io, input }));
  if (!search) return stopped(io, input, "Name conductors, metal and rows of poles, a line each");
  const found = findCoils(search);
  io.out(
    json
      ? JSON.stringify({ ...found, part: pickupPart(found, search), search }, undefined, 2)
      : renderCoils(found, search, part, io),
  );
  return isSound(found) ? 0 : 1;
}

async function contacts(io: Io, input: Input, { part, json }: Wanted): Promise<ExitCode> {
  const search = contactSearchOf(await inquire(contactInquiry, { io, input }));
  if (!search) return stopped(io, input, "Name lugs and positions, a line each");
  const found: ContactsFound = findContacts(search);
  const { map } = found;
  io.out(
    json
      ? JSON.stringify({ ...found, ...(map ? { part: switchPart(map) } : {}), search }, undefined, 2)
      : renderSwitch(found, search, part, io),
  );
  return map ? 0 : 1;
}

/** Everything is found, and nothing is broken. */
function isSound({ coils: found, needs, contradictions, loose }: CoilsFound): boolean {
  return found.length > 0 && needs.length === 0 && contradictions.length === 0 && loose.length === 0;
}

/** @throws InputError where nobody is there to have stopped */
function stopped(io: Io, input: Input, remedy: string): ExitCode {
  if (!input.live) throw new InputError("input", "ends before there is anything to read", remedy);
  io.err("Stopped. Nothing was found.");
  return 1;
}
