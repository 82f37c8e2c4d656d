/**
 * Closed forms of a passive guitar circuit: resonance, corners, coils together, readings at the jack.
 *
 * Model: emf, inductance and resistance in series to the hot lead; winding and cable capacitance as one part, and the
 * load as one part, from hot to ground: H(s) = 1 / (1 + R/RL + s (L/RL + R C) + s^2 L C).
 * Left out: eddy losses (put their resistance into the load), the tone capacitor, wipers off their ends.
 * Source: textbook circuit theory, from memory; checked against solved circuits in test/reference/circuit.
 */
import { requireFinite, requirePositive } from "../checks.ts";
import { InputError } from "../errors.ts";

/** Per kelvin at 20 degrees Celsius, for annealed copper of 100 % IACS. Source: handbook tables of copper. */
const COPPER_PER_KELVIN = 0.00393;
const REFERENCE_CELSIUS = 20;
/** A second-order low-pass rises above its direct-current gain when Q is above this. */
const Q_WITHOUT_PEAK = Math.SQRT1_2;

const INDUCTANCE = "Give the inductance of the coil, e.g. 2.4 H";
const RESISTANCE = "Read it with a meter";
const CAPACITANCE = "Give winding and cable together, e.g. 410e-12 F";

export interface LoadedPickup {
  readonly inductanceHenries: number;
  readonly resistanceOhms: number;
  /** Winding and cable together. */
  readonly capacitanceFarads: number;
  /** Everything from hot to ground in parallel; Infinity for none. */
  readonly loadOhms: number;
}

export interface LoadedResponse {
  /** Where the phase has turned by a quarter: w0 / 2 pi, with the load counted. */
  readonly undampedHz: number;
  readonly qualityFactor: number;
  /** Ratio of the output to the emf at zero frequency. */
  readonly dcGain: number;
  readonly dcGainDb: number;
  /** Missing when the response only falls. */
  readonly peak?: { readonly frequencyHz: number; readonly gainDb: number };
}

/**
 * Response of a pickup with its cable and load as a second-order low-pass.
 *
 * @throws InputError if a part is not above zero
 * @example
 * loadedResponse({ inductanceHenries: 2.4, resistanceOhms: 6200, capacitanceFarads: 410e-12, loadOhms: 1e6 });
 * // Q 6.37, peak 16.05 dB at 5058 Hz
 */
export function loadedResponse(pickup: LoadedPickup): LoadedResponse {
  const { inductanceHenries: l, resistanceOhms: r, capacitanceFarads: c, loadOhms: rl } = pickup;
  requirePositive(l, "inductanceHenries", "H", INDUCTANCE);
  requirePositive(r, "resistanceOhms", "ohm", RESISTANCE);
  requirePositive(c, "capacitanceFarads", "F", CAPACITANCE);
  if (rl !== Infinity) requirePositive(rl, "loadOhms", "ohm", "Give all loads in parallel, or Infinity for none");

  const k = 1 + r / rl;
  const w0 = Math.sqrt(k / (l * c));
  const qualityFactor = Math.sqrt(k * l * c) / (l / rl + r * c);
  const flat = { undampedHz: w0 / (2 * Math.PI), qualityFactor, dcGain: 1 / k, dcGainDb: decibels(1 / k) };
  if (qualityFactor <= Q_WITHOUT_PEAK) return flat;

  const frequencyHz = flat.undampedHz * Math.sqrt(1 - 1 / (2 * qualityFactor ** 2));
  const gainDb = decibels(qualityFactor / Math.sqrt(1 - 1 / (4 * qualityFactor ** 2)) / k);
  return { ...flat, peak: { frequencyHz, gainDb } };
}

/**
 * Frequency at which a coil and a capacitance resonate when nothing loads them: 1 / (2 pi sqrt(L C)).
 *
 * @throws InputError if a part is not above zero
 * @example
 * resonanceHz({ inductanceHenries: 2.4, capacitanceFarads: 300e-12 }); // 5931.4
 */
export function resonanceHz(tank: { readonly inductanceHenries: number; readonly capacitanceFarads: number }): number {
  requirePositive(tank.inductanceHenries, "inductanceHenries", "H", INDUCTANCE);
  requirePositive(tank.capacitanceFarads, "capacitanceFarads", "F", CAPACITANCE);
  return 1 / (2 * Math.PI * Math.sqrt(tank.inductanceHenries * tank.capacitanceFarads));
}

/**
 * Capacitance of a winding by the frequency at which the bare coil resonates.
 *
 * @returns farads, with the capacitance of the probe in it
 * @throws InputError if a value is not above zero
 * @example
 * selfCapacitanceFarads({ inductanceHenries: 4.4, resonanceHz: 7715 }); // 96.7e-12
 */
export function selfCapacitanceFarads(coil: {
  readonly inductanceHenries: number;
  readonly resonanceHz: number;
}): number {
  requirePositive(coil.inductanceHenries, "inductanceHenries", "H", INDUCTANCE);
  requirePositive(coil.resonanceHz, "resonanceHz", "Hz", "Give the frequency of the bare coil's peak");
  return 1 / ((2 * Math.PI * coil.resonanceHz) ** 2 * coil.inductanceHenries);
}

/** Frequency at which reactance of a coil equals a resistance: R / (2 pi L). @throws InputError if not above zero */
export function lrCornerHz(parts: { readonly resistanceOhms: number; readonly inductanceHenries: number }): number {
  requirePositive(parts.resistanceOhms, "resistanceOhms", "ohm", RESISTANCE);
  requirePositive(parts.inductanceHenries, "inductanceHenries", "H", INDUCTANCE);
  return parts.resistanceOhms / (2 * Math.PI * parts.inductanceHenries);
}

/** Inductance by the frequency at which the voltage over a series resistor is 3 dB down. @throws InputError */
export function inductanceFromCornerHenries(reading: {
  readonly resistanceOhms: number;
  readonly cornerHz: number;
}): number {
  requirePositive(reading.resistanceOhms, "resistanceOhms", "ohm", RESISTANCE);
  requirePositive(reading.cornerHz, "cornerHz", "Hz", "Give the frequency at which the voltage is 3 dB down");
  return reading.resistanceOhms / (2 * Math.PI * reading.cornerHz);
}

/** Frequency at which reactance of a capacitor equals a resistance: 1 / (2 pi R C). @throws InputError */
export function rcCornerHz(parts: { readonly resistanceOhms: number; readonly capacitanceFarads: number }): number {
  requirePositive(parts.resistanceOhms, "resistanceOhms", "ohm", RESISTANCE);
  requirePositive(parts.capacitanceFarads, "capacitanceFarads", "F", "Read the code on the capacitor");
  return 1 / (2 * Math.PI * parts.resistanceOhms * parts.capacitanceFarads);
}

export interface CoilPair {
  readonly firstHenries: number;
  readonly secondHenries: number;
  /** Coupling factor k, 0 to 1; M = k sqrt(L1 L2). */
  readonly coupling: number;
  /** Whether the fields of the two help each other or not, as they are wired. */
  readonly sense: "aiding" | "opposing";
}

/** Inductance of two coils in series: L1 + L2 + 2 M aiding, - 2 M opposing. @throws InputError */
export function seriesHenries(pair: CoilPair): number {
  return pair.firstHenries + pair.secondHenries + 2 * signedMutualHenries(pair);
}

/**
 * Inductance of two coils in parallel: (L1 L2 - M^2) / (L1 + L2 - 2 M) aiding, + 2 M opposing.
 *
 * @throws InputError if an inductance is not above zero, or the coupling not between 0 and below 1
 */
export function parallelHenries(pair: CoilPair): number {
  const mutual = signedMutualHenries(pair);
  const { firstHenries, secondHenries } = pair;
  return (firstHenries * secondHenries - mutual ** 2) / (firstHenries + secondHenries - 2 * mutual);
}

function signedMutualHenries({ firstHenries, secondHenries, coupling, sense }: CoilPair): number {
  requirePositive(firstHenries, "firstHenries", "H", INDUCTANCE);
  requirePositive(secondHenries, "secondHenries", "H", INDUCTANCE);
  if (!(coupling >= 0 && coupling < 1)) {
    throw new InputError("coupling", `must lie from 0 to below 1, got ${coupling}`, "Give 0 for coils far apart");
  }
  return (sense === "aiding" ? 1 : -1) * coupling * Math.sqrt(firstHenries * secondHenries);
}

/**
 * Several equal coils without coupling as one: exact also for their capacitances.
 *
 * @throws InputError if a part is not above zero, or the count no whole number above zero
 */
export function equalCoils(coils: {
  readonly inductanceHenries: number;
  readonly resistanceOhms: number;
  readonly capacitanceFarads: number;
  readonly count: number;
  readonly wiring: "series" | "parallel";
}): { readonly inductanceHenries: number; readonly resistanceOhms: number; readonly capacitanceFarads: number } {
  const { inductanceHenries, resistanceOhms, capacitanceFarads, count, wiring } = coils;
  requirePositive(inductanceHenries, "inductanceHenries", "H", INDUCTANCE);
  requirePositive(resistanceOhms, "resistanceOhms", "ohm", RESISTANCE);
  requirePositive(capacitanceFarads, "capacitanceFarads", "F", "Give the capacitance of one winding");
  if (!(Number.isInteger(count) && count > 0)) {
    throw new InputError("count", `must be a whole number above 0, got ${count}`, "Count the coils");
  }
  const times = wiring === "series" ? count : 1 / count;
  return {
    inductanceHenries: inductanceHenries * times,
    resistanceOhms: resistanceOhms * times,
    capacitanceFarads: capacitanceFarads / times,
  };
}

/**
 * How far two coils share their fields, by the inductance of the two in series; below 0 when they oppose each other.
 *
 * @throws InputError if an inductance is not above zero, or the readings cannot belong together
 * @example
 * couplingOf({ firstHenries: 1.7, secondHenries: 1.7, seriesHenries: 3.9 }); // mutual 0.25 H, coupling 0.147
 */
export function couplingOf(readings: {
  readonly firstHenries: number;
  readonly secondHenries: number;
  readonly seriesHenries: number;
}): { readonly mutualHenries: number; readonly coupling: number } {
  const { firstHenries, secondHenries, seriesHenries: together } = readings;
  requirePositive(firstHenries, "firstHenries", "H", INDUCTANCE);
  requirePositive(secondHenries, "secondHenries", "H", INDUCTANCE);
  requirePositive(together, "seriesHenries", "H", "Read the two coils in series");
  const mutualHenries = (together - firstHenries - secondHenries) / 2;
  const coupling = mutualHenries / Math.sqrt(firstHenries * secondHenries);
  if (Math.abs(coupling) >= 1) {
    const seen = `${together} H cannot come of ${firstHenries} H and ${secondHenries} H in series`;
    throw new InputError("seriesHenries", seen, "Read all three again at the same test frequency");
  }
  return { mutualHenries, coupling };
}

/**
 * Resistance of a copper coil at another temperature: R (1 + 0.00393 (T - 20)).
 *
 * @returns ohms
 * @throws InputError if the resistance is not above zero or a temperature is not a number
 * @example
 * copperOhms({ ohms: 6300, readAtCelsius: 35, wantedAtCelsius: 20 }); // 5949
 */
export function copperOhms(coil: {
  readonly ohms: number;
  readonly readAtCelsius: number;
  readonly wantedAtCelsius: number;
}): number {
  requirePositive(coil.ohms, "ohms", "ohm", RESISTANCE);
  const factor = (celsius: number) => 1 + COPPER_PER_KELVIN * (celsius - REFERENCE_CELSIUS);
  for (const where of ["readAtCelsius", "wantedAtCelsius"] as const) {
    requireFinite(coil[where], where, "degrees Celsius", "Give the temperature of the room");
    if (factor(coil[where]) <= 0) {
      throw new InputError(where, `is too cold for the straight line, got ${coil[where]}`, "Give it in Celsius");
    }
  }
  return (coil.ohms * factor(coil.wantedAtCelsius)) / factor(coil.readAtCelsius);
}

/**
 * Resistance of the pickup behind a reading at the jack with the volume fully up: 1 / (1/Rread - 1/Rpot).
 *
 * @param reading.potTolerance fraction by which the pot may be off, 0 unless given; 0.2 is common practice
 * @throws InputError if the reading is not below the least that the pot may have: the coil is open, or not alone
 * @example
 * pickupOhmsAtJack({ readOhms: 6050, potOhms: 250e3, potTolerance: 0.2 }); // 6200, from 6174.5 to 6238.7
 */
export function pickupOhmsAtJack(reading: {
  readonly readOhms: number;
  readonly potOhms: number;
  readonly potTolerance?: number;
}): { readonly ohms: number; readonly leastOhms: number; readonly mostOhms: number } {
  const { readOhms, potOhms, potTolerance = 0 } = reading;
  requirePositive(readOhms, "readOhms", "ohm", RESISTANCE);
  requirePositive(potOhms, "potOhms", "ohm", "Give the value of the volume pot");
  if (!(potTolerance >= 0 && potTolerance < 1)) {
    throw new InputError("potTolerance", `must lie from 0 to below 1, got ${potTolerance}`, "0.2 is 20 %");
  }
  if (readOhms >= potOhms * (1 - potTolerance)) {
    const problem = `${readOhms} ohm is not below the pot's ${potOhms * (1 - potTolerance)} ohm`;
    throw new InputError("readOhms", problem, "Turn the volume fully up; if it is, the coil is open");
  }
  const behind = (pot: number) => 1 / (1 / readOhms - 1 / pot);
  return {
    ohms: behind(potOhms),
    leastOhms: behind(potOhms * (1 + potTolerance)),
    mostOhms: behind(potOhms * (1 - potTolerance)),
  };
}

/**
 * Value of the volume pot by the largest reading at the jack while it is turned: 4 Rmax - Rpickup.
 *
 * Holds where the pickup sits over the whole track and the jack on the wiper; the largest of two arms in parallel is a
 * quarter of the loop.
 *
 * @throws InputError if a reading is not above zero, or the pot would come out below the pickup
 */
export function potOhmsFromLargest(reading: { readonly largestOhms: number; readonly pickupOhms: number }): number {
  requirePositive(reading.largestOhms, "largestOhms", "ohm", "Turn the volume slowly and note the largest reading");
  requirePositive(reading.pickupOhms, "pickupOhms", "ohm", RESISTANCE);
  const potOhms = 4 * reading.largestOhms - reading.pickupOhms;
  if (potOhms < reading.pickupOhms) {
    const problem = `${reading.largestOhms} ohm is too little for a pickup of ${reading.pickupOhms} ohm`;
    throw new InputError("largestOhms", problem, "Turn the volume through its whole travel and read again");
  }
  return potOhms;
}

/** Capacitance of a cable by its length. @throws InputError if a value is not above zero */
export function cableFarads(cable: { readonly faradsPerMetre: number; readonly lengthMetres: number }): number {
  requirePositive(cable.faradsPerMetre, "faradsPerMetre", "F/m", "About 100e-12 F/m is usual");
  requirePositive(cable.lengthMetres, "lengthMetres", "m", "Measure the cable");
  return cable.faradsPerMetre * cable.lengthMetres;
}

function decibels(ratio: number): number {
  return 20 * Math.log10(ratio);
}
