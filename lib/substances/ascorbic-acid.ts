import { inRange } from "../errors.ts";

export const SOLUBILITY_LIMITS = { massFraction: { min: 0, max: 1, unit: "1" } } as const;

/** g of acid per g of solvent at room temperature, water and pure ethanol; "1 g in about 3 mL" and "50 mL". */
const IN_WATER = 0.33;
const IN_ETHANOL = 0.02 / 0.789;
/** The printed figures are descriptive ("1 g in about 3 mL"): a fifth either way. */
const WIDTH = 0.2;

/**
 * Roughly how much ascorbic acid a water–ethanol mixture dissolves at room temperature.
 *
 * Between the two published end points the logarithm is taken as straight in the mass fraction (the
 * log-linear cosolvent rule). That is an estimate, not a measurement, and the band says so: from a fifth
 * below that rule to a fifth above the straight mass-weighted mean of the two end points.
 *
 * @param massFraction - ethanol in ethanol + water, 0 to 1
 * @returns kg of acid per kg of solvent, about 20 to 25 °C; `low` and `high` are the estimate's edges
 * @throws OutOfRangeError outside 0 to 1, NaN included
 * @remarks Source of the end points: Merck Index figures, 1 g in about 3 mL of water and in 50 mL of
 * absolute alcohol. seen (in reprints)
 */
export function ascorbicAcidSolubility(massFraction: number): {
  readonly value: number;
  readonly low: number;
  readonly high: number;
} {
  inRange("massFraction", massFraction, SOLUBILITY_LIMITS.massFraction);
  const value = IN_WATER ** (1 - massFraction) * IN_ETHANOL ** massFraction;
  const most = IN_WATER * (1 - massFraction) + IN_ETHANOL * massFraction;
  return { value, low: value * (1 - WIDTH), high: most * (1 + WIDTH) };
}
