import { inRange } from "../errors.ts";
import { ascorbicAcidSolubility, SOLUBILITY_LIMITS } from "../substances/ascorbic-acid.ts";
import type { Banded } from "../numeric/banded.ts";

/** Where the comparison is made. The form reads the same object, so page and function cannot disagree. */
export const DISSOLVING_LIMITS = {
  ascorbicAcidMass: { min: 0, max: 20, unit: "kg" },
  solventMass: { min: 1e-6, max: 100, unit: "kg" },
  solventMassFraction: SOLUBILITY_LIMITS.massFraction,
  temperature: SOLUBILITY_LIMITS.temperature,
} as const;

/** What acid is dissolved in. */
export interface Solvent {
  /** ethanol and water together, kg */
  readonly mass: number;
  /** ethanol in ethanol + water */
  readonly massFraction: number;
  /** °C */
  readonly temperature: number;
}

/** "unsure" where the band of the solubility holds what is asked for. */
export type Dissolves = "yes" | "no" | "unsure";

/** Acid against what the solvent takes up. */
export interface Dissolving {
  /** kg of acid per kg of solvent */
  readonly saturation: Banded;
  /** share of the saturation that is used; above 1 some stays undissolved */
  readonly saturated: Banded;
  readonly dissolves: Dissolves;
}

/**
 * Whether the acid dissolves: what there is for each kilogram of solvent, against an estimate of the most.
 *
 * @param ascorbicAcidMass - kg; 0 to 20
 * @param solvent - mass 1 mg to 100 kg; mass fraction of ethanol 0 to 1; temperature 0 to 50 °C, the coldest
 * that the liquid will meet
 * @returns the saturation's own band, the share of it that is used, and a plain answer that is "yes" or "no"
 * only where the whole band says so
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks At rest, given time: a spoonful of crystals may need many minutes of stirring. What is kept out of
 * solution by lecithin, and what other solutes change, is not counted.
 * Source: as {@link ascorbicAcidSolubility}
 *
 * @example
 * dissolving(0.05, { mass: 0.42, massFraction: 0.1, temperature: 20 }).dissolves; // "yes"
 */
export function dissolving(ascorbicAcidMass: number, solvent: Solvent): Dissolving {
  inRange("ascorbicAcidMass", ascorbicAcidMass, DISSOLVING_LIMITS.ascorbicAcidMass);
  inRange("solventMass", solvent.mass, DISSOLVING_LIMITS.solventMass);
  inRange("solventMassFraction", solvent.massFraction, DISSOLVING_LIMITS.solventMassFraction);
  const saturation = ascorbicAcidSolubility(solvent.massFraction, solvent.temperature);
  const present = ascorbicAcidMass / solvent.mass;
  const saturated = {
    value: present / saturation.value,
    low: present / saturation.high,
    high: present / saturation.low,
  };
  return { saturation, saturated, dissolves: verdict(saturated) };
}

function verdict({ low, high }: Banded): Dissolves {
  if (high <= 1) return "yes";
  return low > 1 ? "no" : "unsure";
}
