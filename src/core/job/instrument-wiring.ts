/** The wiring of an instrument as the sums see it. Lugs are named "device.lug"; signs as in core/circuit. */
import type { ContactMap, Taper } from "../circuit/index.ts";
import type { Known, Quantity } from "../quantity/index.ts";

export interface WiredCoil {
  readonly id: string;
  readonly pickup: string;
  readonly name: string;
  /** Strings over it, 1 = thinnest. */
  readonly strings: readonly number[];
  readonly start: string;
  readonly finish: string;
  readonly ohms: Quantity;
  readonly henries: Quantity;
  readonly farads: Quantity;
  readonly eddyOhms: Quantity;
  readonly turnArea: Quantity;
  readonly loudness: Quantity;
  readonly winding?: 1 | -1;
  readonly kick?: 1 | -1 | 0;
}

export interface WiredPair {
  readonly coils: readonly [string, string];
  readonly pickup: string;
  /** Of both in series as made. */
  readonly henries: Quantity;
  readonly farads: Quantity;
  readonly arrangement: "side by side" | "stacked";
}

export interface WiredComponent {
  readonly id: string;
  readonly kind: "capacitor" | "resistor";
  readonly value: Quantity;
  readonly leads: readonly [string, string];
}

export interface WiredTrack {
  readonly id: string;
  readonly control: string;
  readonly low: string;
  readonly wiper: string;
  readonly high: string;
  readonly ohms: Quantity;
  readonly taper: Taper;
  readonly noLoad: boolean;
  readonly rises: "clockwise" | "anticlockwise";
}

export interface WiredState {
  readonly id: string;
  readonly title: string;
  readonly switches: Readonly<Record<string, string>>;
  readonly travel: Readonly<Record<string, number>>;
  /** In words, as the owner wants it. */
  readonly sound?: string;
  readonly hum?: "quiet" | "partly quiet" | "hums";
  /** What the owner hears and does not want. */
  readonly complaint?: "thin";
  /** Ohms at the jack as last read. */
  readonly read?: Known;
}

export interface WiredWire {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly colour: string;
  readonly length: Quantity;
}

export interface WiredDevice {
  readonly id: string;
  readonly kind: "pickup" | "pot" | "stacked pot" | "switch" | "jack" | "component" | "metal" | "battery";
  readonly name: string;
  /** In the order in which they stand on the device, without the device's id. */
  readonly lugs: readonly string[];
}

export interface Wiring {
  readonly devices: readonly WiredDevice[];
  readonly coils: readonly WiredCoil[];
  readonly pairs: readonly WiredPair[];
  readonly components: readonly WiredComponent[];
  readonly tracks: readonly WiredTrack[];
  readonly switches: readonly { readonly id: string; readonly map: ContactMap }[];
  readonly wires: readonly WiredWire[];
  /** Names of lugs, knobs and switches whose device there is not (any more), and where they stand. */
  readonly strays: readonly { readonly where: string; readonly lug: string }[];
  readonly inside: readonly (readonly [string, string])[];
  readonly metal: readonly {
    readonly lug: string;
    readonly what: "string ground" | "shield" | "cover" | "base plate" | "case" | "bare lead";
    readonly name: string;
  }[];
  readonly jack: "mono" | "stereo" | "switched";
  readonly cable: Quantity;
  readonly input: Quantity;
  readonly temperature: Quantity;
  /** The coil against which hum is told; empty: the one whose turns times area are nearest 1. */
  readonly humAgainst: string;
  readonly states: readonly WiredState[];
  /** Width of a device's frame, by its id, where its part says it. */
  readonly widths: Readonly<Record<string, Quantity>>;
  readonly places: Readonly<
    Record<string, { readonly right: Quantity; readonly up: Quantity; readonly turn: Quantity }>
  >;
}
