import { parseArgs } from "node:util";
import { type BegunJob, beginJob, starterNamed } from "../../app/begin.ts";
import { jobText } from "../../app/job-text.ts";
import { fileExists, keepFile } from "../../app/whole-file.ts";
import type { Answers, Starter } from "../../core/begin/index.ts";
import { InputError } from "../../core/errors.ts";
import { GATE_CHANCE } from "../../core/ledger/index.ts";
import { chooseStarter, type Talk, takeAnswers } from "../begin-talk.ts";
import type { Command, Input } from "../command.ts";
import { choiceFlag } from "../flags.ts";
import { renderBegun } from "../render-begun.ts";
import type { Style } from "../render-style.ts";
import { exitCode } from "./assess.ts";

export const beginCommand: Command = {
  name: "begin",
  summary: 'Begin a job with one question: at most six readings to a first answer, "don\'t know" always allowed',
  usage: "begin [QUESTION] [--answer ENTRY=VALUE ...] [--keep FILE [--replace]] [--units mm|inch] [--json]",
  async run(args, io) {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        answer: { type: "string", multiple: true, default: [] },
        keep: { type: "string" },
        replace: { type: "boolean", default: false },
        units: { type: "string", default: "mm" },
        json: { type: "boolean", default: false },
      },
    });
    const units = choiceFlag(values.units, "--units", ["mm", "inch"]);
    const [name, extra] = positionals;
    if (extra !== undefined)
      throw new InputError(extra, "is one name too many", "Name one question, or none to see them all");
    const named = name === undefined ? undefined : starterNamed(name, "QUESTION");
    const given = named ? answersFrom(values.answer, named) : {};
    if (!named && values.answer.length > 0)
      throw new InputError(
        "--answer",
        "needs the question that it belongs to",
        "Name it, e.g. fettle begin pot --answer wood=7",
      );

    const talk: Talk = { io, input: io.openInput?.() ?? NO_INPUT, units };
    try {
      if (!talk.input.live) await refuseToReplace(values.keep, values.replace);
      const starter = named ?? (await chooseStarter(talk));
      if (!starter) throw new InputError("QUESTION", "is missing", "Name one, e.g. fettle begin bridge-place");
      const answers = await answersOf(starter, given, talk);
      if (!answers) {
        io.err("Stopped. Nothing was kept.");
        return 1;
      }
      const begun = beginJob(starter, answers);
      const style: Style = { units, width: io.width, colour: io.colour, gate: GATE_CHANCE };
      io.out(values.json ? asJson(starter, begun) : renderBegun(begun, style).join("\n"));
      const file = await keep(starter, begun, { path: values.keep, replace: values.replace }, talk);
      if (!values.json) io.out(nextLine(starter, file));
      return begun.verdicts.length === 0 ? 1 : exitCode(begun.verdicts);
    } finally {
      talk.input.close();
    }
  },
};

const NO_INPUT: Input = { live: false, line: async () => undefined, close: () => {} };

/** `wood=7` */
function answersFrom(flags: readonly string[], starter: Starter): Answers {
  const answers: Record<string, string> = {};
  for (const flag of flags) {
    const [, entry = "", value = ""] = /^([^=]*)=(.*)$/s.exec(flag) ?? [];
    if (starter.entries.some(({ id }) => id === entry.trim())) answers[entry.trim()] = value;
    else
      throw new InputError(
        "--answer",
        `cannot read "${flag.slice(0, 60)}"`,
        `Write ENTRY=VALUE; the entries of ${starter.id} are ${starter.entries.map(({ id }) => id).join(", ")}`,
      );
  }
  return answers;
}

/** A script that gives flags is not made to wait for lines that nobody types. */
async function answersOf(starter: Starter, given: Answers, talk: Talk): Promise<Answers | undefined> {
  if (!talk.input.live && Object.keys(given).length > 0) return given;
  return takeAnswers(starter, given, talk);
}

async function refuseToReplace(path: string | undefined, replace: boolean): Promise<void> {
  if (path === undefined || replace || !(await fileExists(path))) return;
  throw new InputError("--keep", `${path} is there already`, "Give another name, or add --replace");
}

interface Wanted {
  readonly path: string | undefined;
  readonly replace: boolean;
}

/** @returns the file's name, or undefined if the job was not kept */
async function keep(
  starter: Starter,
  begun: BegunJob,
  wanted: Wanted,
  { io, input }: Talk,
): Promise<string | undefined> {
  const text = jobText(
    begun.data,
    `${starter.title}\nBegun with: fettle begin ${starter.id}. Lengths are millimetres; string 1 is the thinnest.`,
  );
  if (!input.live) {
    if (wanted.path !== undefined) await keepFile(wanted.path, text, { replace: wanted.replace, where: "--keep" });
    return wanted.path;
  }
  let path = wanted.path;
  let replace = wanted.replace;
  for (;;) {
    if (path === undefined) {
      io.err("\nKeep it as a job file? Type a name, e.g. my-guitar.yaml; leave it empty for no.");
      path = (await input.line())?.trim();
      if (!path) return undefined;
    }
    if (!replace && (await fileExists(path))) {
      io.err(`${path} is there already. Replace it? yes or no.`);
      replace = /^y(?:es)?$/i.test((await input.line())?.trim() ?? "");
      if (!replace) {
        path = undefined;
        continue;
      }
    }
    try {
      await keepFile(path, text, { replace, where: path });
      return path;
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      io.err(error.message);
      path = undefined;
    }
  }
}

function nextLine(starter: Starter, file: string | undefined): string {
  if (file !== undefined) return `\nKept as ${file}. Next, all questions of the job: fettle assess ${quoted(file)}`;
  return `\nNot kept. To go on with it: fettle begin ${starter.id} --keep FILE, then fettle assess FILE`;
}

function quoted(path: string): string {
  return /^[\w./-]+$/.test(path) ? path : `"${path}"`;
}

function asJson(starter: Starter, { data, notes, verdicts }: BegunJob): string {
  return JSON.stringify({ question: starter.id, job: data, notes, verdicts }, undefined, 2);
}
