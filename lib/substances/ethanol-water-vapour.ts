import { inRange, OutOfRangeError } from "../errors.ts";
import { brent } from "../numeric/root.ts";
import { ETHANOL_WATER_LIMITS, MOLAR_MASS } from "./ethanol-water.ts";
import { ethanolSaturationPressure, VAPOUR_PRESSURE_LIMITS } from "./vapour-pressure.ts";
import { saturationPressure } from "./water.ts";

/**
 * Where the functions of this file hold. The form reads the same object, so page and function cannot
 * disagree.
 */
export const VAPOUR_LIMITS = {
  massFraction: ETHANOL_WATER_LIMITS.massFraction,
  moleFraction: ETHANOL_WATER_LIMITS.moleFraction,
  temperature: VAPOUR_PRESSURE_LIMITS.temperature,
  pressure: { min: 50e3, max: 104e3, unit: "Pa" },
  molality: { min: 0, max: 5, unit: "mol/kg" },
} as const;

/** One standard atmosphere, Pa. */
export const ATMOSPHERE = 101_325;

/** Relative half-width of {@link totalPressure} against measurements at 30 and 50 °C. */
export const TOTAL_PRESSURE_SPREAD = 0.022;

/** One number for each of the two substances. */
export interface Pair {
  readonly ethanol: number;
  readonly water: number;
}

/** τ = a + b/T, T in K; 12 is ethanol in water, 21 water in ethanol. */
const TAU12 = { a: -0.8009, b: 246.18 } as const;
const TAU21 = { a: 3.4578, b: -586.0809 } as const;
const ALPHA = 0.3;

/**
 * Activity coefficients: how many times more each of the two pushes into the vapour than its share of the
 * molecules says. Next to nothing but water, ethanol is held four times less than by its own kind.
 *
 * ln γ₁ = x₂² [τ₂₁ (G₂₁/(x₁ + x₂G₂₁))² + τ₁₂G₁₂/(x₂ + x₁G₁₂)²], γ₂ with 1 and 2 exchanged;
 * G = exp(−ατ), τ = a + b/T (the non-random two-liquid equation)
 *
 * @param moleFraction - of ethanol in ethanol + water, 0 to 1
 * @param temperature - °C; 0 to 100
 * @returns both, 1 or more
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks Fitted from 25 to 100 °C in one set, because sets fitted at the boiling point are 8 to 18 % wrong
 * at 30 °C. Below 25 °C it is carried on. It overrates very dilute ethanol, under 2 % mass by 6 % at 40 °C,
 * 17 % at 25 °C and 28 % at 10 °C against Henry's law (whose published constants differ among themselves by
 * as much): losses come out too high and flash points too low, the safe side.
 * Source: form: Renon & Prausnitz, AIChE J. 14 (1968) 135–144. memory. Parameters: a widely reproduced
 * regression, 25 to 100 °C. memory (rounded digits seen in a public script)
 *
 * @example
 * activityCoefficients(0.09, 40); // ethanol 3.22, water 1.02
 */
export function activityCoefficients(moleFraction: number, temperature: number): Pair {
  inRange("moleFraction", moleFraction, VAPOUR_LIMITS.moleFraction);
  inRange("temperature", temperature, VAPOUR_LIMITS.temperature);
  const kelvin = temperature + 273.15;
  const tau12 = TAU12.a + TAU12.b / kelvin;
  const tau21 = TAU21.a + TAU21.b / kelvin;
  const g12 = Math.exp(-ALPHA * tau12);
  const g21 = Math.exp(-ALPHA * tau21);
  const [ethanol, water] = [moleFraction, 1 - moleFraction];
  const aroundEthanol = ethanol + water * g21;
  const aroundWater = water + ethanol * g12;
  return {
    ethanol: Math.exp(
      water ** 2 * (tau21 * (g21 / aroundEthanol) ** 2 + (tau12 * g12) / aroundWater ** 2),
    ),
    water: Math.exp(
      ethanol ** 2 * (tau12 * (g12 / aroundWater) ** 2 + (tau21 * g21) / aroundEthanol ** 2),
    ),
  };
}

/**
 * Pressure of each vapour in balance with the liquid: pᵢ = xᵢ γᵢ Pᵢ(T).
 *
 * @param moleFraction - of ethanol in ethanol + water, 0 to 1
 * @param temperature - °C; 0 to 100
 * @returns Pa
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks Ideal gas. Source: as {@link activityCoefficients}
 *
 * @example
 * partialPressures(0.089, 40); // ethanol 5150 Pa, water 6850 Pa
 */
export function partialPressures(moleFraction: number, temperature: number): Pair {
  const activity = activityCoefficients(moleFraction, temperature);
  return {
    ethanol: moleFraction * activity.ethanol * ethanolSaturationPressure(temperature),
    water: (1 - moleFraction) * activity.water * saturationPressure(temperature),
  };
}

/**
 * Pressure of both vapours together.
 *
 * @param moleFraction - of ethanol in ethanol + water, 0 to 1
 * @param temperature - °C; 0 to 100
 * @returns Pa, ±2.2 % ({@link TOTAL_PRESSURE_SPREAD}); 1 % root mean square
 * @throws OutOfRangeError outside those ranges, NaN included
 */
export function totalPressure(moleFraction: number, temperature: number): number {
  const { ethanol, water } = partialPressures(moleFraction, temperature);
  return ethanol + water;
}

/**
 * Share of ethanol among the molecules of the vapour, air left out.
 *
 * @param moleFraction - of ethanol in the liquid, 0 to 1
 * @param temperature - °C; 0 to 100
 * @returns 0 to 1, within 0.03 of measurements at the boiling point and near 30 °C
 * @throws OutOfRangeError outside those ranges, NaN included
 */
export function vapourMoleFraction(moleFraction: number, temperature: number): number {
  const { ethanol, water } = partialPressures(moleFraction, temperature);
  return ethanol / (ethanol + water);
}

/**
 * Ethanol in the air that has come to balance with the liquid: right over the surface, or in a closed
 * headspace.
 *
 * @param moleFraction - of ethanol in ethanol + water, 0 to 1
 * @param temperature - °C; 0 to 100, below the boiling point
 * @param pressure - of the air, Pa; 50 000 to 104 000
 * @returns share of the volume, 0 to 1
 * @throws OutOfRangeError outside those ranges, NaN included; for a liquid that boils (quantity
 * "temperature") the most that is allowed is its boiling point
 *
 * @example
 * saturatedVolumeFraction(0.089, 40); // 0.051, one and a half times the lower explosive limit
 */
export function saturatedVolumeFraction(
  moleFraction: number,
  temperature: number,
  pressure: number = ATMOSPHERE,
): number {
  inRange("pressure", pressure, VAPOUR_LIMITS.pressure);
  const { ethanol, water } = partialPressures(moleFraction, temperature);
  if (ethanol + water >= pressure)
    throw new OutOfRangeError("temperature", temperature, {
      ...VAPOUR_LIMITS.temperature,
      max: boilingPoint(moleFraction, pressure),
    });
  return ethanol / pressure;
}

/**
 * Boiling point: where the vapours together reach the pressure of the air.
 *
 * @param moleFraction - of ethanol in ethanol + water, 0 to 1
 * @param pressure - of the air, Pa; 50 000 to 104 000, and no more than the mixture has at 100 °C
 * @returns °C; 0.3 K root mean square from measurements at 101 325 Pa, 0.7 K at worst
 * @throws OutOfRangeError outside those ranges, NaN included
 *
 * @example
 * boilingPoint(0.8952); // 78.13 °C, the azeotrope: less than pure ethanol's 78.29
 */
export function boilingPoint(moleFraction: number, pressure: number = ATMOSPHERE): number {
  inRange("moleFraction", moleFraction, VAPOUR_LIMITS.moleFraction);
  const { min, max } = VAPOUR_LIMITS.temperature;
  inRange("pressure", pressure, {
    ...VAPOUR_LIMITS.pressure,
    max: Math.min(VAPOUR_LIMITS.pressure.max, totalPressure(moleFraction, max)),
  });
  return brent((t) => totalPressure(moleFraction, t) - pressure, min, max, 1e-9);
}

/**
 * What dissolved solids leave of both vapour pressures, if they only take up room among the molecules.
 *
 * 1 / (1 + b / n), n the moles in a kilogram of ethanol + water
 *
 * @param massFraction - ethanol in ethanol + water, 0 to 1
 * @param molality - b, dissolved matter per kg of ethanol + water, mol/kg; 0 to 5
 * @returns factor, 0 to 1: a size, not a correction, since no interaction is counted
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks Lecithin is heavy and not dissolved as single molecules: it counts for next to nothing.
 *
 * @example
 * solventShare(0.15, 1); // 0.98 with 176 g of ascorbic acid per kg
 */
export function solventShare(massFraction: number, molality: number): number {
  inRange("massFraction", massFraction, VAPOUR_LIMITS.massFraction);
  inRange("molality", molality, VAPOUR_LIMITS.molality);
  const moles = massFraction / MOLAR_MASS.ethanol + (1 - massFraction) / MOLAR_MASS.water;
  return moles / (moles + molality);
}
