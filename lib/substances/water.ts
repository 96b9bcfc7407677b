import { inRange } from "../errors.ts";

/** Where the formula holds. The form reads the same object, so page and function cannot disagree. */
export const WATER_LIMITS = { temperature: { min: 0, max: 40, unit: "°C" } } as const;

/**
 * Density of pure, air-free water at 101 325 Pa.
 *
 * ρ = a₅ (1 − (t + a₁)² (t + a₂) / (a₃ (t + a₄)))
 *
 * @param temperature - °C on the scale of 1990; 0 to 40
 * @returns kg/m³, to within 0.001; tap water may differ by a few thousandths
 * @throws OutOfRangeError outside that range, NaN included
 * @remarks Do not use it beside `ethanol-water.ts` in one balance: that formula has a water end of its
 * own, up to 0.008 kg/m³ away, and a balance closes only with one of them.
 * Source: Tanaka, Girard, Davis, Peuto & Bignell, Metrologia 38 (2001) 301–309. seen (in a stored copy)
 *
 * @example
 * density(20); // 998.2067 kg/m³
 */
export function density(temperature: number): number {
  inRange("temperature", temperature, WATER_LIMITS.temperature);
  const fromMaximum = temperature - 3.983035;
  return (
    999.97495 *
    (1 - (fromMaximum ** 2 * (temperature + 301.797)) / (522528.9 * (temperature + 69.34881)))
  );
}
