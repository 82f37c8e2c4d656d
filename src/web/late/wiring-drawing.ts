/** The drawings of a wiring: laying its wires takes a second, so their script comes when somebody wants to see them. */
import type { WiringReport } from "../../core/index.ts";
import type { Wiring } from "../../core/job/index.ts";
import { signalPage, wiresOfSignal, wiringPage } from "../../core/wiring/index.ts";
import { writeSvg } from "../../papers/index.ts";

export const plateSvg = (wiring: Wiring, title: string) => writeSvg(wiringPage(wiring, title), { idPrefix: "plate-" });

/** @returns nothing where series and parallel do not make it */
export function signalSvg(wiring: Wiring, report: WiringReport, state: string): string | undefined {
  const page = signalPage(wiring, report, state);
  return page && writeSvg(page, { idPrefix: "signal-" });
}

export { wiresOfSignal };
