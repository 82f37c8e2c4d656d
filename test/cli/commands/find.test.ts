import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { findCommand } from "../../../src/cli/commands/find.ts";
import { runCommand } from "../../../src/cli/run-cli.ts";
import { areJoined, type ContactMap } from "../../../src/core/circuit/contact-map.ts";
import { fiveDetentLever } from "../../../src/core/circuit/index.ts";
import { parseJob, resolveAsFound } from "../../../src/core/job/index.ts";
import { recordedIo } from "../../support/recorded-io.ts";
import { typedInput } from "../../support/typed-input.ts";

async function run(args: readonly string[], lines: readonly string[], live: boolean) {
  const io = recordedIo(96);
  const input = typedInput(lines, live);
  let opened = false;
  const openInput = () => {
    opened = true;
    return input;
  };
  const exitCode = await runCommand("fettle", findCommand, args, { ...io, openInput });
  // A pipe left open would keep the program from ending.
  expect(input.closed).toBe(opened);
  return { exitCode, left: input.left, ...io.printed };
}
const atTerminal = (args: readonly string[], ...lines: string[]) => run(args, lines, true);
const throughPipe = (args: readonly string[], ...lines: string[]) => run(args, lines, false);
/** Lines are broken where the terminal ends. */
const flat = (text: string) => text.replace(/\s+/g, " ");
const usage = `usage: fettle ${findCommand.usage}\n`;

/** The lines for the job file, inside the smallest job that can hold them. */
function jobWith(out: string, fit: object = {}) {
  const { parts } = parse(out.slice(out.indexOf("\nFor the job file\n") + "\nFor the job file\n".length));
  const instrument = { kind: "guitar", strings: 6 };
  return parseJob({ fettle: { instrument: 1 }, instrument, parts, fit, wiring: {} }).file;
}

/** Invented: two sound coils, wound and magnetised the opposite way. */
const NAMES = ["orange brown cream blue", "", "humbucker"];
const OHMS = ["6.30 k", "6.45 k", "open"];

describe("[WI22] find coils", () => {
  it("leads through an invented pickup of four conductors, one reading at a time", async () => {
    const { out, err, exitCode, left } = await atTerminal(["coils"], ...NAMES, ...OHMS, "up", "down", "s", "n", "");
    expect({ exitCode, left }).toEqual({ exitCode: 0, left: [] });
    const said = flat(err);
    expect(said).toContain("Name the conductors in one line, by their own colours. For example: grey yellow violet");
    expect(said).toContain("Put the probes on orange and brown, range 20 kohm, and note the reading, or open. Write");
    expect(said).toContain("So far: orange-brown 6.30 k. Readings of ohms left: 5 at most. ");
    expect(said).toContain("So far: orange-brown 6.30 k; cream-blue 6.45 k. Readings of ohms left: 4 at most.");
    expect(said).toContain(
      "Red probe on orange, black on brown, direct volts 200 mV: lower steel quickly to the poles",
    );
    expect(said).toContain("So far: orange-brown 6.30 k, finish orange; cream-blue 6.45 k.");
    expect(said).toContain("Hold a compass above the poles of row screws");
    expect(said).toMatch(/Everything that readings can tell is read\..*take the last answer back\. $/);
    // Both kick + with red on the finish, so finish of one goes to start of the other; the windings differ.
    expect(out).toContain(
      [
        "In series, in phase",
        "  hot     orange",
        "  joint   brown with blue",
        "  ground  cream",
        "  hum     cancels when they are in phase",
      ].join("\n"),
    );
    expect(out).not.toContain("Not known yet");
  });

  it("prints lines that a job file takes, and that give the same coils", async () => {
    const lines = [...NAMES, ...OHMS, "up", "down", "south", "north"];
    const { out } = await throughPipe(["coils", "--part", "reef"], ...lines);
    const file = jobWith(out, { pickups: { bridge: { part: "reef" } } });
    expect(file.parts?.reef).toEqual({
      kind: "pickup",
      coils: {
        screws: { ohms: "6.30 k (meter)", kick: "+", winding: 1, magnet: "north up", start: "brown", finish: "orange" },
        slugs: { ohms: "6.45 k (meter)", kick: "+", winding: -1, magnet: "south up", start: "cream", finish: "blue" },
      },
    });
    const coils = resolveAsFound(file).instrument.wiring?.coils ?? [];
    expect(
      coils.map(({ id, start, finish, ohms, winding, kick }) => ({
        id,
        start,
        finish,
        ohms: ohms.known && [ohms.value, ohms.tool],
        winding,
        kick,
      })),
    ).toEqual([
      {
        id: "bridge.screws",
        start: "bridge.brown",
        finish: "bridge.orange",
        ohms: [6300, "meter"],
        winding: 1,
        kick: 1,
      },
      { id: "bridge.slugs", start: "bridge.cream", finish: "bridge.blue", ohms: [6450, "meter"], winding: -1, kick: 1 },
    ]);
  });

  it("asks a slip again with the reason, and takes a wrong answer back", async () => {
    const lines = [
      "undo",
      ...NAMES,
      "6.3",
      "7 k",
      "undo",
      ...OHMS,
      "sideways",
      "up",
      "down",
      "up",
      "south",
      "north",
      "",
    ];
    const { out, err, exitCode } = await atTerminal(["coils"], ...lines);
    const said = flat(err);
    expect(said).toContain("There is nothing to take back. Answer the first question.");
    expect(said).toContain('"6.3" has no unit.');
    expect(said).toContain("So far: orange-brown 7.00 k. Readings of ohms left: 5 at most.");
    expect(said).toContain("Taken back. So far: no coil yet. Readings of ohms left: 6 at most.");
    expect(said).toContain('Cannot read "sideways". Write up, down or none, or ? to go on without.');
    // Red on orange: +; red on cream: -. The third "up" was no answer for the compass.
    expect(said).toContain('Cannot read "up". Write north or south, or ? to go on without.');
    expect(flat(out)).toContain("orange to brown 6.30 k; cream to blue 6.45 k; orange to cream open; red on orange");
    expect(exitCode).toBe(0);
  });

  it("takes names back as well", async () => {
    const lines = ["grey grey", "grey!", "Grey Pink", "undo", "grey yellow", "lid", "", "*", "2", "undo"];
    const { err } = await atTerminal(["coils"], ...lines, "poles", "5.9 k", "up", "north", "");
    const said = flat(err);
    expect(said).toContain('"grey" stands twice. Name each wire by its colour.');
    expect(said).toContain('Cannot take "grey!" as a name. Use letters, digits, / and -, e.g. white/red.');
    expect(said).toContain('Cannot read "lid". Use bare lead, cover, base plate.');
    expect(said).toContain('Cannot take "*" as a name. Use up to 30 letters, digits, spaces, / and -.');
    expect(said).toContain("So far: grey-yellow 5.90 k, finish grey.");
  });

  it("goes on after don't know, and says at the end what would tell", async () => {
    const { out, exitCode } = await throughPipe(["coils"], ...NAMES, ...OHMS, "up", "down", "?", "don't know");
    expect(exitCode).toBe(1);
    expect(out).toContain("  hum     not known: hold a compass to the poles of both\n");
    expect(out).toContain(
      "\nNot known yet; what would tell\n  - Hold a compass above the poles of row screws and note which end",
    );
    const { parts } = jobWith(out);
    expect(parts?.pickup).toMatchObject({ coils: { screws: { kick: "+", start: "brown", finish: "orange" } } });
    const few = await throughPipe(["coils"], ...NAMES, "6.30 k", "?", "?", "6.45 k");
    expect(flat(few.out)).toContain("Not known yet; what would tell - Put the probes on");
    expect(few.exitCode).toBe(1);
  });

  it("names the ends of a broken coil", async () => {
    const lines = [...NAMES, "6.30 k", "OL", "O.L", "open", "up", "none", "south"];
    const { out, exitCode } = await throughPipe(["coils"], ...lines);
    expect(flat(out)).toContain(
      "cream and blue read open to everything: the two ends of a coil whose wire is broken, most likely.",
    );
    expect(jobWith(out).parts?.pickup).toMatchObject({ coils: { screws: { ohms: "6.30 k (meter)" } } });
    expect(exitCode).toBe(1);
  });

  it("names a contradiction and asks its pair again", async () => {
    // 4.10 and 4.25 make 8.35.
    const sum = ["grey pink lilac", "", "2", "4.1 k", "9 k", "4.25 k", "4.1 k", "8.35 k"];
    const { err, out, exitCode } = await atTerminal(["coils"], ...sum, "up", "up", "north", "south", "");
    const said = flat(err);
    expect(said).toContain(
      "Read grey to pink again: the readings do not add up. The readings between grey, pink, lilac do not add up",
    );
    expect(out).toContain("Joined inside, in series\n  joint  pink (joined inside)\n  phase  in phase\n");
    expect(out).toContain("  hum    cancels when they are in phase\n");
    expect(exitCode).toBe(0);
    expect(jobWith(out).parts?.pickup).toMatchObject({
      coils: { "row-1": { start: "pink", finish: "grey" }, "row-2": { start: "lilac", finish: "pink" } },
    });
  });

  it("asks each reading of a contradiction again, the oldest first, and goes on past those that are skipped", async () => {
    // Orange to cream open, yet brown to cream 6.4 k: over the coil orange-brown that cannot be.
    const wrong = [...NAMES, "6.30 k", "6.45 k", "open", "Brown to cream 6.40 k"];
    const { err, out, exitCode } = await atTerminal(["coils"], ...wrong, "?", "?", "?", "done");
    expect(out).toContain("Found\n  - No coil was found.\n  - A way was read over orange to brown, brown to cream,");
    expect(exitCode).toBe(1);
    const asked = [
      ...flat(err).matchAll(/Read (\S+) to (\S+) again: readings contradict each other\. A way was read/g),
    ];
    expect(asked.map(([, a, b]) => `${a}-${b}`)).toEqual(["orange-brown", "orange-cream", "brown-cream"]);
  });

  it("tells a contradiction that stays", async () => {
    const sum = ["grey pink lilac", "", "2", "4.1 k", "4.25 k", "9 k", "4.1 k", "4.25 k", "9 k"];
    const { out, exitCode } = await throughPipe(["coils"], ...sum);
    expect(flat(out)).toContain("The readings between grey, pink, lilac do not add up: read them again. If they stay,");
    expect(out).toContain("No coil was found.");
    expect(out).not.toContain("For the job file");
    expect(exitCode).toBe(1);
  });

  it("finds the wire of metal parts, and names a coil that hangs on the bare lead", async () => {
    const lines = ["core", "braid, cover and base plate", "", "0.3 ohm", "0.2 ohm", "5.9 k", "down", "south"];
    const { out, exitCode } = await throughPipe(["coils"], ...lines);
    expect(exitCode).toBe(0);
    expect(jobWith(out).parts?.pickup).toEqual({
      kind: "pickup",
      coils: {
        poles: { ohms: "5.9 k (meter)", kick: "+", winding: 1, magnet: "north up", start: "core", finish: "bare" },
      },
      metal: { "bare lead": "bare", cover: "bare", "base plate": "bare" },
    });
  });

  it("names metal that touches no wire", async () => {
    const lines = ["grey pink", "cover", "1", "5.9 k", "open", "up", "north"];
    const { out } = await throughPipe(["coils"], ...lines);
    expect(out).toContain("  - cover touches no wire: give it one to ground, or it picks up hum.\n");
    expect(jobWith(out).parts?.pickup).not.toHaveProperty("metal");
  });

  it("ends where the lines end, or at done, with what is known by then", async () => {
    const { out, exitCode } = await atTerminal(["coils"], ...NAMES, "6.30 k", "done");
    expect(out).toContain("orange and brown are the ends of a coil of 6.30 kohm.");
    expect(out).toContain("Not known yet; what would tell\n  - Put the probes on cream and blue");
    // Five pairs and a kick: no more than six are named.
    expect(out).not.toContain(" more.");
    expect(jobWith(out).parts?.pickup).toMatchObject({ coils: { a: { start: "orange", finish: "brown" } } });
    expect(out).toContain("# where no kick was read, start and finish stand in the order of the names\n");
    expect(exitCode).toBe(1);
    expect(await atTerminal(["coils"])).toMatchObject({ exitCode: 1, out: "" });
  });

  it("gives everything to machines", async () => {
    const { out } = await throughPipe(["coils", "--json"], ...NAMES, ...OHMS, "up", "down", "south", "north");
    const { coils, pairings, part, search } = JSON.parse(out);
    expect(coils).toHaveLength(2);
    expect(pairings[0].series).toEqual({ hot: "orange", joint: ["brown", "blue"], ground: "cream" });
    expect(part.coils.slugs.ohms).toBe("6.45 k (meter)");
    expect(search.kicks).toHaveLength(2);
  });
});

/** Answers from a map, and the lines that were needed. */
async function readOff(map: ContactMap, lugs: string, positions: string) {
  const typed: string[] = [];
  for (;;) {
    const { err, out, exitCode } = await atTerminal(["switch"], lugs, positions, ...typed);
    const asked = [...flat(err).matchAll(/Position (\S+): (\S+) to (\S+)\? y\/n/g)];
    const [, position = "", a = "", b = ""] = asked.at(-1) ?? [];
    if (asked.length === typed.length) return { typed, asked, out, exitCode, err: flat(err) };
    typed.push(areJoined(map, { position, a, b }) ? "y" : "n");
  }
}

describe("[WI23] find switch", () => {
  it("reads a lever of two poles and three throws with five detents, and never a pair that follows", async () => {
    const map = fiveDetentLever();
    const { typed, asked, out, err, exitCode } = await readOff(map, "p1-c p1-1 p1-2 p1-3 p2-c p2-1 p2-2 p2-3", "5");
    // Six pairs of four lugs, two poles, five positions.
    expect(err).toContain("Readings left: 60 at most.");
    expect(typed.length).toBeLessThan(60);
    expect(new Set(asked.map(([question]) => question)).size).toBe(asked.length);
    expect(out).toContain("  - Position 2: p1-c to p1-1 and p1-2; p2-c to p2-1 and p2-2.\n");
    expect(flat(out)).toContain("Poles were taken as apart, and not read: p1-c p1-1 p1-2 p1-3 | p2-c");
    expect(exitCode).toBe(0);

    const file = jobWith(out, { controls: { lever: { part: "switch" } } });
    const [found] = resolveAsFound(file).instrument.wiring?.switches ?? [];
    expect(found?.map.lugs).toEqual(map.lugs);
    expect(found?.map.positions).toEqual(map.positions);
  });

  it("takes a wrong answer back", async () => {
    const { err, out, exitCode } = await atTerminal(
      ["switch"],
      "c 1 2",
      "up down",
      "n",
      "undo",
      "y",
      "n",
      "n",
      "y",
      "",
    );
    const said = flat(err);
    expect(said).toContain("Position up: nothing joined yet. Readings left: 5 at most.");
    expect(said).toContain("Taken back. Readings left: 6 at most.");
    expect(said).toContain("Position up: c and 1 joined. Readings left: 4 at most.");
    expect(out).toContain("Joined\n  - Position up: c to 1.\n  - Position down: c to 2.\n");
    expect(exitCode).toBe(0);
    expect(jobWith(out).parts?.switch).toEqual({
      kind: "switch",
      contacts: { lugs: ["c", "1", "2"], positions: { up: [["c", "1"]], down: [["c", "2"]] } },
    });
  });

  it("names readings that contradict each other and asks them again, the oldest first", async () => {
    const lines = ["c 1 2", "up down", "y", "1 2 y", "UP: 2 to c n", "y", "1 1 y", "n", "n", "y", "n", ""];
    const { err, out, left } = await atTerminal(["switch"], ...lines);
    const said = flat(err);
    const trouble = "In position up, 1 to 2, c to 1 were read as joined, but 2 to c as open: one of these is wrong.";
    expect(said).toContain(`Position up: c to 1? y/n ${trouble}`);
    expect(said).toContain(`Position up: 1 to 2? y/n ${trouble}`);
    expect(said).toContain('Both probes on "1". Put the probes on two lugs.');
    expect(out).toContain("  - Position up: c to 1.\n");
    expect(left).toEqual([]);
  });

  it("tells what looks wrong", async () => {
    const { out } = await throughPipe(["switch"], "c 1 2", "1 2", "y", "n", "y", "n");
    expect(out).toContain("\nTo look at\n  - Lug 2 is joined to nothing in any position: it is a spare,");
    expect(out).toContain("  - Positions 1 and 2 join the same lugs: read one of them again.\n");
  });

  it("goes on after don't know and says what is not known", async () => {
    const { out, exitCode } = await throughPipe(["switch"], "c 1 2", "up, half way", "?", "n", "n", "y", "n");
    expect(exitCode).toBe(1);
    expect(out).toContain("\nNot known yet: put the probes on\n  - Position up: c to 1.\n");
    expect(out).not.toContain("For the job file");
  });

  it("takes poles between bars, and reads every pair where none are given", async () => {
    expect((await throughPipe(["switch"], "c 1 | d 2", "up down", "y", "n", "n", "y")).exitCode).toBe(0);
    const { err } = await atTerminal(["switch"], "c 1 d 2", "up down");
    expect(err).toContain("Readings left: 12 at most.");
  });

  it("asks again what it cannot take", async () => {
    const { err } = await atTerminal(["switch"], "c", "c c", "c_1 2", "c 1", "up up", "*", "", "up down", "perhaps");
    const said = flat(err);
    for (const words of [
      "1 named. Name 2 to 64 lugs.",
      '"c" stands twice. Name each lug of the switch once.',
      'Cannot take "c_1" as a name.',
      '"up" stands twice. Name each position of the switch once.',
      'Cannot take "*" as a name.',
      "Must not be empty.",
      'Cannot read "perhaps". Write y if the meter beeps, n if it does not.',
    ])
      expect(said).toContain(words);
  });
});

describe("what is refused", () => {
  it.each([
    [[], "find: needs a name. Use coils or switch.\n"],
    [["pots"], 'find: cannot be "pots". Use coils or switch.\n'],
    [["coils", "switch"], "switch: is one name too many."],
    [["coils", "--part", "My Reef"], '--part: cannot be "My Reef".'],
    [["coils"], "input: ends before there is anything to read. Name conductors, metal and rows of poles"],
    [["switch"], "input: ends before there is anything to read. Name lugs and positions, a line each.\n"],
  ])("%j with exit code 2", async (args, message) => {
    const { exitCode, out, err } = await throughPipe(args);
    expect({ exitCode, out }).toEqual({ exitCode: 2, out: "" });
    expect(flat(err)).toContain(flat(message));
    expect(err.endsWith(usage)).toBe(true);
  });

  it("a line that cannot be read where nobody can be asked again, by the name of its question", async () => {
    const { exitCode, err } = await throughPipe(["coils"], ...NAMES, "6.30 k", "6.4x");
    expect({ exitCode, err: flat(err) }).toMatchObject({ exitCode: 2, err: expect.stringMatching(/^cream to blue: /) });
  });

  it("lines that answer nothing: they may belong to other questions", async () => {
    const { exitCode, err } = await throughPipe(["switch"], "c 1", "up down", "y", "n", "n");
    expect(exitCode).toBe(2);
    expect(flat(err)).toContain('last line: "n" answers no question: everything is read.');
  });
});
