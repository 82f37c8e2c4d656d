/** Photographs of the job: made small enough to keep, kept beside the log, and spoken of in the record. */
import { InputError } from "../../core/errors.ts";
import { type Change, type Json, mapKey, pathOf } from "../../core/log/index.ts";
import { photographOf } from "../../store/index.ts";
import type { Desk } from "./desk.ts";
import { versionOf } from "./readings.ts";

export interface KeptPhotograph {
  readonly hash: string;
  readonly shows: string;
  readonly step: string | undefined;
  readonly at: string;
}

/** More than any camera's picture; a larger file is no picture to be decoded here. */
const MOST_FILE_BYTES = 60_000_000;
/** Enough to read a rule in the picture, and a fifth of what a camera makes of it. */
const LONGER_SIDE = 2000;
const QUALITY = 0.85;

/** Those of one step, or all; as taken. */
export function photographsOf(desk: Pick<Desk, "job">, step?: string): KeptPhotograph[] {
  const all = desk.job()?.parsed.file.record?.photographs ?? {};
  return Object.entries(all)
    .map(([hash, { shows = "", step: of, at = "" }]) => ({ hash, shows, step: of, at }))
    .filter((one) => step === undefined || one.step === step)
    .sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : a.hash < b.hash ? -1 : 1));
}

/**
 * Keeps the picture and writes it into the record.
 *
 * @throws InputError for a file that is no picture, or that cannot be kept
 */
export async function takePhotograph(desk: Desk, file: Blob, step: string | undefined): Promise<void> {
  const photograph = photographOf(await smallEnough(file));
  await desk.keeping.keeper.keepPhotograph(photograph);
  const value: Json = { at: new Date().toISOString(), ...(step === undefined ? {} : { step }) };
  const refused = await desk.writeIfRead("took a photograph", ...versionOf(desk.data(), "record"), {
    path: pathTo(photograph.hash),
    value,
  });
  if (refused) throw new InputError(refused.where, refused.problem, refused.remedy);
}

export function saysWhat(hash: string, shows: string): Change {
  const path = pathOf(["record", "photographs", mapKey(hash), "shows"]);
  return shows.trim() === "" ? { path } : { path, value: shows.trim().slice(0, 500) };
}

export function offTheRecord(hash: string): Change {
  return { path: pathTo(hash) };
}

function pathTo(hash: string): string {
  return pathOf(["record", "photographs", mapKey(hash)]);
}

/** A JPEG of at most so many dots; a small picture of a kind that is kept stays as it is. */
async function smallEnough(file: Blob): Promise<Uint8Array> {
  if (file.size > MOST_FILE_BYTES)
    throw new InputError("the photograph", "is too large a file", "Take it anew with the camera's usual setting");
  const picture = await decoded(file);
  try {
    const scale = LONGER_SIDE / Math.max(picture.width, picture.height);
    if (scale >= 1 && /^image\/(jpeg|png|webp)$/.test(file.type)) return new Uint8Array(await file.arrayBuffer());
    const canvas = document.createElement("canvas");
    canvas.width = Math.max(1, Math.round(picture.width * Math.min(1, scale)));
    canvas.height = Math.max(1, Math.round(picture.height * Math.min(1, scale)));
    canvas.getContext("2d")?.drawImage(picture, 0, 0, canvas.width, canvas.height);
    const small = await new Promise<Blob | null>((settle) => canvas.toBlob(settle, "image/jpeg", QUALITY));
    if (!small) throw new InputError("the photograph", "could not be made smaller", "Take it with fewer dots");
    return new Uint8Array(await small.arrayBuffer());
  } finally {
    picture.close();
  }
}

async function decoded(file: Blob): Promise<ImageBitmap> {
  try {
    return await createImageBitmap(file);
  } catch {
    throw new InputError(
      "the photograph",
      "is no picture that this browser can read",
      "Take one with the camera, or give a JPEG, PNG or WebP file",
    );
  }
}
