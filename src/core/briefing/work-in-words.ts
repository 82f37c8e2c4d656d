/** Work that a verdict asks for, as one sentence. */
import { mm, type Phrase, say } from "../quantity/index.ts";
import type { Work } from "../verdict/index.ts";

export function workInWords(work: Work): Phrase {
  switch (work.act) {
    case "plug":
      return say`Plug ${count(work.holes.length, "hole")} with ${mm(work.diameter, 1)} plugs cut with the body's grain, glue, let cure`;
    case "drill":
      return say`Drill ${count(work.holes.length, "new hole")} (${work.group})${work.intoPlugs ? " into the cured plugs, bit guided" : ""}`;
    case "rout":
      return rout(work);
    case "ream":
      return say`Open ${count(work.count, "hole")} (${work.where}) from ${mm(work.from, 1)} to ${mm(work.to, 1)} with a reamer or step bit`;
    case "spot-face":
      return say`Thin the wood from inside at ${work.where} by ${mm(work.depth, 1)}; ${mm(work.leaves, 1)} is left`;
    case "slot":
      return slot(work);
    case "shim":
      return say`Fit a full-pocket shim, ${mm(work.thickness, 2)} thick at the heel's end, none at the other, ${mm(work.length, 1)} long (${degrees(work.angleDegrees)})`;
    case "nut slots":
      return say`Widen ${count(work.widths.length, "nut slot")}: ${work.widths.flatMap(({ string, to }, index) => say`${index ? ", " : ""}string ${string} to ${mm(to, 2)}`)}`;
    case "insulate":
      return say`Insulate ${work.where}`;
    case "bare contact":
      return say`Make a bare contact at ${work.where}`;
    case "buy":
      return say`Buy ${work.what}: ${work.spec}`;
    case "choose":
      return say`${capital(work.what)}`;
    case "take off":
      return say`Take off ${work.part}`;
    case "fit":
      return say`Fit ${work.part}`;
    case "restring":
      return say`Restring with ${work.set}`;
  }
}

function slot({ where, from, to, screwOffset, cover }: Extract<Work, { act: "slot" }>): Phrase {
  const over = cover ? `; ${cover}` : "";
  if (screwOffset > 0 && to <= from)
    return say`Drill the screw holes (${where}) ${mm(screwOffset, 2)} to either side of the slot's middle${over}`;
  const screws = screwOffset > 0 ? say`, screws ${mm(screwOffset, 2)} to either side` : "";
  return say`Lengthen the slot (${where}) from ${mm(from, 1)} to ${mm(to, 1)}${screws}${over}`;
}

function rout(work: Extract<Work, { act: "rout" }>): Phrase {
  const parts: Phrase[] = [];
  if (work.lengthBy > 0) parts.push(say`${mm(work.lengthBy, 1)} longer`);
  if (work.widthBy > 0) parts.push(say`${mm(work.widthBy, 1)} wider`);
  if (work.depthBy > 0) parts.push(say`${mm(work.depthBy, 1)} deeper`);
  return say`Rout ${work.what} (${work.cavity}) ${parts.flatMap((part, index) => (index ? [", ", ...part] : part))}`;
}

function count(n: number, noun: string): string {
  return `${n} ${noun}${n === 1 ? "" : "s"}`;
}

function degrees(value: number): string {
  return `${value.toFixed(2)}°`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
