/** One verdict in full: why, what to do, ways out, what to measure next, how sure. */
import { workInWords } from "../core/briefing/index.ts";
import type { NextReading, Permanence, Remedy, Verdict } from "../core/verdict/index.ts";
import { chance, phrase, type Style, statusWord } from "./render-style.ts";
import { paint, printable, wrap } from "./text.ts";

export function renderVerdict(verdict: Verdict, style: Style): string[] {
  const { status, question, id, headline, detail, work, remedies } = verdict;
  const name = paint(`[${printable(id)}]`, "faint", style.colour);
  return [
    ...wrap(`${statusWord(status, style)}: ${printable(question)} ${name}`, style.width),
    ...wrap(paint(phrase(headline, style), "strong", style.colour), style.width),
    ...detail.flatMap((line) => wrap(phrase(line, style), style.width, "  ")),
    ...chanceLines(verdict, style),
    ...list(
      "What to do",
      work.map((act) => phrase(workInWords(act), style)),
      style,
    ),
    ...waysOut(remedies, style),
    ...toMeasure(verdict, style),
  ];
}

/** Tool, place, how long, and what it would settle. */
export function readingLine(reading: NextReading): string {
  const { what, tool, how, minutes } = reading;
  return `measure ${printable(what)} with ${printable(tool)}, ${minutes} min: ${printable(how)}`.replace(
    /[.\s]*$/,
    ".",
  );
}

export function permanenceNote(permanence: Permanence): string {
  switch (permanence) {
    case "reversible":
      return "can be undone";
    case "hidden":
      return "cannot be undone, does not show";
    case "permanent":
      return "cannot be undone";
  }
}

function chanceLines({ probability, status, stake, work }: Verdict, style: Style): string[] {
  if (probability === undefined) return [];
  const after = status === "rework" && work.length > 0 ? ", once that is done" : "";
  const advice = stake > 1 && probability < style.gate ? " Do not drill or cut on this." : "";
  return wrap(`Chance that it goes${after}: ${chance(probability, style)}.${advice}`, style.width, "  ", "    ");
}

function waysOut(remedies: readonly Remedy[], style: Style): string[] {
  const ways = remedies.map(({ text, then, permanence, probability }) => {
    const odds = probability === undefined ? "" : ` (${chance(probability, style)})`;
    const outcome = then ? `Then ${then}${odds}; ` : odds && `Chance then${odds}; `;
    const note = outcome ? permanenceNote(permanence) : capital(permanenceNote(permanence));
    return `${capital(phrase(text, style)).replace(/\.$/, "")}. ${outcome}${note}.`;
  });
  return list("Ways out", ways, style);
}

function toMeasure({ next, missing }: Verdict, style: Style): string[] {
  const readings = next ? [next, ...missing.filter(({ path }) => path !== next.path)] : missing;
  return list(
    next ? "Measure next" : "Not known yet",
    readings.map((reading) => sentence(reading, style)),
    style,
  );
}

function sentence(reading: NextReading, style: Style): string {
  const { probabilityAfter, settles } = reading;
  const odds = probabilityAfter === undefined ? "" : ` Chance then, if it agrees: ${chance(probabilityAfter, style)}.`;
  return `${capital(readingLine(reading))} It settles ${printable(settles).replace(/\.$/, "")}.${odds}`;
}

function list(title: string, items: readonly string[], style: Style): string[] {
  if (items.length === 0) return [];
  return [`  ${title}`, ...items.flatMap((item) => wrap(item, style.width, "  - ", "    "))];
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
