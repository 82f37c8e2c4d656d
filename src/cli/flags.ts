/** Reads flags as the person typed them, and names them so in messages. */
import { InputError } from "../core/errors.ts";

/** @throws InputError unless the flag is one of the choices */
export function choiceFlag<Choice extends string>(
  value: string,
  flag: string,
  choices: readonly [Choice, ...Choice[]],
): Choice {
  const choice = choices.find((known) => known.toLowerCase() === value.toLowerCase());
  if (choice) return choice;
  const [first] = choices;
  throw new InputError(flag, `cannot be "${value}"`, `Use ${choices.join(" or ")}, e.g. ${flag} ${first}`);
}

/** @throws InputError unless the flag was given */
export function requiredFlag(value: string | undefined, flag: string, example: string): string {
  if (value) return value;
  throw new InputError(flag, "is missing", `Add it, e.g. ${flag} ${example}`);
}

/** @throws InputError unless the flag is a port's number */
export function portFlag(value: string, flag: string): number {
  const port = /^\d{1,5}$/.test(value) ? Number(value) : Number.NaN;
  if (port <= 65_535) return port;
  throw new InputError(flag, `cannot be "${value.slice(0, 20)}"`, `Use a number from 1 to 65535, e.g. ${flag} 4717`);
}

/** The one file that a command works on. @throws InputError unless there is exactly one */
export function onlyFile(positionals: readonly string[]): string {
  const [file, extra] = positionals;
  if (file === undefined) throw new InputError("FILE", "is missing", "Name a job file, e.g. examples/lowtide.yaml");
  if (extra === undefined) return file;
  throw new InputError(extra, "is one name too many", "Name one job file; put quotes around a name with spaces");
}
