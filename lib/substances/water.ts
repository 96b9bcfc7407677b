import { inRange } from "../errors.ts";

/** Where the formula holds. The form reads the same object, so page and function cannot disagree. */
export const WATER_LIMITS = { temperature: { min: 0, max: 40, unit: "°C" } } as const;

/** Where the saturation pressure is asked for: far inside the equation's range, which ends at 374 °C. */
export const SATURATION_LIMITS = { temperature: { min: 0, max: 100, unit: "°C" } } as const;

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

/** Of water: K, Pa. Source: IAPWS SR1-86 (1992). seen */
const CRITICAL = { temperature: 647.096, pressure: 22.064e6 } as const;

/**
 * Pressure of the vapour in balance with liquid water.
 *
 * ln(p/p_c) = (T_c/T) (a₁τ + a₂τ^1.5 + a₃τ³ + a₄τ^3.5 + a₅τ⁴ + a₆τ^7.5), τ = 1 − T/T_c
 *
 * @param temperature - °C; 0 to 100
 * @returns Pa, to within 0.03 %
 * @throws OutOfRangeError outside that range, NaN included
 * @remarks The equation begins at 0.01 °C, where ice, water and vapour meet; it is read 10 mK below that.
 * Source: IAPWS SR1-86 (1992), saturation properties, eq. 1; Wagner & Pruss, J. Phys. Chem. Ref. Data 22
 * (1993) 783–787. seen (coefficients, in the source of a public library)
 *
 * @example
 * saturationPressure(20); // 2339 Pa
 */
export function saturationPressure(temperature: number): number {
  inRange("temperature", temperature, SATURATION_LIMITS.temperature);
  const kelvin = temperature + 273.15;
  const tau = 1 - kelvin / CRITICAL.temperature;
  const root = Math.sqrt(tau);
  const sum =
    tau *
    (-7.85951783 +
      1.84408259 * root +
      tau ** 2 *
        (-11.7866497 + 22.6807411 * root - 15.9618719 * tau + 1.80122502 * tau ** 4 * root));
  return CRITICAL.pressure * Math.exp((CRITICAL.temperature / kelvin) * sum);
}
