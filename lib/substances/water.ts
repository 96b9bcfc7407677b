import { inRange } from "../errors.ts";

export const WATER_LIMITS = { temperature: { min: 0, max: 40, unit: "°C" } } as const;

const [A1, A2, A3, A4, A5] = [-3.983035, 301.797, 522528.9, 69.34881, 999.97495] as const;

/**
 * Density of pure, air-free water at 101 325 Pa.
 *
 * ρ = a₅ [1 − (t + a₁)² (t + a₂) / (a₃ (t + a₄))]
 *
 * @param temperature - °C, 0 to 40
 * @returns kg/m³, good to 0.001; tap water differs by a few 0.001 to 0.1 for what is dissolved in it
 * @throws OutOfRangeError outside that range, NaN included
 * Source: Tanaka, Girard, Davis, Peuto, Bignell, Metrologia 38 (2001) 301–309. seen
 *
 * @example
 * density(20); // 998.2067 kg/m³
 */
export function density(temperature: number): number {
  inRange("temperature", temperature, WATER_LIMITS.temperature);
  return A5 * (1 - ((temperature + A1) ** 2 * (temperature + A2)) / (A3 * (temperature + A4)));
}
