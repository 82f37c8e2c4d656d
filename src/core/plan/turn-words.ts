/** How a turned bridge stands, for those who have only a rule: two places along the strings, not an angle alone. */
import { figure, mm, type Phrase, say } from "../quantity/index.ts";
import type { Turn } from "./types.ts";

/** "the bass post 4.3 mm further back than the treble one" */
export function turnWords({ bassBackMm, posts }: Turn): Phrase {
  const [back, front] = bassBackMm >= 0 ? ["bass", "treble"] : ["treble", "bass"];
  return say`the ${back} ${posts ? "post" : "screw"} ${mm(Math.abs(bassBackMm), 1)} further back than the ${front} one`;
}

export function turnAngle({ degrees }: Turn): Phrase {
  return say`${figure(Math.abs(degrees), "°", 1)}`;
}
