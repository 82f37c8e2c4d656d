/**
 * Names drawn by chance: of a log, of the device that keeps it, of each writing into it.
 *
 * A writing is one command that adds entries. Each has a name of its own, begun with the device's, so that two commands
 * at once, or two computers with copies of one data folder, never give one id to two entries.
 */
import { randomInt } from "node:crypto";
import type { Keeper } from "../store/index.ts";

const LETTERS = "abcdefghijklmnopqrstuvwxyz0123456789";

export function randomLetters(count: number): string {
  return Array.from({ length: count }, () => LETTERS[randomInt(LETTERS.length)]).join("");
}

/** Tells this log from every other one; drawn when it is first asked for. */
export function logNameOf(keeper: Keeper): Promise<string> {
  return drawnOnce(keeper, "log", 20);
}

export function deviceNameOf(keeper: Keeper): Promise<string> {
  return drawnOnce(keeper, "device", 10);
}

export async function writingName(keeper: Keeper): Promise<string> {
  return `${await deviceNameOf(keeper)}${randomLetters(8)}`;
}

async function drawnOnce(keeper: Keeper, key: string, letters: number): Promise<string> {
  const known = await keeper.note(key);
  if (known !== undefined) return known;
  const drawn = randomLetters(letters);
  await keeper.setNote(key, drawn);
  // Another program may have drawn at the same moment: what was kept last counts for both.
  return (await keeper.note(key)) ?? drawn;
}
