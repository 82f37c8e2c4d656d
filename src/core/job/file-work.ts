/** Work as a job file writes it: what log.ts reads back. */
import type { Work } from "../verdict/index.ts";
import type { FileOperation } from "./schema.ts";

type FileWork = Extract<FileOperation, { work: unknown }>["work"];

/** @returns undefined for what leaves the instrument as it is (something bought, chosen, insulated) */
export function fileWorkOf(work: Work): FileWork | undefined {
  switch (work.act) {
    case "plug": {
      const { act, diameter, cause } = work;
      const holes = work.holes.map((hole) => (Number.isFinite(hole.u) ? hole : hole.id));
      return { act, holes, diameter, ...(cause === "" ? {} : { cause }) };
    }
    case "drill":
      return { ...work, holes: work.holes.map((hole) => ({ ...hole })) };
    case "nut slots":
      return { act: work.act, widths: work.widths.map((width) => known(width)) };
    case "rout":
    case "ream":
    case "spot-face":
    case "slot":
    case "shim":
    case "take off":
    case "fit":
    case "restring":
      return known(work) as FileWork;
    case "insulate":
    case "bare contact":
    case "buy":
    case "choose":
      return undefined;
    default:
      return work satisfies never;
  }
}

/** Without what nobody has said: no figure, no words. */
function known<T extends object>(given: T): T {
  return Object.fromEntries(
    Object.entries(given).filter(([, value]) => value !== "" && !(typeof value === "number" && Number.isNaN(value))),
  ) as T;
}
