import { inRange } from "../errors.ts";
import {
  excessEnthalpy,
  heatCapacity,
  massFraction as massFractionOf,
  density,
  moleFraction,
  MOLAR_MASS,
} from "../substances/ethanol-water.ts";

export const PART_LIMITS = {
  volume: { min: 0, max: 1, unit: "m³" },
  mass: { min: 0, max: 1000, unit: "kg" },
  massFraction: { min: 0, max: 1, unit: "1" },
} as const;

/** A liquid of ethanol and water. */
export interface Part {
  /** kg */
  readonly mass: number;
  /** kg of ethanol per kg of liquid, 0 to 1 */
  readonly massFraction: number;
}

/** Calorimetric sources differ by 10 to 15 % from the correlation used here. */
const EXCESS_ENTHALPY_SPREAD = 0.15;
/** The coldest temperature that the excess enthalpy was measured at, °C. */
const MEASURED_AT = 25;

/**
 * Two parts poured together: masses add, and so do the masses of ethanol. Exact.
 *
 * @param a - mass kg, 0 to 1000, and mass fraction of ethanol
 * @param b - the same
 * @returns the mixture
 * @throws OutOfRangeError outside those ranges, NaN included, and for two empty parts
 */
export function mix(a: Part, b: Part): Part {
  for (const part of [a, b]) {
    inRange("mass", part.mass, PART_LIMITS.mass);
    inRange("massFraction", part.massFraction, PART_LIMITS.massFraction);
  }
  const mass = a.mass + b.mass;
  inRange("mass", mass, { ...PART_LIMITS.mass, min: Number.MIN_VALUE });
  const ethanol = a.mass * a.massFraction + b.mass * b.massFraction;
  return { mass, massFraction: ethanol / mass };
}

/**
 * How much warmer a mixture gets by being mixed, with no heat lost.
 *
 * ΔT = −(nH^E(x) − n_A H^E(x_A) − n_B H^E(x_B)) / (m c_p), all at 25 °C, the coldest temperature at which
 * the excess enthalpy was measured. Parts at 20 °C warm a little more than this (about a tenth).
 *
 * @param a - mass kg and mass fraction
 * @param b - the same
 * @returns K, with a band of ±15 %: published calorimetry differs by that much
 * @throws OutOfRangeError as {@link mix}
 * Source: Larkin, J. Chem. Thermodyn. 7 (1975) 137–148. seen (coefficients, in a stored copy)
 */
export function mixingRise(a: Part, b: Part): { value: number; low: number; high: number } {
  const mixture = mix(a, b);
  const released = enthalpy(a) + enthalpy(b) - enthalpy(mixture);
  const value = released / (mixture.mass * heatCapacity(mixture.massFraction, MEASURED_AT));
  const half = Math.abs(value) * EXCESS_ENTHALPY_SPREAD;
  return { value, low: value - half, high: value + half };
}

/** Excess enthalpy of a part, J. */
function enthalpy({ mass, massFraction }: Part): number {
  const moles = mass * (massFraction / MOLAR_MASS.ethanol + (1 - massFraction) / MOLAR_MASS.water);
  return moles * excessEnthalpy(moleFraction(massFraction), MEASURED_AT);
}

/**
 * The part that a measured volume of spirit is.
 *
 * @param volume - m³ at the reference temperature, 0 to 1
 * @param strength - by volume at the reference temperature, 0 to 1
 * @param referenceTemperature - °C
 * @throws OutOfRangeError where the volume, strength or temperature is outside its range or the density formula's range
 */
export function partOfVolume(volume: number, strength: number, referenceTemperature: number): Part {
  inRange("volume", volume, PART_LIMITS.volume);
  const massFraction = massFractionOf(strength, referenceTemperature);
  return { mass: volume * density(massFraction, referenceTemperature), massFraction };
}
