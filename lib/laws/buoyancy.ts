import { inRange } from "../errors.ts";
import { AIR_DENSITY } from "../substances/air.ts";

/** Where the formula holds. Lighter than 10 kg/m³ the real air's density would matter more than 1 %. */
export const BUOYANCY_LIMITS = {
  mass: { min: 0, max: 1000, unit: "kg" },
  reading: { min: 0, max: 1000, unit: "kg" },
  density: { min: 10, max: 25_000, unit: "kg/m³" },
} as const;

/**
 * Conventional density of the weights that a scale is adjusted with, kg/m³.
 * Source: OIML D 28 and R 111. seen
 */
export const WEIGHT_DENSITY = 8000;

/**
 * What a scale shows for a body: its conventional mass.
 *
 * m_c = m (1 − 1.2/ρ) / (1 − 1.2/8000): air carries part of the body, and part of the weights that the
 * scale was adjusted with.
 *
 * @param mass - true mass, kg; 0 to 1000
 * @param density - of the body, kg/m³; 10 to 25 000
 * @returns reading, kg: about 0.1 % below the mass for a liquid
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks Takes conventional air. Real air, 5 % thinner or denser, moves a liquid's reading by 0.005 %.
 * Source: OIML D 28, conventional value of the result of weighing in air. seen (densities), memory (formula)
 */
export function conventionalMass(mass: number, density: number): number {
  inRange("mass", mass, BUOYANCY_LIMITS.mass);
  return mass * shareShown(density);
}

/**
 * True mass of a body from what a scale shows, the inverse of {@link conventionalMass}.
 *
 * m = reading × (1 − 1.2/8000) / (1 − 1.2/ρ)
 *
 * @param reading - kg; 0 to 1000
 * @param density - of the body, kg/m³; 10 to 25 000
 * @returns kg
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: as {@link conventionalMass}
 *
 * @example
 * massFromReading(1, 998.2); // 1.00105 kg of water
 */
export function massFromReading(reading: number, density: number): number {
  inRange("reading", reading, BUOYANCY_LIMITS.reading);
  return reading / shareShown(density);
}

/**
 * Density as weighed in air: what the scale shows over the volume, buoyancy left uncorrected. Pharmacy
 * tables call it apparent density; it is 1.0 to 1.1 kg/m³ below the true one for any mixture of ethanol
 * and water.
 *
 * @param density - true, kg/m³; 10 to 25 000
 * @returns kg/m³
 * @throws OutOfRangeError outside that range, NaN included
 * Source: as {@link conventionalMass}
 */
export function apparentDensity(density: number): number {
  return density * shareShown(density);
}

/** Reading over mass. */
function shareShown(density: number): number {
  inRange("density", density, BUOYANCY_LIMITS.density);
  return (1 - AIR_DENSITY / density) / (1 - AIR_DENSITY / WEIGHT_DENSITY);
}
