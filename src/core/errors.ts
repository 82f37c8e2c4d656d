/** A value that the caller can correct. Edges turn it into exit code 2, HTTP 422 or a message at the field. */
export class InputError extends Error {
  override readonly name = "InputError";

  constructor(
    /** Path as the caller knows it, e.g. "strings[2].frequencyHz". */
    readonly where: string,
    /** What is wrong, with the value seen. */
    readonly problem: string,
    /** What to do about it. */
    readonly remedy: string,
  ) {
    super(`${where}: ${problem}. ${remedy}.`);
  }

  /** The same error seen from one level further out. */
  within(outer: string): InputError {
    return new InputError(`${outer}.${this.where}`, this.problem, this.remedy);
  }
}
