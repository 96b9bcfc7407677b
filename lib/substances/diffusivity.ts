import { inRange } from "../errors.ts";
import { MOLAR_MASS } from "./ethanol-water.ts";

/** Where the rule is used. The form reads the same object, so page and function cannot disagree. */
export const DIFFUSIVITY_LIMITS = {
  temperature: { min: 0, max: 100, unit: "°C" },
  pressure: { min: 50e3, max: 104e3, unit: "Pa" },
} as const;

/**
 * Relative half-width against the measurements: ethanol in air is printed from 0.102 (0 °C) to 0.132 cm²/s
 * (25 °C).
 */
export const DIFFUSIVITY_SPREAD = 0.08;

/**
 * Of dry air, kg/mol. Source: as used with the rule; the standard atmosphere of 1976 has 0.028964. memory
 */
export const AIR_MOLAR_MASS = 0.02896;

/** Sums of the rule's atomic increments: C 15.9, H 2.31, O 6.11; water and air have their own. */
const VOLUME = { ethanol: 51.77, water: 13.1, air: 19.7 } as const;

/**
 * Diffusion coefficient of a vapour in air by the rule of Fuller, Schettler and Giddings.
 *
 * D = 0.00143 T^1.75 / (p √M (Σ₁^⅓ + Σ₂^⅓)²), M = 2/(1/M₁ + 1/M₂); cm²/s with T in K, p in bar, M in g/mol
 *
 * @param vapour - which of the two
 * @param temperature - °C; 0 to 100
 * @param pressure - Pa; 50 000 to 104 000
 * @returns m²/s, ±8 % ({@link DIFFUSIVITY_SPREAD})
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks An older set of increments goes with an older form of the rule; the two must not be mixed.
 * Source: Fuller, Schettler & Giddings, Ind. Eng. Chem. 58 (1966) 18–27, as in Poling, Prausnitz &
 * O'Connell, 5th ed. (2001), eq. 11-4.4. seen (form and increments, in public sources)
 *
 * @example
 * diffusivity("ethanol", 25, 101325); // 1.225e-5 m²/s
 */
export function diffusivity(
  vapour: "ethanol" | "water",
  temperature: number,
  pressure: number,
): number {
  inRange("temperature", temperature, DIFFUSIVITY_LIMITS.temperature);
  inRange("pressure", pressure, DIFFUSIVITY_LIMITS.pressure);
  const kelvin = temperature + 273.15;
  const molarMass = 2000 / (1 / MOLAR_MASS[vapour] + 1 / AIR_MOLAR_MASS);
  const size = Math.cbrt(VOLUME[vapour]) + Math.cbrt(VOLUME.air);
  return (1e-4 * 0.00143 * kelvin ** 1.75) / ((pressure / 1e5) * Math.sqrt(molarMass) * size ** 2);
}
