import { inRange } from "../errors.ts";
import {
  density,
  ETHANOL_WATER_LIMITS,
  massFraction,
  massFractionFromDensity,
  strength,
} from "../substances/ethanol-water.ts";

export const HYDROMETER_LIMITS = {
  reading: { min: 0, max: 1, unit: "1" },
  temperature: { min: -20, max: 40, unit: "°C" },
  referenceTemperature: ETHANOL_WATER_LIMITS.referenceTemperature,
} as const;

/** Cubic expansion of soda-lime glass, 1/K: the usual figure for hydrometers (OIML R 44; memory). */
const GLASS_EXPANSION = 25e-6;

function swelling(temperature: number, referenceTemperature: number): number {
  return 1 + GLASS_EXPANSION * (temperature - referenceTemperature);
}

/**
 * The true strength from a glass hydrometer read in liquid at another temperature.
 *
 * The stem is marked so that at t₀ the reading r stands at the density ρ(r, t₀). At t the glass is larger
 * by 1 + γ(t − t₀), so the liquid's density is ρ = ρ(r, t₀) / (1 + γ(t − t₀)); its strength follows.
 *
 * @param reading - 0 to 1 by volume
 * @param temperature - of the liquid, °C, −20 to 40
 * @param referenceTemperature - that the stem is marked for, °C, 0 to 40
 * @returns strength by volume at the reference temperature, 0 to 1
 * @throws OutOfRangeError outside those ranges, NaN included, and (quantity "density") where no mixture of
 * ethanol and water has that density at that temperature
 * @remarks Spirit and water only: dissolved acid or lecithin holds the hydrometer up.
 */
export function trueStrength(
  reading: number,
  temperature: number,
  referenceTemperature: number,
): number {
  inRange("reading", reading, HYDROMETER_LIMITS.reading);
  inRange("temperature", temperature, HYDROMETER_LIMITS.temperature);
  const marked = density(massFraction(reading, referenceTemperature), referenceTemperature);
  const liquid = marked / swelling(temperature, referenceTemperature);
  return strength(massFractionFromDensity(liquid, temperature), referenceTemperature);
}

/**
 * What a glass hydrometer shows in a spirit of known strength: the inverse of {@link trueStrength}.
 *
 * @param strengthThere - true, by volume at the reference temperature, 0 to 1
 * @param temperature - of the liquid, °C, −20 to 40 and not frozen
 * @param referenceTemperature - °C, 0 to 40
 * @returns reading by volume, 0 to 1
 * @throws OutOfRangeError as {@link trueStrength}
 */
export function hydrometerReading(
  strengthThere: number,
  temperature: number,
  referenceTemperature: number,
): number {
  const liquid = density(massFraction(strengthThere, referenceTemperature), temperature);
  const marked = liquid * swelling(temperature, referenceTemperature);
  return strength(massFractionFromDensity(marked, referenceTemperature), referenceTemperature);
}
