/**
 * How the resistance of a pot's track grows with its shaft.
 *
 * Audio tapers are two straight slopes that meet at half turn: 10 % there in a forum's measurement of a 500 k pot (10 k a
 * tenth up to 50 k, 90 k a tenth above; read), 15 % named by engineers, 30 % sold as "vintage" (read on dealers' pages).
 * Reverse audio is the same from the other end. A no-load pot leaves its track at the clockwise end.
 */
export interface Taper {
  readonly kind: "linear" | "audio" | "reverse audio";
  /** Share of the track below the wiper of an audio pot at half turn. */
  readonly mid: number;
  readonly noLoad: boolean;
}

/**
 * Share of the track between the anticlockwise lug and the wiper.
 *
 * @param turn of the shaft, clockwise, 0 to 1
 * @example shareBelow({ kind: "audio", mid: 0.1, noLoad: false }, 0.75); // 0.55
 */
export function shareBelow(taper: Taper, turn: number): number {
  switch (taper.kind) {
    case "linear":
      return turn;
    case "audio":
      return slopes(taper.mid, turn);
    case "reverse audio":
      return 1 - slopes(taper.mid, 1 - turn);
    default:
      return taper.kind satisfies never;
  }
}

function slopes(mid: number, turn: number): number {
  return turn <= 0.5 ? 2 * mid * turn : mid + (2 * turn - 1) * (1 - mid);
}

/** Whether the wiper has left the track. */
export function offTrack(taper: Taper, turn: number): boolean {
  return taper.noLoad && turn >= 1;
}
