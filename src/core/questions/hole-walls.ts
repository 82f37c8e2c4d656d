/** The wood between new holes and what is nearest, and the plugs that are not ready for them. */
import type { Judgement } from "../bridge/index.ts";
import type { Instrument } from "../job/index.ts";

export interface PairWall {
  readonly newId: string;
  readonly otherId: string;
  readonly wallMm: number;
}

/** Each new hole with what is nearest to it (an old hole, or what cannot be plugged), thinnest first. */
export function pairWalls(judged: readonly { readonly judgement: Judgement }[]): PairWall[] {
  const nearest = new Map<string, PairWall>();
  for (const { judgement } of judged) {
    // A screw's own hole that is there already, and the plug it may stand in, are no wood to keep.
    const own = new Set([...judgement.reused, ...judgement.inOldPlugs].map((one) => `${one.newId} ${one.oldId}`));
    for (const wall of judgement.walls) {
      if (own.has(`${wall.newId} ${wall.otherId}`)) continue;
      const before = nearest.get(wall.newId);
      if (!before || wall.wallMm < before.wallMm) nearest.set(wall.newId, wall);
    }
  }
  return [...nearest.values()].sort((a, b) => a.wallMm - b.wallMm);
}

/** Ids of the plugs that new holes stand in and whose glue has not had its time. */
export function wetPlugs({ body }: Instrument, judgements: readonly Judgement[]): string[] {
  const wet = new Set(body.holes.flatMap(({ id, plug }) => (plug && !plug.cured ? [id] : [])));
  return [...new Set(judgements.flatMap(({ inOldPlugs }) => inOldPlugs.map(({ oldId }) => oldId)))].filter((id) =>
    wet.has(id),
  );
}
