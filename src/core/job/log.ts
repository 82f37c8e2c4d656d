/** The operations of a job file as the fold takes them: what was left out of a short entry is filled in. */
import type { PlugPlace, Work } from "../verdict/index.ts";
import type { LogEntry } from "./operation.ts";
import { partNames } from "./part-names.ts";
import type { FileOperation, JobFile } from "./schema.ts";

type FileWork = Extract<FileOperation, { work: unknown }>["work"];

/** @throws InputError for a part that there is not */
export function logOf(file: JobFile): LogEntry[] {
  const partOf = partNames(file);
  return (file.operations ?? []).map((entry, index): LogEntry => {
    if ("undoes" in entry)
      return { id: entry.id, undoes: entry.undoes, ...(entry.at === undefined ? {} : { at: entry.at }) };
    return {
      id: entry.id,
      work: workOf(entry.work, (part) => partOf(part, `operations[${index}].work.part`)),
      ...(entry.doneAt === undefined ? {} : { doneAt: entry.doneAt }),
      ...(entry.note === undefined ? {} : { note: entry.note }),
    };
  });
}

function workOf(work: FileWork, partOf: (part: string) => string): Work {
  switch (work.act) {
    case "plug":
      // A hole may be named by its id alone: the fold looks its place up.
      return {
        act: "plug",
        holes: work.holes.map(
          (hole): PlugPlace =>
            typeof hole === "string"
              ? { id: hole, u: Number.NaN, y: Number.NaN, diameter: Number.NaN, depth: Number.NaN }
              : hole,
        ),
        diameter: work.diameter,
        cause: work.cause ?? "",
      };
    case "drill":
      return {
        act: "drill",
        group: work.group,
        holes: work.holes.map((hole) => ({ ...hole, thread: hole.thread ?? hole.diameter })),
        intoPlugs: work.intoPlugs ?? false,
      };
    case "rout":
      return {
        act: "rout",
        cavity: work.cavity,
        what: work.what ?? "",
        lengthBy: work.lengthBy ?? 0,
        widthBy: work.widthBy ?? 0,
        depthBy: work.depthBy ?? 0,
      };
    case "ream":
      return { act: "ream", where: work.where, count: work.count ?? 1, from: work.from ?? Number.NaN, to: work.to };
    case "spot-face":
      return { act: "spot-face", where: work.where, depth: work.depth, leaves: work.leaves ?? Number.NaN };
    case "slot":
      return {
        act: "slot",
        where: work.where,
        from: work.from ?? Number.NaN,
        to: work.to,
        screwOffset: work.screwOffset ?? Number.NaN,
        cover: work.cover ?? "",
      };
    case "shim":
      return {
        act: "shim",
        thickness: work.thickness,
        length: work.length ?? Number.NaN,
        angleDegrees: work.angleDegrees ?? Number.NaN,
      };
    case "nut slots":
      return {
        act: "nut slots",
        widths: work.widths.map((width) => ({ string: width.string, from: width.from ?? Number.NaN, to: width.to })),
      };
    case "take off":
    case "fit":
      return { act: work.act, part: partOf(work.part) };
    case "restring":
      return work;
    default:
      return work satisfies never;
  }
}
