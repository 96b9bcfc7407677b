import { inRange } from "../errors.ts";
import { brent } from "../numeric/root.ts";
import { ACID_CONSTANTS, ASCORBIC_ACID_MOLAR_MASS } from "../substances/ascorbic-acid.ts";
import type { Banded } from "../numeric/banded.ts";

/** Where the balance is used. The form reads the same object, so page and function cannot disagree. */
export const ACIDITY_LIMITS = {
  ascorbicAcidConcentration: { min: 0, max: 400, unit: "kg/m³" },
  concentration: { min: 0, max: 5000, unit: "mol/m³" },
  acidConstant: { min: -5, max: 14, unit: "1" },
} as const;

/** −log₁₀ of water's ion product in (mol/L)², 25 °C. Source: CRC Handbook of Chemistry and Physics. memory */
export const WATER_CONSTANT = 13.995;

/**
 * Half-width of the pH, for what a balance of concentrations leaves out.
 * Source: half of the 2.1 to 2.6 that Ph. Eur. and BP allow a 50 g/L solution. seen (on a certificate)
 */
export const ACIDITY_SPREAD = 0.25;

/** How acid a solution is. */
export interface Acidity<PH = number> {
  readonly pH: PH;
  /** of all the ions, mol/m³: small beside a weak acid, so that ions hardly disturb one another */
  readonly ionicStrength: number;
  /** acid that has given up its first proton, share */
  readonly dissociated: number;
}

/**
 * pH of an acid with two protons on its own in water, 25 °C.
 *
 * Charges balance: [H⁺] = [HA⁻] + 2 [A²⁻] + [OH⁻], with [HA⁻] = c K₁ [H⁺]/D, [A²⁻] = c K₁ K₂/D and
 * D = [H⁺]² + K₁ [H⁺] + K₁ K₂. Solved as it stands, without the usual shortcut ½ (pK₁ − log₁₀ c).
 *
 * @param concentration - mol/m³; 0 to 5000
 * @param first - pK₁ with K in mol/L; −5 to 14
 * @param second - pK₂; −5 to 14
 * @returns with concentrations in place of activities
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: balance of charge and mass. computed
 *
 * @example
 * diproticAcidity(284, 4.17, 11.57).pH; // 2.36
 */
export function diproticAcidity(concentration: number, first: number, second: number): Acidity {
  inRange("concentration", concentration, ACIDITY_LIMITS.concentration);
  inRange("first", first, ACIDITY_LIMITS.acidConstant);
  inRange("second", second, ACIDITY_LIMITS.acidConstant);
  const molarity = concentration / 1000;
  const pH = brent(
    (pH) => {
      const { proton, hydroxide, single, double } = ionsAt(pH, molarity, first, second);
      return proton - single - 2 * double - hydroxide;
    },
    // Both protons of five moles in a litre, and a little past neutral.
    -1.1,
    7.1,
    1e-12,
  );
  const { proton, hydroxide, single, double } = ionsAt(pH, molarity, first, second);
  return {
    pH,
    ionicStrength: 500 * (proton + hydroxide + single + 4 * double),
    dissociated: molarity > 0 ? (single + double) / molarity : 0,
  };
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

/**
 * pH of a solution of ascorbic acid in water, 25 °C.
 *
 * @param ascorbicAcidConcentration - kg/m³ of solution; 0 to 400
 * @returns pH with a band of ±{@link ACIDITY_SPREAD} and the spread of the published constants; without acid
 * 7.0 and no such band, for then a trace of anything decides
 * @throws OutOfRangeError outside that range, NaN included
 * @remarks Concentrations stand for activities. The ions' own effect on one another nearly cancels in a weak
 * acid on its own: at 50 g/L their ionic strength is 4 mmol/L. Above some 100 g/L the acid itself crowds the
 * solution, and alcohol holds protons back and raises the pH: neither is counted beyond the band. Lecithin
 * and hard tap water take up some acid and raise it too.
 * Source: as {@link diproticAcidity}, constants as at {@link ACID_CONSTANTS}
 *
 * @example
 * acidity(50).pH; // { value: 2.36, low: 2.08, high: 2.61 }
 */
export function acidity(ascorbicAcidConcentration: number): Acidity<Banded> {
  inRange(
    "ascorbicAcidConcentration",
    ascorbicAcidConcentration,
    ACIDITY_LIMITS.ascorbicAcidConcentration,
  );
  const { first, second } = ACID_CONSTANTS;
  const concentration = ascorbicAcidConcentration / ASCORBIC_ACID_MOLAR_MASS;
  const { pH: value, ...ions } = diproticAcidity(concentration, first.value, second.value);
  const spread = concentration > 0 ? ACIDITY_SPREAD : 0;
  return {
    pH: {
      value,
      low: diproticAcidity(concentration, first.low, second.low).pH - spread,
      high: diproticAcidity(concentration, first.high, second.high).pH + spread,
    },
    ...ions,
  };
}
