/**
 * Plain chance for checks: a 32-bit counter generator (Mulberry32) and normal numbers by Box and Muller. Shares nothing
 * with the code under test.
 */
export interface PlainDraws {
  area(): number;
  normal(): number;
}

export function plainDraws(start: number): PlainDraws {
  let state = start >>> 0;
  let spare: number | undefined;
  function area(): number {
    state = (state + 0x6d2b79f5) >>> 0;
    let bits = Math.imul(state ^ (state >>> 15), state | 1);
    bits ^= bits + Math.imul(bits ^ (bits >>> 7), bits | 61);
    return ((bits ^ (bits >>> 14)) >>> 0) / 4294967296;
  }
  function normal(): number {
    if (spare !== undefined) {
      const kept = spare;
      spare = undefined;
      return kept;
    }
    const radius = Math.sqrt(-2 * Math.log(1 - area()));
    const angle = 2 * Math.PI * area();
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  }
  return { area, normal };
}

/** Share of `count` draws for which `goes` says yes. */
export function shareOf(count: number, goes: () => boolean): number {
  let yes = 0;
  for (let draw = 0; draw < count; draw += 1) if (goes()) yes += 1;
  return yes / count;
}
