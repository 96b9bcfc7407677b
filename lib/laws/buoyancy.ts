import { inRange } from "../errors.ts";

export const BUOYANCY_LIMITS = {
  mass: { min: 0, max: 1e6, unit: "kg" },
  density: { min: 10, max: 25_000, unit: "kg/m³" },
} as const;

/** What weights and air are taken to be where a scale's reading is defined, kg/m³. OIML D 28, R 111. seen */
export const CONVENTIONAL_AIR = 1.2;
export const CONVENTIONAL_WEIGHT = 8000;

/**
 * What a scale shows for a mass in air: the air carries a little of it.
 *
 * R = m (1 − ρ_air/ρ) / (1 − ρ_air/ρ_weights)
 *
 * @param mass - kg, 0 to 1e6
 * @param density - of the thing weighed, kg/m³, 10 to 25 000
 * @returns kg as shown, in air of 1.2 kg/m³ against weights of 8000 kg/m³
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: OIML D 28, conventional value of the result of weighing in air. seen
 */
export function conventionalMass(mass: number, density: number): number {
  inRange("mass", mass, BUOYANCY_LIMITS.mass);
  inRange("density", density, BUOYANCY_LIMITS.density);
  return (mass * (1 - CONVENTIONAL_AIR / density)) / (1 - CONVENTIONAL_AIR / CONVENTIONAL_WEIGHT);
}

/** The mass behind a reading in air: the inverse of {@link conventionalMass}, with the same ranges. */
export function massFromReading(reading: number, density: number): number {
  inRange("mass", reading, BUOYANCY_LIMITS.mass);
  return reading / conventionalMass(1, density);
}

/**
 * Density as it comes out when the mass is read on a scale in air: about 1.1 kg/m³ less for liquids.
 *
 * @param density - kg/m³, 10 to 25 000
 * @throws OutOfRangeError outside that range, NaN included
 */
export function apparentDensity(density: number): number {
  return density * conventionalMass(1, density);
}
