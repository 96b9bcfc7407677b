import { inRange } from "../errors.ts";
import { brent } from "../numeric/root.ts";
import { ACID_CONSTANTS, ASCORBIC_ACID_MOLAR_MASS } from "../substances/ascorbic-acid.ts";
import type { Banded } from "../numeric/banded.ts";

/** Where the balance is used. The form reads the same object, so page and function cannot disagree. */
export const ACIDITY_LIMITS = {
  ascorbicAcidConcentration: { min: 0, max: 400, unit: "kg/m³" },
} as const;

/** −log₁₀ of water's ion product in (mol/L)², 25 °C. Source: CRC Handbook of Chemistry and Physics. memory */
export const WATER_CONSTANT = 13.995;

/**
 * Half-width of the pH, for what a balance of concentrations leaves out.
 * Source: half of the 2.1 to 2.6 that Ph. Eur. and BP allow a 50 g/L solution. seen (on a certificate)
 */
export const ACIDITY_SPREAD = 0.25;

/** How acid a solution of ascorbic acid is. */
export interface Acidity {
  readonly pH: Banded;
  /** of all the ions, mol/m³: small beside the acid, so that ions hardly disturb one another */
  readonly ionicStrength: number;
  /** acid that has given up its first proton, share */
  readonly dissociated: number;
}

/**
 * pH of a solution of ascorbic acid in water, 25 °C.
 *
 * Charges balance: [H⁺] = [HA⁻] + 2 [A²⁻] + [OH⁻], with [HA⁻] = c K₁ [H⁺]/D, [A²⁻] = c K₁ K₂/D and
 * D = [H⁺]² + K₁ [H⁺] + K₁ K₂. Solved as it stands, without the usual shortcut ½ (pK₁ − log₁₀ c).
 *
 * @param ascorbicAcidConcentration - kg/m³ of solution; 0 to 400
 * @returns pH with a band of ±{@link ACIDITY_SPREAD} and the spread of the published constants; without acid
 * 7.0 and no such band, for then a trace of anything decides
 * @throws OutOfRangeError outside that range, NaN included
 * @remarks Concentrations stand for activities. The ions' own effect on one another nearly cancels in a weak
 * acid on its own: at 50 g/L their ionic strength is 4 mmol/L. Above some 100 g/L the acid itself crowds the
 * solution, and alcohol holds protons back and raises the pH: neither is counted beyond the band. Lecithin
 * and hard tap water take up some acid and raise it too.
 * Source: balance of charge and mass. computed; constants as at {@link ACID_CONSTANTS}
 *
 * @example
 * acidity(50).pH; // { value: 2.36, low: 2.08, high: 2.61 }
 */
export function acidity(ascorbicAcidConcentration: number): Acidity {
  inRange(
    "ascorbicAcidConcentration",
    ascorbicAcidConcentration,
    ACIDITY_LIMITS.ascorbicAcidConcentration,
  );
  const { first, second } = ACID_CONSTANTS;
  const molarity = ascorbicAcidConcentration / ASCORBIC_ACID_MOLAR_MASS / 1000;
  const value = balance(molarity, first.value, second.value);
  const ions = ionsAt(value, molarity, first.value, second.value);
  // Pure water is where the band would make no sense: it is neutral whatever the acid's constants are.
  const spread = molarity > 0 ? ACIDITY_SPREAD : 0;
  return {
    pH: {
      value,
      low: balance(molarity, first.low, second.low) - spread,
      high: balance(molarity, first.high, second.high) + spread,
    },
    ionicStrength: 500 * (ions.proton + ions.hydroxide + ions.single + 4 * ions.double),
    dissociated: molarity > 0 ? (ions.single + ions.double) / molarity : 0,
  };
}

/** The pH at which charges balance. An acid alone cannot make water alkaline, nor c molar more acid than c. */
function balance(molarity: number, first: number, second: number): number {
  return brent(
    (pH) => {
      const { proton, hydroxide, single, double } = ionsAt(pH, molarity, first, second);
      return proton - single - 2 * double - hydroxide;
    },
    -1,
    7.5,
    1e-12,
  );
}

/** mol/L. */
function ionsAt(pH: number, molarity: number, first: number, second: number) {
  const proton = 10 ** -pH;
  const one = 10 ** -first;
  const two = 10 ** -second;
  const shared = proton ** 2 + one * proton + one * two;
  return {
    proton,
    hydroxide: 10 ** (pH - WATER_CONSTANT),
    single: (molarity * one * proton) / shared,
    double: (molarity * one * two) / shared,
  };
}
