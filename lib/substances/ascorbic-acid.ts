import { inRange } from "../errors.ts";

/** The heat of solution is known to be taken up, so that warmth helps, from 25 to 50 °C; cold is taken to go on. */
export const SOLUBILITY_LIMITS = {
  massFraction: { min: 0, max: 1, unit: "1" },
  temperature: { min: 0, max: 50, unit: "°C" },
} as const;

/**
 * C₆H₈O₆, kg/mol. Source: IUPAC standard atomic weights. computed; USP 32 prints 176.12 g/mol. seen
 */
export const ASCORBIC_ACID_MOLAR_MASS = 0.176124;

/**
 * Acid constants in water at 25 °C, as −log₁₀ of mol/L: `value` as the Handbook of Pharmaceutical Excipients
 * prints them, `low` and `high` with an encyclopaedia's 4.10 and 11.6. seen
 */
export const ACID_CONSTANTS = {
  first: { value: 4.17, low: 4.1, high: 4.17 },
  second: { value: 11.57, low: 11.57, high: 11.6 },
} as const;

/** g of acid per g of solvent at room temperature, water and pure ethanol; "1 g in about 3 mL" and "50 mL". */
const IN_WATER = 0.33;
const IN_ETHANOL = 0.02 / 0.789;
/** The printed figures are descriptive ("1 g in about 3 mL"): a fifth either way. */
const WIDTH = 0.2;
/** Where "room temperature" is taken to lie, °C. */
const ROOM = { low: 20, high: 25 } as const;
/** Most that warmth adds, share per kelvin: ΔH/(R T²) for a heat of solution of 30 kJ/mol. memory */
const STEEPEST = 0.042;

/**
 * Roughly how much ascorbic acid a water–ethanol mixture dissolves.
 *
 * Between the two published end points the logarithm is taken as straight in the mass fraction (the
 * log-linear cosolvent rule). That is an estimate, not a measurement, and the band says so: from a fifth
 * below that rule to a fifth above the straight mass-weighted mean of the two end points.
 *
 * Away from room temperature no figure was found to draw a line through, only that warmth helps. So the
 * value stays, and the edge on the unsure side moves away by the most that a heat of solution would allow:
 * `low` in the cold, `high` in the warm.
 *
 * @param massFraction - ethanol in ethanol + water, 0 to 1
 * @param temperature - °C; 0 to 50
 * @returns kg of acid per kg of solvent; `low` and `high` are the estimate's edges
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks Source of the end points: Merck Index figures, 1 g in about 3 mL of water and in 50 mL of
 * absolute alcohol. seen (in reprints). That warmth helps: Dallos, Hajós-Szikszay & Liszi, J. Chem. Thermodyn.
 * 30 (1998) 263–270, in water at 25 and 50 °C; Nemdili et al., Int. J. Thermophys. 43 (2022) 123, in water and
 * in ethanol from 20 to 40 °C. seen (abstracts, without figures)
 *
 * @example
 * ascorbicAcidSolubility(0.1, 5); // { value: 0.255, low: 0.109, high: 0.359 }
 */
export function ascorbicAcidSolubility(
  massFraction: number,
  temperature: number = ROOM.low,
): {
  readonly value: number;
  readonly low: number;
  readonly high: number;
} {
  inRange("massFraction", massFraction, SOLUBILITY_LIMITS.massFraction);
  inRange("temperature", temperature, SOLUBILITY_LIMITS.temperature);
  const value = IN_WATER ** (1 - massFraction) * IN_ETHANOL ** massFraction;
  const most = IN_WATER * (1 - massFraction) + IN_ETHANOL * massFraction;
  const colder = Math.max(ROOM.low - temperature, 0);
  const warmer = Math.max(temperature - ROOM.high, 0);
  return {
    value,
    low: value * (1 - WIDTH) * Math.exp(-STEEPEST * colder),
    high: most * (1 + WIDTH) * Math.exp(STEEPEST * warmer),
  };
}
