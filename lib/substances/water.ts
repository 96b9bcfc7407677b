import { inRange } from "../errors.ts";

/** Where the formula holds. The form reads the same object, so page and function cannot disagree. */
export const WATER_LIMITS = { temperature: { min: 0, max: 40, unit: "°C" } } as const;

/**
 * Where the formulation at 0.1 MPa is asked for. It runs to 110 °C: the last half kelvin here is water that
 * would boil at that pressure.
 */
export const LIQUID_WATER_LIMITS = { temperature: { min: 0, max: 100, unit: "°C" } } as const;

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

type Term = readonly [coefficient: number, power: number];

// The Gibbs energy at 0.1 MPa and its slope with pressure, in α = 10 K/(593 K − T) and β = 10 K/(T − 232 K).
const ENERGY_ALPHA: readonly Term[] = [
  [-1.661470539e5, 4],
  [2.70878164e6, 5],
  [-1.557191544e8, 7],
];
const ENERGY_BETA: readonly Term[] = [
  [-0.8237426256, 2],
  [1.908956353, 3],
  [-2.017597384, 4],
  [0.8546361348, 5],
];
const VOLUME_ALPHA: readonly Term[] = [
  [6.74458446e3, 4],
  [-2.22521604e5, 5],
  [1.00231247e8, 7],
  [-1.63552118e9, 8],
  [8.32299658e9, 9],
];
const VOLUME_BETA: readonly Term[] = [
  [5.78545292e-3, 1],
  [-1.53195665e-2, 2],
  [3.11337859e-2, 3],
  [-4.23546241e-2, 4],
  [3.38713507e-2, 5],
  [-1.19946761e-2, 6],
];
/** Of water, J/(kg K). */
const GAS_CONSTANT = 461.51805;
/** K, Pa. */
const REFERENCE = { temperature: 10, pressure: 1e5 } as const;

/**
 * Density of water at 0.1 MPa over a wider range than {@link density}.
 *
 * @param temperature - °C; 0 to 100
 * @returns kg/m³, to within 0.01
 * @throws OutOfRangeError outside that range, NaN included
 * @remarks Within 0.002 of {@link density} up to 40 °C, but not joined to it: pressure and isotopes differ a
 * little. Use one of them throughout a balance.
 * Source: IAPWS SR6-08 (2011), liquid water at 0.1 MPa, eq. 2. seen (coefficients, in several stored copies
 * that agree)
 *
 * @example
 * densityWide(60); // 983.2 kg/m³
 */
export function densityWide(temperature: number): number {
  inRange("temperature", temperature, LIQUID_WATER_LIMITS.temperature);
  return 1 / specificVolume(temperature);
}

/**
 * Thermal expansion of water at 0.1 MPa, by volume: (∂v/∂T)/v.
 *
 * @param temperature - °C; 0 to 100
 * @returns 1/K; negative below 3.98 °C, where warming makes water denser and natural convection turns round
 * @throws OutOfRangeError outside that range, NaN included
 * Source: as {@link densityWide}
 *
 * @example
 * expansion(20); // 2.068e-4 per K
 */
export function expansion(temperature: number): number {
  inRange("temperature", temperature, LIQUID_WATER_LIMITS.temperature);
  const [alpha, beta] = reduced(temperature);
  const slope =
    (GAS_CONSTANT / REFERENCE.pressure) *
    (series(VOLUME_ALPHA, alpha, 1) - series(VOLUME_BETA, beta, 1));
  return slope / specificVolume(temperature);
}

/**
 * Heat capacity of water at a constant 0.1 MPa.
 *
 * @param temperature - °C; 0 to 100
 * @returns J/(kg K), ±0.1 %; least near 36 °C
 * @throws OutOfRangeError outside that range, NaN included
 * Source: as {@link densityWide}, eq. 1
 *
 * @example
 * heatCapacity(20); // 4184 J/(kg K)
 */
export function heatCapacity(temperature: number): number {
  inRange("temperature", temperature, LIQUID_WATER_LIMITS.temperature);
  const [alpha, beta] = reduced(temperature);
  const tau = (temperature + 273.15) / REFERENCE.temperature;
  return (
    -GAS_CONSTANT *
    (-8.983025854 + tau * (series(ENERGY_ALPHA, alpha, 2) + series(ENERGY_BETA, beta, 2)))
  );
}

/**
 * Viscosity of water at 0.1 MPa.
 *
 * @param temperature - °C; 0 to 100
 * @returns Pa s, ±1 %
 * @throws OutOfRangeError outside that range, NaN included
 * Source: IAPWS SR6-08 (2011), eq. 7. seen (in a stored copy)
 *
 * @example
 * viscosity(20); // 0.001002 Pa s
 */
export function viscosity(temperature: number): number {
  inRange("temperature", temperature, LIQUID_WATER_LIMITS.temperature);
  const ratio = (temperature + 273.15) / 300;
  return (
    1e-6 *
    (280.68 * ratio ** -1.9 +
      511.45 * ratio ** -7.7 +
      61.131 * ratio ** -19.6 +
      0.45903 * ratio ** -40)
  );
}

/**
 * Thermal conductivity of water at 0.1 MPa.
 *
 * @param temperature - °C; 0 to 100
 * @returns W/(m K), ±1.5 %
 * @throws OutOfRangeError outside that range, NaN included
 * Source: IAPWS SR6-08 (2011), eq. 8. seen (in a stored copy)
 *
 * @example
 * conductivity(20); // 0.598 W/(m K)
 */
export function conductivity(temperature: number): number {
  inRange("temperature", temperature, LIQUID_WATER_LIMITS.temperature);
  const ratio = (temperature + 273.15) / 300;
  return (
    1.663 * ratio ** -1.15 -
    1.7781 * ratio ** -3.4 +
    1.1567 * ratio ** -6 -
    0.432115 * ratio ** -7.6
  );
}

/** m³/kg. */
function specificVolume(temperature: number): number {
  const [alpha, beta] = reduced(temperature);
  return (
    ((GAS_CONSTANT * REFERENCE.temperature) / REFERENCE.pressure) *
    (1.93763157e-2 + series(VOLUME_ALPHA, alpha, 0) + series(VOLUME_BETA, beta, 0))
  );
}

function reduced(temperature: number): readonly [alpha: number, beta: number] {
  const kelvin = temperature + 273.15;
  return [REFERENCE.temperature / (593 - kelvin), REFERENCE.temperature / (kelvin - 232)];
}

/**
 * Σ c zⁿ, or its derivative of that order with the reduced temperature: dα/dτ = α², dβ/dτ = −β², so each
 * order raises the power by one (and turns the sign of an odd one in β, which the caller sees to).
 */
function series(terms: readonly Term[], z: number, order: 0 | 1 | 2): number {
  let sum = 0;
  for (const [coefficient, power] of terms) {
    const factor = [1, power, power * (power + 1)][order] as number;
    sum += coefficient * factor * z ** (power + order);
  }
  return sum;
}
