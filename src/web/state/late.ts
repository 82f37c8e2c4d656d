/** Parts of the page that the first sight does without: scripts of their own, put in when they are wanted. */

import { InputError } from "../../core/errors.ts";

/** @throws InputError if the script cannot be loaded; another try takes a fresh page */
export async function late<T>(load: () => Promise<T>): Promise<T> {
  try {
    return await load();
  } catch (error) {
    if (error instanceof InputError) throw error;
    throw new InputError(
      "a part of the page",
      `was not loaded (${error instanceof Error ? error.message.slice(0, 120) : "no reason given"})`,
      "See that the page's files can be reached, then load the page again; nothing that was kept is lost",
    );
  }
}

export const files = () => late(() => import("../late/files.ts"));
export const papers = () => late(() => import("../late/papers.ts"));
export const wiringDrawing = () => late(() => import("../late/wiring-drawing.ts"));
