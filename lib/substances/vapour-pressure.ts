import { inRange } from "../errors.ts";

/** Where the pressure is asked for: far inside the equation's range, −114 to 241 °C. */
export const VAPOUR_PRESSURE_LIMITS = { temperature: { min: 0, max: 100, unit: "°C" } } as const;

/** Relative half-width of what six published equations give from 10 to 60 °C. */
export const ETHANOL_PRESSURE_SPREAD = 0.01;

/** Of ethanol: K, Pa. */
const CRITICAL = { temperature: 513.92, pressure: 6.132e6 } as const;

/**
 * Pressure of the vapour in balance with liquid ethanol. Water's is `saturationPressure` in `water.ts`.
 *
 * ln(p/p_c) = (T_c/T) (a₁τ + a₂τ^1.5 + a₃τ^2.5 + a₄τ⁵), τ = 1 − T/T_c
 *
 * @param temperature - °C; 0 to 100
 * @returns Pa, ±1 % ({@link ETHANOL_PRESSURE_SPREAD})
 * @throws OutOfRangeError outside that range, NaN included
 * @remarks Another set for the same name is in use, with the powers 1, 1.5, 3 and 6: mixed up they give
 * nonsense.
 * Source: Poling, Prausnitz & O'Connell, The Properties of Gases and Liquids, 5th ed. (2001), appendix A,
 * 159.05 to 513.92 K. seen (in the data of a public library)
 *
 * @example
 * ethanolSaturationPressure(25); // 7874 Pa
 */
export function ethanolSaturationPressure(temperature: number): number {
  inRange("temperature", temperature, VAPOUR_PRESSURE_LIMITS.temperature);
  const kelvin = temperature + 273.15;
  const tau = 1 - kelvin / CRITICAL.temperature;
  const root = Math.sqrt(tau);
  const sum = tau * (-8.68587 + 1.17831 * root - 4.8762 * tau * root + 1.588 * tau ** 4);
  return CRITICAL.pressure * Math.exp((CRITICAL.temperature / kelvin) * sum);
}
