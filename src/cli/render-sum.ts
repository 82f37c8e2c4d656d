/** A verdict opened to its sums: formula, the numbers put in, result, source, and whose doubt it is. */
import { shareInWords } from "../app/in-words.ts";
import type { LengthUnit } from "../core/quantity/index.ts";
import type { Share, Sum, SumRow, Verdict } from "../core/verdict/index.ts";
import { phrase, type Style } from "./render-style.ts";
import { paint, printable, table, wrap } from "./text.ts";

const MM_PER_INCH = 25.4;

export function renderSums({ sums, shares, id }: Verdict, style: Style): string[] {
  if (sums.length === 0) return [`${printable(id)} rests on no sum.`];
  return [...sums.flatMap((sum) => ["", ...renderSum(sum, style)]), ...renderShares(shares, style)];
}

function renderSum(sum: Sum, style: Style): string[] {
  const rows = sum.rows.map((row) =>
    [row.symbol, shownValue(row, style.units), origin(row), row.meaning].map(printable),
  );
  return [
    paint(printable(sum.title), "strong", style.colour),
    ...wrap(printable(sum.formula), style.width, "  ", "      "),
    ...(rows.length > 0 ? table(rows, ["left", "point", "left", "left"], style.width, "  ") : []),
    ...wrap(`= ${phrase(sum.result, style)}`, style.width, "  ", "    "),
    ...wrap(`Source: ${printable(sum.source.text)} (${sum.source.mark})`, style.width, "  ", "    "),
  ];
}

function renderShares(shares: readonly Share[], style: Style): string[] {
  if (shares.length === 0) return [];
  const rows = shares.map(({ share, what }) => [`${Math.round(share * 100)} %`, shareInWords(share), printable(what)]);
  return [
    "",
    paint("Whose doubt it is", "strong", style.colour),
    ...table(rows, ["point", "left", "left"], style.width, "  "),
  ];
}

/** `182.00 mm (u 0.15)`: value and standard uncertainty, with as many decimals as the doubt has meaning for. */
export function shownValue({ value, u, unit }: Pick<SumRow, "value" | "u" | "unit">, units: LengthUnit): string {
  const inch = unit === "mm" && units === "inch";
  const factor = inch ? 1 / MM_PER_INCH : 1;
  const digits = u > 0 ? decimalsOfDoubt(u * factor) : decimalsOfConstant(value * factor);
  const doubt = u > 0 ? ` (u ${(u * factor).toFixed(digits)})` : "";
  return `${`${(value * factor).toFixed(digits)} ${inch ? "in" : unit}`.trim()}${doubt}`;
}

/** Two significant digits of the doubt (JCGM 100:2008, 7.2.6). */
function decimalsOfDoubt(u: number): number {
  return Math.min(6, Math.max(0, 1 - Math.floor(Math.log10(u))));
}

/** A constant of the rule as it was stated. */
function decimalsOfConstant(value: number): number {
  return /\.(\d+)$/.exec(String(Number(value.toFixed(4))))?.[1]?.length ?? 0;
}

function origin(row: SumRow): string {
  return row.tool ? `${row.origin}, ${row.tool}` : row.origin;
}
