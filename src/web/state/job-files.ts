/** A job file opened in the page, and a job saved as one. */
import { InputError, loadJob } from "../../core/index.ts";
import { isJobId, type Json } from "../../core/log/index.ts";
import { files } from "./late.ts";
import { randomLetters } from "./readings.ts";

const MOST_BYTES = 2_000_000;
const MOST_ALIASES = 100;

export interface OpenedFile {
  readonly id: string;
  readonly words: string;
  readonly document: Json;
}

/** @throws InputError naming what is wrong with the file */
export async function openJobFile(file: File): Promise<OpenedFile> {
  if (file.size > MOST_BYTES)
    throw new InputError(file.name, `is larger than ${MOST_BYTES} bytes`, "Choose a job file, not a picture");
  const document = await readDocument(await file.text(), file.name);
  const job = loadJob(document);
  const given = job.parsed.file.job?.id;
  const id = given !== undefined && isJobId(given) ? given : newJobId();
  return { id, words: `opened ${file.name}`, document };
}

async function readDocument(text: string, name: string): Promise<Json> {
  const { parse } = await files();
  try {
    return parse(text, { maxAliasCount: MOST_ALIASES, version: "1.2", schema: "core", uniqueKeys: true }) as Json;
  } catch (error) {
    const problem = error instanceof Error ? (error.message.split("\n")[0] ?? "") : "";
    throw new InputError(
      name,
      `cannot be read as YAML or JSON: ${problem.replace(/[:.\s]+$/, "")}`,
      "Mend the file there",
    );
  }
}

export function newJobId(): string {
  return `job-${randomLetters(8)}`;
}
