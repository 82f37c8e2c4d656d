/** Plain text for a terminal: wrapped paragraphs, tables aligned on the decimal point, colour that means something. */

/**
 * Breaks a text into lines no wider than `width`. A word wider than that stands on its own line, whole: paths and
 * formulas are copied from the screen.
 */
export function wrap(text: string, width: number, indent = "", hangingIndent = indent): string[] {
  const lines: string[] = [];
  let line = indent;
  let empty = true;
  for (const word of text.split(/\s+/).filter(Boolean)) {
    if (!empty && columns(line) + 1 + columns(word) > width) {
      lines.push(line);
      line = hangingIndent;
      empty = true;
    }
    line += empty ? word : ` ${word}`;
    empty = false;
  }
  if (!empty) lines.push(line);
  return lines;
}

// biome-ignore lint/suspicious/noControlCharactersInRegex: the escape character is what starts a colour
const PAINT = /\u001b\[\d+m/g;

/** How a column stands: words at the left, numbers with their points under each other. */
export type Align = "left" | "point";

/**
 * Rows of cells as lines. The last column is wrapped into what is left of the width, at least 20 characters.
 *
 * @param rows equally long
 */
export function table(
  rows: readonly (readonly string[])[],
  align: readonly Align[],
  width: number,
  indent = "",
): string[] {
  const aligned = transpose(transpose(rows).map((cells, column) => alignCells(cells, align[column] ?? "left")));
  const last = (aligned[0]?.length ?? 1) - 1;
  const widths = transpose(aligned).map((cells) => Math.max(...cells.map(columns)));
  return aligned.flatMap((row) => {
    const head = row.slice(0, last).map((cell, column) => `${pad(cell, widths[column] ?? 0)}  `);
    const start = indent + head.join("");
    const room = Math.max(width, columns(start) + 20);
    const lines = wrap(row[last] ?? "", room, start, " ".repeat(columns(start)));
    return lines.length ? lines.map((line) => line.trimEnd()) : [start.trimEnd()];
  });
}

/** Number of terminal columns, colour left out; the program's own texts hold no wide or combining characters. */
export function columns(text: string): number {
  return [...withoutPaint(text)].length;
}

export function withoutPaint(text: string): string {
  return text.replace(PAINT, "");
}

export type Tone = "bad" | "open" | "work" | "good" | "strong" | "faint";

const CODES: Readonly<Record<Tone, readonly [number, number]>> = {
  bad: [31, 39],
  open: [35, 39],
  work: [33, 39],
  good: [32, 39],
  strong: [1, 22],
  faint: [2, 22],
};

/** The text in a tone, if colour may be used. */
export function paint(text: string, tone: Tone, colour: boolean): string {
  const [on, off] = CODES[tone];
  return colour ? `\u001b[${on}m${text}\u001b[${off}m` : text;
}

/**
 * Text that came out of a job file, made safe to print: control characters could move the cursor or change what
 * already stands on the screen.
 */
export function printable(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what it is for
  return text.replace(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069]/g, "\ufffd");
}

function alignCells(cells: readonly string[], align: Align): string[] {
  if (align === "left") return [...cells];
  const before = Math.max(...cells.map((cell) => columns(wholePart(cell))));
  return cells.map((cell) => " ".repeat(before - columns(wholePart(cell))) + cell);
}

/** What stands before the decimal point, or before the unit. */
function wholePart(cell: string): string {
  return /^[-−+]?\d*/.exec(cell)?.[0] ?? "";
}

function pad(text: string, width: number): string {
  return text + " ".repeat(width - columns(text));
}

function transpose(rows: readonly (readonly string[])[]): string[][] {
  const width = Math.max(0, ...rows.map((row) => row.length));
  return Array.from({ length: width }, (_, column) => rows.map((row) => row[column] ?? ""));
}
