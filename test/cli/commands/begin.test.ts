import { mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openJob } from "../../../src/app/assess-job.ts";
import { beginCommand } from "../../../src/cli/commands/begin.ts";
import { wiringCommand } from "../../../src/cli/commands/wiring.ts";
import { runCommand } from "../../../src/cli/run-cli.ts";
import { STARTERS } from "../../../src/core/begin/index.ts";
import { recordedIo } from "../../support/recorded-io.ts";
import { typedInput } from "../../support/typed-input.ts";

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "fettle-begin-"));
});
afterAll(() => rm(folder, { recursive: true }));

async function run(args: readonly string[], lines: readonly string[], live: boolean) {
  const io = recordedIo(96);
  const input = typedInput(lines, live);
  let opened = false;
  const openInput = () => {
    opened = true;
    return input;
  };
  const exitCode = await runCommand("fettle", beginCommand, args, { ...io, openInput });
  // A pipe left open would keep the program from ending.
  expect(input.closed).toBe(opened);
  return { exitCode, left: input.left, ...io.printed };
}
const atTerminal = (args: readonly string[], ...lines: string[]) => run(args, lines, true);
const throughPipe = (args: readonly string[], ...lines: string[]) => run(args, lines, false);
/** Lines are broken where the terminal ends. */
const flat = (text: string) => text.replace(/\s+/g, " ");
const usage = `usage: fettle ${beginCommand.usage}\n`;

const POT = ["9.5 x 9.5", "7", "9.7", "12.5", "33", ""];

describe("at a terminal", () => {
  it("lists the questions, asks one entry after the other and answers", async () => {
    const { out, err, exitCode, left } = await atTerminal([], "11", "6", ...POT, "");
    expect(flat(err)).toContain(flat("  1  bridge-place    Where must this bridge stand?\n"));
    expect(flat(err)).toContain(flat('  There is no question "11" to begin with. Use a number from 1 to 10'));
    expect(flat(err)).toContain(flat("\n1 of 6: How long is the pot's thread, and how thick?\n"));
    expect(flat(err)).toContain(flat("  For example: 9.5 x 9.5  (tool: calliper)\n"));
    expect(flat(err)).toContain(flat("  Read: Wood 7.0 mm thick.\n"));
    expect(flat(err)).toContain(flat("  Not known: the knob is not looked at.\n"));
    expect(out).toMatch(
      /^rework: Does the bushing of the new pot \(pot\) reach through the top\? \[control\.pot\.bushing\]\n/,
    );
    expect(out).toContain("go: Does the new pot (pot) go through its hole? [control.pot.hole]\n");
    expect(out).toContain("\nTaken for granted, or left open\n  - Nut, washers, lock washer and foil together: 4.2 mm");
    expect(out).toContain("\nNot kept. To go on with it: fettle begin pot --keep FILE");
    expect({ exitCode, left }).toEqual({ exitCode: 1, left: [] });
  });

  it("asks again after a slip and loses nothing; says more on ?; goes back and keeps with =", async () => {
    const lines = [
      "9.5",
      "?",
      "9.5 x 9.5",
      "back",
      "=",
      "0.3 kg",
      "7",
      "BACK",
      "6.5",
      "9.7",
      "back",
      "=",
      ...POT.slice(3),
      "",
    ];
    const { out, err, exitCode } = await atTerminal(["pot"], ...lines);
    expect(flat(err)).toContain(flat("  Gives 1 figure. Give length, then diameter, e.g. 9.5 x 9.5.\n"));
    expect(flat(err)).toContain(
      flat("  Length first, then diameter. Inches will do: 3/8 3/8 in. If you do not know: the answer will be:"),
    );
    expect(flat(err)).toContain(flat("  Before: 9.5 x 9.5  (= keeps it)\n"));
    expect(flat(err)).toContain(
      flat('  Cannot read "kg". Write the figures, and the tool in brackets if it was another one.\n'),
    );
    expect(flat(err)).toContain(flat("  Before: 7  (= keeps it)\n"));
    // 6.5 of wood and 4.2 of nut and washers want 10.7 of thread: 1.2 short.
    expect(out).toContain("The bushing is 1.2 mm too short for the top");
    expect(out).toContain("\nThe bushing passes its hole of 9.7 mm");
    expect(exitCode).toBe(1);
  });

  it("does not speak of millimetres where no length is asked for", async () => {
    const { err, out } = await atTerminal(["ohms"], "8.2", "?", "8.2 k", "500 k", "", "", "", "");
    expect(err).not.toContain("millimetres");
    expect(flat(err)).toContain(flat('  "8.2" has no unit.'));
    expect(flat(err)).toContain(flat("  Read: 8.2 kΩ.\n"));
    // Closed form: 8.2 k beside 500 k is 8067.69 Ω.
    expect(out).toContain("The meter should read 8.07 kΩ at the jack");
  });

  it("does not go back before the first entry", async () => {
    expect((await atTerminal(["jack"], "back")).err).toContain("  This is the first one.\n");
  });

  it("reads a later entry anew when an earlier one changed what it means", async () => {
    const { err, out } = await atTerminal(
      ["saddle-range"],
      ...["6 strings", "324", "back", "back", "7 strings multi-scale units", "=", "317.5 330", "8 20", "", ""],
    );
    expect(flat(err)).toContain(flat("  Before: 324  (= keeps it)\n"));
    expect(flat(err)).toContain(flat("  Gives 1 figure. Give two figures for a multi-scale neck"));
    expect(out).toMatch(/^go: Can every saddle reach/);
  });

  it("ends quietly when the person leaves", async () => {
    expect(await atTerminal(["pot"], "9.5 9.5")).toMatchObject({ exitCode: 1, out: "" });
    expect((await atTerminal(["pot"], "9.5 9.5")).err).toMatch(/Stopped\. Nothing was kept\.\n$/);
    expect(await atTerminal([])).toMatchObject({ exitCode: 2, out: "" });
  });

  it("keeps the job under a name, asks before it replaces, and asks again where it cannot write", async () => {
    const mine = join(folder, "mine.yaml");
    await writeFile(mine, "mine");
    const fresh = join(folder, "fresh.yaml");
    const nowhere = join(folder, "no", "where.yaml");
    const { out, err } = await atTerminal(["pot"], ...POT, mine, "no", nowhere, fresh);
    expect(flat(err)).toContain(flat(`${mine} is there already. Replace it? yes or no.\n`));
    expect(flat(err)).toContain(flat(`${nowhere}: there is no folder `));
    expect(out).toContain(`\nKept as ${fresh}. Next, all questions of the job: fettle assess ${fresh}\n`);
    expect(await readFile(mine, "utf8")).toBe("mine");
    expect((await openJob(fresh)).job.instrument.controls[0]?.wood).toMatchObject({ value: 7, tool: "calliper" });
    await atTerminal(["pot"], ...POT, mine, "yes");
    expect((await openJob(mine)).job.title).toBe("Guitar, new pot");
  });

  it("asks only for what the flags do not give", async () => {
    const { err, left } = await atTerminal(
      ["jack", "--answer", "wood=5", "--answer", "thread=9.5 9.5"],
      "9.7",
      "",
      "",
      "",
    );
    expect(flat(err)).toContain(flat("1 of 3: How wide is the hole that is there?"));
    expect(left).toEqual([]);
  });
});

describe("without a terminal", () => {
  it("takes a line an entry, prints the answer alone and keeps what it is told to", async () => {
    const file = join(folder, "piped.yaml");
    const { out, err, exitCode } = await throughPipe(["jack", "--keep", file], "9.5 9.5", "5", "9.7", "20", "33");
    expect({ err, exitCode }).toEqual({ err: "", exitCode: 0 });
    expect(out).toMatch(/^go: Does the new jack \(jack\) go through its hole\? \[control\.jack\.hole\]\n/);
    expect(out).toContain("  Measured enough for this question.\n");
    expect(out.endsWith(`\nKept as ${file}. Next, all questions of the job: fettle assess ${file}\n`)).toBe(true);
    expect(await readFile(file, "utf8")).toMatch(/^# Does this jack fit\?\n# Begun with: fettle begin jack\./);
  });

  it("takes what is missing at the end as not known", async () => {
    const { out, exitCode } = await throughPipe(
      ["bridge-place"],
      "7 strings, multi-scale, units, left",
      "317.5 330",
      "8 20",
    );
    expect(out).toMatch(/^go: Where must this bridge stand\? \[bridge\.place\]\n7 units, /);
    expect(out).toContain("  - Outer strings at the nut: taken as 43.2 mm, give or take 2 mm (common practice).");
    expect(exitCode).toBe(0);
  });

  it("tells what the meter should read, whether a reading agrees, and what explains one that does not", async () => {
    // Closed form: 6.2 k beside 250 k is 6049.96 Ω.
    const fine = await throughPipe(["ohms"], "6.2 k", "250 k", "no", "20 °C", "6.05 k");
    expect(fine.out).toMatch(
      /^go: What should the meter read at the jack\? \[wiring\.ohms\]\nAgrees: 6\.05 kΩ read, 6\.05 kΩ expected/,
    );
    expect(fine.exitCode).toBe(0);
    const off = await throughPipe(["ohms"], "6.2 k", "250 k", "no", "20 °C", "250 k");
    expect(flat(off.out)).toContain("First to look at: pickup is open: its wire or one of its joints is broken");
    expect(off.exitCode).toBe(1);
  });

  it("tells why a pair is thin, how it is cured, and keeps a job whose wiring says the same", async () => {
    const file = join(folder, "thin.yaml");
    const lines = [
      "up down",
      "draws north, draws south",
      "6.2 k, 6.5 k",
      "base plate of second",
      "parallel",
      "volume 250 k",
    ];
    const { out, exitCode } = await throughPipe(["thin", "--keep", file], ...lines);
    expect(out).toMatch(/^no-go: Does the pair sound as it should\? \[wiring\.state\.pair\]\n.*out of phase\.\n/);
    expect(flat(out)).toContain("- Swap first.start and first.finish: in phase, quiet.");
    expect(exitCode).toBe(1);
    const io = recordedIo(96);
    expect(await runCommand("fettle", wiringCommand, [file], io)).toBe(1);
    expect(flat(io.printed.out)).toContain("out of phase");
  });

  it.each(["ohms", "thin"])("ends %s honestly where nobody knows anything", async (starter) => {
    const { out, exitCode } = await throughPipe([starter], ...Array.from({ length: 6 }, () => "don't know"));
    expect(out).toMatch(/^measure: /);
    expect(flat(out)).toMatch(
      starter === "ohms" ? /the coil's ohms with meter/ : /which way first pickup kicks with meter/,
    );
    expect(exitCode).toBe(1);
  });

  it("names the weakest value and the best next reading where the answer is not sure", async () => {
    const { out, exitCode } = await throughPipe(["bridge-place"], "6 strings", "324", "11.5 16", "36 52.5");
    // The window is 312.5 to 313.6: half a millimetre to either side, against setbacks that are good to a millimetre.
    expect(out).toMatch(/Front edge 313\.[01] mm from the middle of fret 12 \(637\.[01] mm from the nut\)/);
    expect(flat(out)).toMatch(
      /Weakest value: the string's setback, strings [16], [16], .* \(a fixed rule, not this string; most of the doubt\)\./,
    );
    expect(flat(out)).toContain("Best next: measure the string's setback");
    expect(exitCode).toBe(1);
  });

  it("says when it is the drilling, and no reading, that makes the answer doubtful", async () => {
    const holes = ["47: 3 at 20 dia 3.5 pilot 2.8 deep 26; 58: 2 at 20", "469: 5 at 11 dia 3.4 deep 20"];
    const { out } = await throughPipe(["bridge-place"], "bass left", "432", "8 24", "30 57", ...holes);
    expect(flat(out)).toMatch(/Weakest is how you drill: \w.* another reading alone would hardly help\./);
  });

  it("reads the question from the first line", async () => {
    expect((await throughPipe([], "jack", "9.5 9.5", "5", "9.7", "20", "33")).exitCode).toBe(0);
  });

  it("does not wait for lines when flags give the answers", async () => {
    const { left, exitCode } = await throughPipe(["pot", "--answer", "wood=7"], "never read");
    expect({ left, exitCode }).toEqual({ left: ["never read"], exitCode: 1 });
  });

  it("shows inches, and everything for machines", async () => {
    // 0.28 in is 7.112 mm; with 4.2 mm of stack the thread must be 11.3 mm, 0.445 in.
    const flags = ["--answer", "wood=0.28 in", "--answer", "thread=3/8 3/8 in"];
    expect((await throughPipe(["pot", ...flags, "--units", "inch"])).out).toContain("Need 0.445 in");
    const { out } = await throughPipe(["pot", ...flags, "--json"]);
    const { question, job, notes, verdicts } = JSON.parse(out);
    expect(question).toBe("pot");
    expect(job.instrument.controls.pot).toEqual({ wood: "0.28 in (calliper)" });
    expect(verdicts.map(({ id }: { id: string }) => id)).toEqual([
      "control.pot.bushing",
      "control.pot.hole",
      "control.pot.depth",
    ]);
    expect(notes).toHaveLength(2);
  });

  it.each([
    [["sound"], 'QUESTION: there is no question "sound" to begin with.'],
    [["pot", "jack"], "jack: is one name too many. Name one question, or none to see them all.\n"],
    [
      ["pot", "--answer", "scale=648"],
      '--answer: cannot read "scale=648". Write ENTRY=VALUE; the entries of pot are thread, ',
    ],
    [["pot", "--answer", "wood"], '--answer: cannot read "wood". Write ENTRY=VALUE; '],
    [["--answer", "wood=7"], "--answer: needs the question that it belongs to."],
    [["pot", "--answer", "wood=thick"], 'wood: cannot read "thick".'],
    [["pot", "--units", "ell"], '--units: cannot be "ell".'],
    [["pot", "--colour"], "Unknown option '--colour'."],
    [[], "QUESTION: is missing. Name one, e.g. fettle begin bridge-place.\n"],
  ])("refuses %j with exit code 2", async (args, message) => {
    const { exitCode, out, err } = await throughPipe(args);
    expect({ exitCode, out }).toEqual({ exitCode: 2, out: "" });
    expect(flat(err)).toContain(flat(message));
    expect(err.endsWith(usage)).toBe(true);
  });

  it("refuses a line that it cannot read by the name of its entry", async () => {
    const { exitCode, err } = await throughPipe(["jack"], "9.5 9.5", "thick", "9.7");
    expect(exitCode).toBe(2);
    expect(flat(err)).toContain(flat('wood: cannot read "thick".'));
  });

  it("does not touch a file that is there, and says so before it asks anything", async () => {
    const file = join(folder, "there.yaml");
    await writeFile(file, "mine");
    const { exitCode, err, left } = await throughPipe(["jack", "--keep", file], "9.5 9.5");
    expect({ exitCode, left }).toEqual({ exitCode: 2, left: ["9.5 9.5"] });
    expect(flat(err)).toContain(flat("is there already."));
    expect(await readFile(file, "utf8")).toBe("mine");
    expect((await throughPipe(["jack", "--keep", file, "--replace"], "9.5 9.5")).exitCode).toBe(1);
    expect((await openJob(file)).job.title).toBe("Guitar, new jack");
    expect((await readdir(folder)).filter((name) => name.endsWith(".part"))).toEqual([]);
  });
});

describe("every question", () => {
  it.each(STARTERS.map(({ id }, index) => [String(index + 1), id]))(
    "is there by its number %s and its id %s",
    async (number, id) => {
      const empty = Array.from({ length: 6 }, () => "");
      expect((await throughPipe([number], ...empty)).out).toBe((await throughPipe([id], ...empty)).out);
    },
  );
});
