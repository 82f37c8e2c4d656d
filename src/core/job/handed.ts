/**
 * The same layout for the other hand. Parts are rigid and are never mirrored: the instrument's own places change side,
 * the strings change order, and each string lands on the saddle that already stands at its new place.
 */
import type { Quantity } from "../quantity/index.ts";
import type { Instrument } from "./instrument.ts";
import type { Bridge } from "./instrument-parts.ts";
import type { BodyPoint, Hole } from "./instrument-wood.ts";

/** Applied twice it gives the instrument back. */
export function otherHand(instrument: Instrument): Instrument {
  const { body, neck } = instrument;
  return {
    ...instrument,
    bassSide: instrument.bassSide === 1 ? -1 : 1,
    neck: { ...neck, nutY: neck.nutY.map(negated) },
    body: {
      ...body,
      holes: body.holes.map(holeAcross),
      neckScrews: body.neckScrews.map(holeAcross),
      channels: body.channels.map((channel) => ({ ...channel, from: across(channel.from), to: across(channel.to) })),
      cavities: body.cavities.map((cavity) => ({
        ...cavity,
        centre: across(cavity.centre),
        angle: negated(cavity.angle),
      })),
      ...(body.groundWire === undefined ? {} : { groundWire: across(body.groundWire) }),
    },
    ...(instrument.bridge === undefined ? {} : { bridge: restrung(instrument.bridge) }),
    pickups: instrument.pickups.map((pickup) => ({
      ...pickup,
      centre: across(pickup.centre),
      slant: negated(pickup.slant),
    })),
    controls: instrument.controls.map((control) =>
      control.at === undefined ? control : { ...control, at: across(control.at) },
    ),
    strapButtons: instrument.strapButtons.map((button) => ({ ...button, at: across(button.at) })),
  };
}

function negated(quantity: Quantity): Quantity {
  if (!quantity.known || quantity.value === 0) return quantity;
  return { ...quantity, value: -quantity.value, doubt: quantity.doubt.map((term) => ({ ...term, u: -term.u })) };
}

function across(point: BodyPoint): BodyPoint {
  return { u: point.u, y: negated(point.y) };
}

function holeAcross(hole: Hole): Hole {
  return { ...hole, at: across(hole.at) };
}

/** Saddle places stay on the part; the strings take them in the opposite order. Single units change sides whole. */
function restrung(bridge: Bridge): Bridge {
  if (bridge.kind === "single units")
    return { ...bridge, pieces: bridge.pieces.map((piece) => ({ ...piece, side: negated(piece.side) })) };
  return {
    ...bridge,
    pieces: bridge.pieces.map((piece) => {
      const count = piece.saddles.length;
      return {
        ...piece,
        saddles: piece.saddles.map((_, index) => ({
          ...(piece.saddles[count - 1 - index] as (typeof piece.saddles)[number]),
          string: index + 1,
        })),
      };
    }),
  };
}
